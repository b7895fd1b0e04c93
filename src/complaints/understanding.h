// What a complaint says: the groups of words in it, with what was denied, what is missing, what is
// fine, and where and when it happens.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "complaints/said_parts.h"
#include "complaints/spoken_words.h"
#include "complaints/stemmer.h"
#include "complaints/typing_slips.h"
#include "complaints/vocabulary.h"

namespace dryout::complaints {

/// One thing said. `sign` is the id of its group, or the stem of a word that is in none; in front
/// of it stands "no " for a function that is missing and "fine " for what is said to be well.
struct SaidThing {
  std::string sign;
  bool known = false;      ///< in a group
  bool names_set = false;  ///< the whole set by its kind
};

struct Understood {
  std::vector<SaidThing> things;   ///< each once, in the order of the sentence
  std::set<std::string> excluded;  ///< troubles that were denied: "no hum"
  Where where;
};

class Understanding {
 public:
  explicit Understanding(const Vocabulary& vocabulary);

  /// Words of the knowledge: what is spelt like one of them is taken for it.
  void learn_words(std::string_view text);
  [[nodiscard]] Understood of(std::string_view text) const;
  /// The stems of a text, one after the other, slips mended.
  [[nodiscard]] std::vector<std::string> stems_of(std::string_view text) const;

 private:
  struct Phrase {
    std::vector<std::string> stems;
    const WordGroup* group;
  };
  struct Word {
    std::string text, stem;
    int clause;
  };
  [[nodiscard]] std::vector<Word> words_of(std::string_view text) const;
  [[nodiscard]] std::string stem_of(const std::string& word) const;
  [[nodiscard]] bool is_filler(const std::string& stem) const;
  [[nodiscard]] std::size_t length_of_match(const Phrase& phrase, const std::vector<Word>& words,
                                            std::size_t at) const;
  [[nodiscard]] std::vector<SaidPart> parts_of(const std::vector<Word>& words) const;

  Stemmer stemmer_;
  Vocabulary vocabulary_;
  std::unordered_map<std::string, std::vector<Phrase>> phrases_;  ///< by first stem, longest first
  std::unordered_map<std::string, std::string> denials_;          ///< stem -> id of its group
  std::set<std::string> fillers_;                                 ///< single stems
  KnownWords known_;
};

}  // namespace dryout::complaints
