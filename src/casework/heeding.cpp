#include "casework/heeding.h"

#include <algorithm>

namespace dryout::casework {
namespace {

using knowledge::Caution;
using planning::Danger;

/// What must be heeded for one caution; "" = nothing.
std::string danger_to_heed(const Hazard& hazard, const Caution& caution) {
  const Danger danger = danger_of(caution.danger);
  if (danger == Danger::none) {
    return {};
  }
  return caution.by_itself ? "caution:" + caution.id
                           : std::string(word_of(hazard.live ? danger : unplugged(danger)));
}

std::set<std::string> dangers_of(const Hazard& hazard) {
  std::set<std::string> dangers;
  if (hazard.dangerous()) {
    for (const Caution* caution : hazard.cautions) {
      dangers.insert(danger_to_heed(hazard, *caution));
    }
    dangers.erase("");
    if (dangers.empty()) {
      dangers.emplace(word_of(hazard.danger));  // the knowledge has no caution for it
    }
  }
  return dangers;
}

void take_in(Heeded& heeded, const Hazard& hazard, bool acknowledged) {
  if (acknowledged) {
    heeded.dangers.merge(dangers_of(hazard));
  }
  for (const Caution* caution : hazard.cautions) {
    heeded.read.insert(caution->id);
  }
}

}  // namespace

bool Heeded::covers(const Hazard& hazard) const {
  const std::set<std::string> needed = dangers_of(hazard);
  return std::includes(dangers.begin(), dangers.end(), needed.begin(), needed.end());
}

bool Heeded::has_read(const Hazard& hazard, const Caution& caution) const {
  const std::string danger = danger_to_heed(hazard, caution);
  return read.contains(caution.id) && (danger.empty() || dangers.contains(danger));
}

std::optional<HeededReading> reading_heeded(const Ground& ground, const std::string& item,
                                            const std::string& kind) {
  const auto found = ground.item(item);
  const auto read = kind.empty() ? std::optional(ReadingKind::esr) : readings::kind_of(kind);
  if (!found || !read || ground.check_finding(item, kind) ||
      !is_capacitor(ground.compiled.items[*found])) {
    return std::nullopt;
  }
  return HeededReading{*found, *read};
}

std::optional<AcknowledgeCautions> heeding_for(const Command& command) {
  if (const auto* outcome = std::get_if<RecordOutcome>(&command)) {
    return AcknowledgeCautions{outcome->check, outcome->place};
  }
  if (const auto* reading = std::get_if<RecordReading>(&command)) {
    return AcknowledgeCautions{reading->item, std::string(readings::word_of(reading->kind))};
  }
  return std::nullopt;
}

std::optional<Hazard> hazard_heeded(const Ground& ground, const AcknowledgeCautions& heeding) {
  if (const auto finding = ground.check_finding(heeding.check, heeding.place)) {
    return hazard_of(ground, *finding);
  }
  const auto reading = reading_heeded(ground, heeding.check, heeding.place);
  if (!reading) {
    return std::nullopt;
  }
  // Heeded before anybody has said at how many volts: as of a tester that can hurt.
  return hazard_of_reading(
      ground, reading->item, reading->kind,
      is_read_at_test_volts(reading->kind) ? dangerous_test_volts : quantities::Volt(0.0));
}

namespace {

/// What was heeded at a group stays heeded when all its parts have names and the group is no more.
std::optional<Hazard> hazard_still_heeded(const Ground& ground, const CaseState& state,
                                          const AcknowledgeCautions& heeding) {
  if (auto hazard = hazard_heeded(ground, heeding)) {
    return hazard;
  }
  for (const NamePart& part : state.parts) {
    if (part.group == heeding.place) {
      return hazard_heeded(ground, {heeding.check, part.reference});
    }
    if (heeding.check == part.group || heeding.check == "group:" + part.group) {
      return hazard_heeded(ground, {part.reference, heeding.place});
    }
  }
  return std::nullopt;
}

}  // namespace

Heeded heeded_of(const Ground& ground, const CaseState& state) {
  Heeded heeded;
  for (const auto& [check, place] : state.acknowledged) {
    if (const auto hazard = hazard_still_heeded(ground, state, {check, place})) {
      take_in(heeded, *hazard, true);
    }
  }
  for (const auto& told : state.outcomes) {
    if (const auto finding = ground.check_finding(told.what.check, told.what.place)) {
      take_in(heeded, hazard_of(ground, *finding), false);
    }
  }
  return heeded;
}

std::string reminder_of(const Hazard& hazard, const Heeded& heeded, const std::string& here) {
  std::string titles;
  bool dangerous = false;
  for (const Caution* caution : hazard.cautions) {
    if (heeded.has_read(hazard, *caution)) {
      titles += (titles.empty() ? "" : "; ") + caution->title;
      dangerous = dangerous || danger_of(caution->danger) != Danger::none;
    }
  }
  if (titles.empty()) {
    return {};
  }
  std::string line = "Read before: " + titles + '.';
  if (dangerous) {
    line += hazard.live ? " Clip on with the power off, one hand, local codes and licensed "
                          "practice first."
                        : " Plug out, discharged, measured before each touch; local codes and "
                          "licensed practice first.";
    line += here.empty() ? "" : ' ' + here;
  }
  return line;
}

}  // namespace dryout::casework
