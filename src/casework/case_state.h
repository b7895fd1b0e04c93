// What a case amounts to: the fold of the commands in force, without any judgement of them. Pure;
// the same commands at the same times give the same state.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "casework/command.h"

namespace dryout::casework {

/// Something told, with when, and how many repairs had been made by then: evidence after a repair
/// speaks of what is left in the set, not of what came in.
template <class C>
struct Told {
  int event = 0;
  std::int64_t at = 0;
  std::size_t repairs = 0;
  C what;
};

using CheckAtPlace = std::pair<std::string, std::string>;

struct CaseState {
  std::int64_t opened_at = 0;
  TakeIn intake;
  std::vector<Told<ReportSymptom>> symptoms;  ///< yes or no; one per symptom, place, repair count
  std::vector<Told<RecordOutcome>> outcomes;  ///< yes or no; one per check, place, repair count
  std::vector<Told<RecordReading>> readings;  ///< one per item, kind, in-circuit, repair count
  std::vector<NamePart> parts;                ///< one per reference
  std::set<CheckAtPlace> acknowledged;
  std::map<CheckAtPlace, std::string> declined;  ///< with the reason
  std::set<std::string> open_access;
  std::map<std::string, Told<JudgeSuspect>> judged;  ///< at_fault or cleared, by item
  std::vector<Told<RecordRepair>> repairs;
  std::vector<Told<RetestSymptom>> retests;  ///< newest per symptom and repair count
  std::vector<Told<RecordProof>> proofs;     ///< newest per step and repair count
  std::vector<Told<AddNote>> notes;
  std::optional<Told<CloseCase>> closed;
};

/// Adds one command to the state.
void fold(CaseState& state, int event, std::int64_t at, const Command& command);

/// After the newest repair a symptom was tried again, and none of those tried is still there.
[[nodiscard]] bool complaint_gone(const CaseState& state);

/// Something was mended, and no symptom was tried again since.
[[nodiscard]] bool awaits_retest(const CaseState& state);

/// The intake after a correction: what was left empty stays as it was.
[[nodiscard]] TakeIn corrected(const TakeIn& before, const TakeIn& correction);

}  // namespace dryout::casework
