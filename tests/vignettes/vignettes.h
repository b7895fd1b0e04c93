// Reading the vignettes and asking the engine whom it suspects: blame for what was reported, as the
// workshop's view ranks it. Only the first few places are worked out.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "casework/command.h"
#include "diagnosis/compile_network.h"
#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::vignettes {

inline constexpr int year_now = 2026;  ///< as of when the sets are judged

struct Outcome {
  std::string check;
  std::string place;  ///< "" = the whole set
  bool bad = false;
};

/// One set on the bench; the README beside this file says what each member means.
struct Vignette {
  std::string id;
  std::string equipment;
  int year = 0;
  std::vector<std::pair<std::string, bool>> symptoms;  ///< symptom id, there or not
  std::vector<casework::ReportSymptom> placed;         ///< told with a place or a condition
  std::vector<Outcome> outcomes;
  std::vector<std::string> expect_top1, expect_top3, must_not_lead;
  bool capacitor = false;  ///< whether the answer is one
  std::string document;    ///< the published one that it comes from; "" = practice or judgement
};

/// All vignettes of a folder, in the order of file names.
[[nodiscard]] quantities::Result<std::vector<Vignette>> read_folder(const std::string& folder);

/// What was seen, as evidence on the compiled network, to which what has a place is added, and what
/// of it is the complaint: the reported symptoms, or the checks that looked bad where there are
/// none.
struct Seen {
  diagnosis::Evidence evidence;
  std::vector<std::size_t> complaint;
  std::vector<std::string> unknown;  ///< symptoms and checks that this equipment does not have
};
[[nodiscard]] Seen seen_in(const knowledge::KnowledgeBase& knowledge, const Vignette& vignette,
                           diagnosis::CompiledNetwork& compiled);

struct Suspect {
  std::size_t item = 0;
  double blame = 0.0;  ///< P(causes some of the complaint | all that was seen)
};
inline constexpr std::size_t places = 3;
/// The first three, most to blame first. Empty where the evidence is impossible.
[[nodiscard]] std::vector<Suspect> leading_suspects(const diagnosis::Network& network,
                                                    const Seen& seen);

/// "cause:open-diode@" matches every item that begins so.
[[nodiscard]] bool matches(const std::string& item, const std::vector<std::string>& expected);

struct Score {
  bool top1 = false;
  bool top3 = false;
  bool led_by_forbidden = false;  ///< one of must_not_lead came first
};
[[nodiscard]] Score score(const Vignette& vignette, const diagnosis::Network& network,
                          const std::vector<Suspect>& suspects);

[[nodiscard]] diagnosis::CompiledNetwork compile(const knowledge::KnowledgeBase& knowledge,
                                                 const Vignette& vignette);

}  // namespace dryout::vignettes
