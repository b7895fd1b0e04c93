// The one door to this room: what an owner says, in; symptoms, equipment and what is not this
// program's field, out, each best first.
//
//   ComplaintReader reader(base, *load_vocabulary(trees));
//   Heard heard = reader.read("left speaker dead");   // one-channel-dead, channel=left
//
// How a symptom is ranked. Title, owner's words and `said_as` of a symptom, and the complaint, are
// reduced to signs (understanding.h). A sign weighs by how few symptoms bear it (the inverse
// document frequency of BM25: Robertson and Zaragoza 2009, "The Probabilistic Relevance Framework",
// equation 3.5, from memory). A phrase fits by Tversky's ratio (Tversky 1977, "Features of
// Similarity", from memory): shared weight over shared + a share of what only one of the two has,
// less for what only the complaint has, since owners say more than they must.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "complaints/vocabulary.h"
#include "knowledge/knowledge_base.h"

namespace dryout::complaints {

struct HeardSymptom {
  std::string id, title;
  double score = 0.0;  ///< 0 to 1: how well the words fit; no probability
  Where where;
};
struct HeardEquipment {
  std::string id, title;
  double score = 0.0;
};
struct HeardElsewhere {
  std::string id, title, advice;
  double score = 0.0;
};
struct Heard {
  std::vector<HeardSymptom> symptoms;
  std::vector<HeardEquipment> equipment;
  std::vector<HeardElsewhere> elsewhere;
  [[nodiscard]] bool nothing() const {
    return symptoms.empty() && equipment.empty() && elsewhere.empty();
  }
};

/// What is known beside the words.
struct Beside {
  std::string equipment;    ///< id, or "": what it can't have stands far down
  std::optional<int> year;  ///< built in: shifts which equipment is likely
};

class ComplaintReader {
 public:
  ComplaintReader(const knowledge::KnowledgeBase& knowledge, const Vocabulary& vocabulary);
  ~ComplaintReader();
  ComplaintReader(ComplaintReader&&) noexcept;
  ComplaintReader& operator=(ComplaintReader&&) noexcept;

  [[nodiscard]] Heard read(std::string_view said, const Beside& beside = {}) const;

 private:
  struct Index;
  std::unique_ptr<const Index> index_;
};

}  // namespace dryout::complaints
