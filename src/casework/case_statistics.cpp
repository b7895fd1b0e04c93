#include "casework/case_statistics.h"

#include <algorithm>
#include <cmath>

#include "casework/case_ground.h"
#include "casework/check_command.h"
#include "casework/subject.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using casestore::ReadingFact;

std::optional<int> age_of(const CaseState& state) {
  if (!state.intake.year_built) {
    return std::nullopt;
  }
  return std::max(0, year_of(state.opened_at) - *state.intake.year_built);
}

/// Two ids, full or short, name the same part or group.
bool same_item(const Subjects& subjects, const std::string& a, const std::string& b) {
  return subjects.title_of_item(a) == subjects.title_of_item(b);
}

bool fitted_by_us(const CaseState& state, const Subjects& subjects,
                  const Told<RecordReading>& reading) {
  for (std::size_t i = 0; i < reading.repairs && i < state.repairs.size(); ++i) {
    if (same_item(subjects, state.repairs[i].what.item, reading.what.item)) {
      return true;
    }
  }
  return false;
}

casestore::Standing standing_of(const CaseState& state, const Subjects& subjects,
                                const std::string& item) {
  if (!state.closed || state.closed->what.cause.empty()) {
    return casestore::Standing::not_known;
  }
  const std::string& cause = state.closed->what.cause;
  if (same_item(subjects, cause, item)) {
    return casestore::Standing::bad;
  }
  const bool brothers = subjects.group_of(cause) == subjects.group_of(item);
  const bool mended =
      std::any_of(state.repairs.begin(), state.repairs.end(), [&](const auto& repair) {
        return subjects.group_of(repair.what.item) == subjects.group_of(item);
      });
  return brothers || mended ? casestore::Standing::not_known : casestore::Standing::sound;
}

ReadingFact fact_of(const CaseState& state, const knowledge::KnowledgeBase& knowledge,
                    const Subjects& subjects, const Told<RecordReading>& told) {
  constexpr double least = 1e-9;  // a meter that shows nothing
  const NamePart* part = subjects.part_of(told.what.item);
  const knowledge::PartGroup& group = *subjects.group_of(told.what.item);
  ReadingFact fact;
  fact.event = told.event;
  fact.technology = part == nullptr || part->technology.empty()
                        ? knowledge::technology_of(knowledge, group)
                        : part->technology;
  fact.kind = word_of(told.what.kind);
  fact.role = group.role;
  fact.capacitance = part != nullptr && part->capacitance ? *part->capacitance : group.capacitance;
  fact.rated = part != nullptr && part->rated ? *part->rated : group.rated;
  fact.value = std::max(std::abs(told.what.value), least);
  fact.limit = told.what.limit;
  fact.age = age_of(state);
  fact.standing = standing_of(state, subjects, told.what.item);
  fact.alone = !told.what.in_circuit || told.what.across == Across::nothing;
  return fact;
}

}  // namespace

casestore::CaseStatistics statistics_of(const CaseState& state,
                                        const knowledge::KnowledgeBase& knowledge) {
  casestore::CaseStatistics statistics;
  const auto* equipment = knowledge::find(knowledge.equipment, state.intake.equipment);
  if (equipment == nullptr) {
    return statistics;
  }
  const Subjects subjects(knowledge, state);
  if (state.closed) {
    statistics.closed = {equipment->family, subjects.of_item(state.closed->what.cause),
                         year_of(state.opened_at), age_of(state)};
  }
  for (const auto& told : state.readings) {
    if (subjects.group_of(told.what.item) != nullptr && !fitted_by_us(state, subjects, told) &&
        out_of_range(told.what).empty()) {
      statistics.readings.push_back(fact_of(state, knowledge, subjects, told));
    }
  }
  std::sort(statistics.readings.begin(), statistics.readings.end(),
            [](const auto& a, const auto& b) { return a.event < b.event; });
  return statistics;
}

}  // namespace dryout::casework
