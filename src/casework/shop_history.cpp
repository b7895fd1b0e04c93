#include "casework/shop_history.h"

#include <algorithm>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "quantities/printed_number.h"
#include "readings/choose_limit.h"

namespace dryout::casework {
namespace {

using quantities::Result;

constexpr std::int64_t readings_least = 3;
/// A part is the same type within a thousandth of its marked values.
constexpr double same_value = 1e-3;

bool same(double a, double b) { return std::abs(a - b) <= same_value * std::max(a, b); }

}  // namespace

Result<ShopHistory> ShopHistory::read(const casestore::CaseStore& store) {
  const auto causes = store.cause_counts("", "");
  if (!causes) {
    return causes.problems();
  }
  const auto counts = store.sound_counts();
  if (!counts) {
    return counts.problems();
  }
  ShopHistory history;
  for (const casestore::CauseCount& count : *causes) {
    if (!count.subject.empty()) {
      history.causes_[count.family].push_back({count.subject, count.cases});
    }
  }
  history.sound_parts_ = sound_readings(*counts);
  return history;
}

const std::vector<SubjectCases>& ShopHistory::causes(const std::string& family) const {
  static const std::vector<SubjectCases> none;
  const auto found = causes_.find(family);
  return found == causes_.end() ? none : found->second;
}

std::optional<double> ShopHistory::limit_for(const readings::ReadingInput& input,
                                             const readings::LimitsLibrary& library) const {
  if (!input.capacitance || !input.rated ||
      (input.kind != readings::Kind::esr && input.kind != readings::Kind::impedance)) {
    return std::nullopt;
  }
  const auto of_type = [&](const SoundReadings& type) {
    return type.readings >= readings_least && type.technology == input.technology &&
           type.kind == readings::word_of(input.kind) &&
           same(type.capacitance.si(), input.capacitance->si()) &&
           same(type.rated.si(), input.rated->si());
  };
  const auto type = std::find_if(sound_parts_.begin(), sound_parts_.end(), of_type);
  const auto before = typical_by_library(
      library, {input.technology, input.body, input.capacitance, input.rated}, input.kind);
  if (type == sound_parts_.end() || !before) {
    return std::nullopt;
  }
  const NormalBelief after = learn_typical(*before, *type);
  const readings::Rung& rung = readings::rung_of(readings::LimitSource::fresh_part);
  const bool surer = after.spread < rung.log_spread && rung.log_spread < before->spread;
  return surer ? std::optional(std::exp(after.mean)) : std::nullopt;
}

std::optional<NormalBelief> typical_by_library(const readings::LimitsLibrary& library,
                                               const readings::PartDescription& part,
                                               readings::Kind kind) {
  // Asked as a reading asks.
  readings::ReadingInput input;
  input.kind = kind;
  input.technology = part.technology;
  input.body = part.body;
  input.capacitance = part.capacitance;
  input.rated = part.rated;
  const readings::ChosenLimit chosen = readings::choose_limit(input, library);
  if (!chosen.limit) {
    return std::nullopt;
  }
  const auto believed = readings::esr_limit_under(*chosen.limit, readings::conditions_of(input));
  if (!believed) {
    return std::nullopt;
  }
  // A sound part of middling age against its limit (readings/states.h).
  const readings::StateSpread sound = readings::resistance_spread("sound", 0.5);
  const double resistance = believed->median * sound.median;
  const double reactance = kind == readings::Kind::impedance && part.capacitance
                               ? circuit::reactance(*part.capacitance, input.frequency).si()
                               : 0.0;
  return NormalBelief{std::log(std::hypot(resistance, reactance)),
                      std::hypot(believed->log_spread, readings::type_log_spread)};
}

std::string told(const HistoryUse& use) {
  return "The shop's own closed cases are in these figures, as it was switched on: " +
         std::to_string(use.cases) + " of this family, counted as " +
         quantities::whole_number(use.counted) + " beside the knowledge's " +
         quantities::whole_number(knowledge_worth) + '.';
}

HistoryUse apply_history(const ShopHistory& history, const knowledge::Equipment& equipment,
                         diagnosis::CompiledNetwork& compiled) {
  const auto shares =
      learn_shares(expected_shares(compiled, equipment), history.causes(equipment.family));
  apply_shares(compiled, equipment, shares);
  HistoryUse use;
  for (const LearnedShare& share : shares) {
    use.cases += share.cases;
    use.counted += share.counted;
  }
  return use;
}

}  // namespace dryout::casework
