// Who stands convicted, and by what. Three things are kept apart:
//
//   blame       P(it makes some of what was reported): what a technician asks for first, and what
//               falls as soon as something else explains the complaint;
//   conviction  it is bad, whoever makes the complaint: its own reading is over its limit, a d.c.
//               reading of it alone shows a short, or the technician said so. Nothing that happens
//               elsewhere in the set takes that back;
//   suspicion   what a face shows: the blame, and of what is convicted by a reading or by judgement
//               P(not sound), which is never less than its blame, and never less than what its
//               reading alone came to when it convicted.
//
// So a part that its data sheet convicts stays at 90 % and above, and stays to be mended, whatever
// is found beside it. What takes it back is a reading of the same part within the limit, or the
// technician's word.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "casework/case_evidence.h"
#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "diagnosis/posterior.h"

namespace dryout::casework {

/// Beyond reasonable doubt at the bench: 20 to 1 (judgement).
inline constexpr double settled_from = 0.95;

enum class Conviction {
  none,
  /// Over its limit, and the rest of the case leaves no doubt or the sheet is its own; or shorted.
  by_reading,
  by_judgement,  ///< the technician said "at fault", and no reading of it says so
  by_blame,      ///< nothing measured there, but it explains the complaint beyond reasonable doubt
};

/// "", reading, judgement, blame.
[[nodiscard]] std::string_view word_of(Conviction conviction);

/// A limit or the technician convicts, not the complaint.
[[nodiscard]] inline bool stands_by_itself(Conviction conviction) {
  return conviction == Conviction::by_reading || conviction == Conviction::by_judgement;
}

/// [item]: how far readings that prove nothing by themselves (masked, not proven, a table's) speak
/// against it, in decibans. The headline may not settle on these: their own sentences say "lift a
/// leg", or "find the sheet".
[[nodiscard]] std::vector<double> weight_of_unproven_readings(
    const CaseState& state, const CaseEvidence& evidence, const diagnosis::EvidenceWeights& weights,
    std::size_t items);

/// A probability as it would be without so many decibans for it; none = as it is.
[[nodiscard]] double without_unproven(double probability, double decibans);

/// What a case says against each item: [item]. What was mended, or cleared by the technician, is
/// not convicted. `blame`: without what unproven readings speak; empty where nothing was complained
/// of.
[[nodiscard]] std::vector<Conviction> convictions(const Ground& ground, const CaseState& state,
                                                  const CaseEvidence& evidence,
                                                  const diagnosis::Posterior& now,
                                                  const std::vector<double>& blame);

/// What the readings over its limit came to by themselves, the most of them; 0 without one.
[[nodiscard]] double convicted_alone(const Ground& ground, const CaseState& state,
                                     const CaseEvidence& evidence, std::size_t item);

/// What the technician said of an item, where a verdict stands.
[[nodiscard]] bool was_judged(const Ground& ground, const CaseState& state, std::size_t item,
                              JudgeSuspect::Verdict verdict);

/// What was judged against a reading of the same part, a sentence each: cleared though it reads
/// over its limit, at fault though it reads within it.
[[nodiscard]] std::vector<std::string> judged_against_readings(const Ground& ground,
                                                               const CaseState& state,
                                                               const CaseEvidence& evidence);

}  // namespace dryout::casework
