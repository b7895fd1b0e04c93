#include "casework/reading_evidence.h"

#include <algorithm>
#include <cmath>

#include "casework/batches.h"
#include "casework/check_command.h"
#include "casework/known_across.h"
#include "casework/words.h"
#include "quantities/check.h"
#include "quantities/printed_number.h"
#include "readings/assess_reading.h"

namespace dryout::casework {
namespace {

using diagnosis::CompiledItem;
using readings::Assessment;
using readings::ReadingInput;

const knowledge::Technology* technology_of(const Ground& ground, const NamePart* part,
                                           const knowledge::PartGroup* group) {
  std::string id = part == nullptr ? "" : part->technology;
  if (id.empty() && group != nullptr) {
    id = group->technology;
    if (const auto* role = knowledge::find(ground.knowledge->roles, group->role); id.empty()) {
      id = role == nullptr ? "" : role->technology;
    }
  }
  return knowledge::find(ground.knowledge->technologies, id);
}

double effective_age(const Ground& ground, const CaseState& state,
                     const knowledge::PartGroup* group) {
  const knowledge::Equipment& equipment = *ground.equipment;
  const int built = state.intake.year_built.value_or((equipment.year_from + equipment.year_to) / 2);
  const auto& factors = ground.knowledge->ageing.warmth_factor;
  const auto factor = factors.find(group == nullptr ? "" : group->warmth);
  const int years = std::max(0, year_of(state.opened_at) - built);
  return years * (factor == factors.end() ? 1.0 : factor->second);
}

ReadingInput input_of(const RecordReading& reading, const NamePart* part,
                      const knowledge::PartGroup* group) {
  ReadingInput input;
  input.value = std::abs(reading.value);
  input.over_range = reading.over_range;
  input.test_volts = reading.test_volts;
  input.kind = reading.kind;
  input.frequency = reading.frequency;
  input.temperature = reading.temperature;
  input.limit = reading.limit;
  // A limit from nowhere in particular proves no more than a general table.
  input.limit_source = readings::limit_source_of(reading.limit_source)
                           .value_or(readings::LimitSource::general_table);
  input.in_circuit = reading.in_circuit;
  input.across = reading.across;
  if (reading.lead_zero) {
    input.lead_zero = quantities::Ohm(*reading.lead_zero);
  }
  const auto typical = [](auto named, auto of_group, quantities::Measure measure) {
    const quantities::PhysicalRange& range = quantities::range_of(measure);
    return named && range.contains(named->si()) ? named
           : range.contains(of_group.si())      ? std::optional(of_group)
                                                : std::nullopt;
  };
  const knowledge::PartGroup nothing;
  const knowledge::PartGroup& usual = group == nullptr ? nothing : *group;
  input.capacitance = typical(part == nullptr ? std::nullopt : part->capacitance, usual.capacitance,
                              quantities::Measure::marked_capacitance);
  const bool listed = group != nullptr && !group->references.empty();  // as the parts list says
  input.mark_known = (part != nullptr && part->capacitance) || listed;
  input.rated = typical(part == nullptr ? std::nullopt : part->rated, usual.rated,
                        quantities::Measure::rated_volts);
  return input;
}

/// The row in the order of the network's states. A state the room does not speak of explains the
/// reading as well as a sound part does.
std::vector<double> in_order_of(const std::vector<std::string>& wanted,
                                const std::vector<std::string>& states,
                                const std::vector<double>& row) {
  std::vector<double> ordered;
  for (const std::string& state : wanted) {
    const auto found = std::find(states.begin(), states.end(), state);
    ordered.push_back(found == states.end()
                          ? row.front()
                          : row[static_cast<std::size_t>(found - states.begin())]);
  }
  return ordered;
}

/// A group stands in the worst state of its members, and the part that was read is any one of them:
/// with n parts the reading comes from the bad one with probability 1/n, else from a sound one.
void spread_over_group(std::vector<double>& row, int count) {
  for (std::size_t state = 1; state < row.size(); ++state) {
    row[state] = (row[state] + (count - 1) * row.front()) / count;
  }
}

/// Rows as the item's cohort has levels; the mean where the network knows one level only.
std::vector<std::vector<double>> rows_for(const diagnosis::Item& item, const Assessment& assessment,
                                          const readings::Priors& priors) {
  std::vector<std::vector<double>> rows;
  const bool accused = !assessment.among_brothers.empty();
  for (const auto& row : accused ? assessment.among_brothers : assessment.likelihood) {
    rows.push_back(in_order_of(item.states, assessment.states, row));
  }
  if (rows.size() == 1 || rows.size() == item.given_level.size()) {
    return rows;
  }
  std::vector<double> mean(item.states.size(), 0.0);
  for (std::size_t level = 0; level < rows.size() && level < priors.levels.size(); ++level) {
    for (std::size_t state = 0; state < mean.size(); ++state) {
      mean[state] += priors.levels[level] * rows[level][state];
    }
  }
  return {mean};
}

/// The shop's meter says how well it reads and what its test signal does. A reading that was taken
/// without saying at which frequency carries 100 kHz; the meter knows better.
void set_meter(const Ground& ground, const RecordReading& reading, ReadingInput& input) {
  const readings::Meter* meter = readings::find_meter(ground.readings->meters, reading.meter);
  if (meter == nullptr) {
    return;
  }
  input.meter = *meter;
  if (reading.frequency == RecordReading{}.frequency) {
    input.frequency = meter->frequency;
  }
  input.meter->frequency = input.frequency;
}

/// What the parts list of the equipment knows to sit across, where nobody has said.
void set_across(const Ground& ground, const knowledge::PartGroup* group, ReadingInput& input,
                std::vector<std::string>& told) {
  if (!input.in_circuit || input.across != Across::unknown || group == nullptr) {
    return;
  }
  if (const auto known = known_across(ground, *group)) {
    input.across = known->across;
    told.push_back("Across it, by the description of the set: " + known->because + '.');
  }
}

std::string doubt_of_meter(const Ground& ground, const RecordReading& reading) {
  if (reading.meter.empty()) {
    return "";
  }
  const readings::Meter* meter = readings::find_meter(ground.readings->meters, reading.meter);
  if (meter == nullptr) {
    return "The meter \"" + reading.meter +
           "\" is not in the shop's list: a usual handheld one is assumed.";
  }
  return meter->can_show(reading.kind) ? ""
                                       : "By the shop's list, " + meter->title + " does not show " +
                                             std::string(readings::word_of(reading.kind)) + '.';
}

WeighedReading worded(const Assessment& assessment) {
  WeighedReading weighed;
  weighed.verdict = readings::word_of(assessment.verdict);
  weighed.sentence = assessment.sentence;
  if (assessment.limit) {
    weighed.limit = assessment.limit->value;
    weighed.limit_source = readings::rung_of(assessment.limit->source).word;
    weighed.limit_told = assessment.limit_told;
  }
  if (!assessment.limit_refusal.empty()) {
    weighed.caveats.push_back(assessment.limit_refusal);
  }
  for (const readings::FiredCaveat& caveat : assessment.caveats) {
    weighed.caveats.push_back(caveat.title + ": " + caveat.effect);
  }
  weighed.caveats.insert(weighed.caveats.end(), assessment.advice.begin(), assessment.advice.end());
  return weighed;
}

WeighedReading without_effect(std::string sentence) {
  WeighedReading weighed;
  weighed.verdict = readings::word_of(readings::Verdict::not_proven);
  weighed.sentence = std::move(sentence);
  return weighed;
}

/// Where nobody typed a limit and the shop's history is switched on, sound parts of the type that
/// were read here stand in for a fresh one. Whether they do.
bool use_history(const Ground& ground, ReadingInput& input) {
  if (ground.history == nullptr || input.limit) {
    return false;
  }
  input.limit = ground.history->limit_for(input, ground.readings->limits);
  if (input.limit) {
    input.limit_source = readings::LimitSource::fresh_part;
  }
  return input.limit.has_value();
}

/// What shows no number, or one that cannot be, is nobody's brother.
bool compares(const RecordReading& reading) {
  return !reading.over_range && reading.value != 0.0 && out_of_range(reading).empty();
}

/// Read after its item was renewed: it tells of the part that went in.
bool is_of_a_new_part(const Ground& ground, const CaseState& state,
                      const Told<RecordReading>& told) {
  const auto item = ground.item(told.what.item);
  return std::any_of(state.repairs.begin(),
                     state.repairs.begin() + static_cast<std::ptrdiff_t>(told.repairs),
                     [&](const auto& repair) { return ground.item(repair.what.item) == item; });
}

/// Against the median of its brothers; 1 where it has none.
double times_its_brothers(double value, const std::vector<double>& others) {
  if (others.empty()) {
    return 1.0;
  }
  std::vector<double> all{value};
  for (const double other : others) {
    all.push_back(std::abs(other));
  }
  return readings::times_median_of_others(all, 0);
}

/// Of ESR too little is no more than a hint; direct current through the part itself is the short.
bool shows_shorts_alone(const ReadingInput& input) {
  const bool alone = !input.in_circuit || input.across == Across::nothing;
  const bool direct = input.kind == ReadingKind::dc_resistance ||
                      input.kind == ReadingKind::leakage_current ||
                      input.kind == ReadingKind::insulation;
  return alone && direct;
}

std::string stands_off_told(double times, std::size_t brothers) {
  const std::string of = " its brother" + std::string(brothers == 1 ? "" : "s") + ": ";
  const std::string count =
      brothers == 1 ? "one other part" : std::to_string(brothers) + " other parts";
  if (times >= readings::outlier_times) {
    return "Stands off" + of + quantities::fixed_point(times, 1) + " times the median of " + count +
           " of its make, value and volts. That speaks against it, and convicts nobody alone.";
  }
  if (times <= 1.0 / readings::outlier_times) {
    return "Far below" + of + count + " of its make, value and volts read " +
           quantities::fixed_point(1.0 / times, 1) +
           " times as much (median). It was renewed before, or they have aged.";
  }
  return "";
}

/// What is typical of a place is not what is printed on this part: real ones are a quarter of it as
/// well, and their limit then four times as much (first filters of 8 to 50 uF: common practice).
constexpr double typical_off_by = 4.0;
constexpr double guess_speaks_at_most = 3.0;  ///< times likelier than sound (judgement)

/// Over a limit that was reckoned for a value nobody read off the part.
bool rests_on_a_guess(const ReadingInput& input, const Assessment& assessment) {
  const bool by_value = input.kind == ReadingKind::esr || input.kind == ReadingKind::impedance;
  return by_value && !input.mark_known && !input.limit && assessment.limit &&
         assessment.verdict == readings::Verdict::over_limit &&
         input.value <= typical_off_by * assessment.limit->value;
}

void speak_no_louder_than_a_guess(const ReadingInput& input, Assessment& assessment) {
  assessment.verdict = readings::Verdict::not_proven;
  assessment.sentence =
      quantities::format_engineering(input.value, unit_of(input.kind)) + " is over " +
      assessment.limit_told + ", reckoned from " +
      (input.capacitance ? quantities::format(*input.capacitance) : std::string("a value")) +
      " as is typical of this place: a smaller part may read so and be sound. Read what is printed "
      "on it, give the part its name and value, and it is judged by that.";
  for (std::vector<double>& row : assessment.likelihood) {
    for (double& each : row) {
      each = std::min(each, guess_speaks_at_most * row.front());
    }
  }
}

}  // namespace

bool WeighedReading::is_bad() const {
  return shorted || verdict == readings::word_of(readings::Verdict::over_limit);
}

bool WeighedReading::is_good() const {
  return verdict == readings::word_of(readings::Verdict::within_limit);
}

Brothers::Brothers(const Ground& ground, const CaseState& state) : ground_(ground), state_(state) {
  for (const auto& told : state.readings) {
    const auto item = ground.item(told.what.item);
    if (item && is_capacitor(ground.compiled.items[*item]) && compares(told.what) &&
        !is_of_a_new_part(ground, state, told)) {
      read_[batch_of(*item, told.what)][*item] = told.what.value;
    }
  }
}

/// Another maker's part is no brother, though it stands in the same group; nor is one of another
/// value or other volts.
std::string Brothers::batch_of(std::size_t item, const RecordReading& reading) const {
  const knowledge::PartGroup* group = ground_.group_of(item);
  const NamePart* part = named_part(ground_, state_, item);
  const ReadingInput input = input_of(reading, part, group);
  std::string batch = ground_.compiled.items[item].group;
  if (group != nullptr) {
    batch += '|' +
             casework::batch_of(*ground_.knowledge, *ground_.equipment, state_.parts, *group, part);
  }
  for (const double figure : {input.capacitance ? input.capacitance->si() : 0.0,
                              input.rated ? input.rated->si() : 0.0, reading.frequency.si()}) {
    batch += '|' + quantities::significant_figures(figure, 6);
  }
  return batch + '|' + std::string(word_of(reading.kind)) + (reading.in_circuit ? "|in" : "|off") +
         '|' + reading.meter;
}

std::size_t Brothers::of(std::size_t item, const RecordReading& reading) const {
  return values_of(item, reading).size();
}

std::vector<double> Brothers::values_of(std::size_t item, const RecordReading& reading) const {
  std::vector<double> values;
  const auto all = read_.find(batch_of(item, reading));
  if (all != read_.end()) {
    for (const auto& [other, value] : all->second) {
      if (other != item) {
        values.push_back(value);
      }
    }
  }
  return values;
}

WeighedReading weigh_reading(const Ground& ground, const CaseState& state, std::size_t item,
                             const RecordReading& reading, const Brothers& brothers) {
  const CompiledItem& compiled = ground.compiled.items[item];
  CHECK(is_capacitor(compiled));
  if (const auto impossible = out_of_range(reading); !impossible.empty()) {
    return without_effect(
        "Out of range, shown and not counted: " + quantities::describe(impossible.front()) + '.');
  }
  const NamePart* part = named_part(ground, state, item);
  const knowledge::PartGroup* group = ground.group_of(item);
  const knowledge::Technology* technology = technology_of(ground, part, group);
  if (technology == nullptr) {
    return without_effect(
        "What kind of capacitor this is, is not known: the reading is kept, "
        "but proves nothing.");
  }
  const auto priors = readings::priors_of(*technology, ground.knowledge->ageing,
                                          effective_age(ground, state, group));
  ReadingInput input = input_of(reading, part, group);
  input.technology = technology->id;
  if (reading.frequency == RecordReading{}.frequency) {
    input.frequency = readings::usual_frequency(reading.kind, technology->id);
  }
  input.years = effective_age(ground, state, group);
  const std::vector<double> others =
      compares(reading) ? brothers.values_of(item, reading) : std::vector<double>{};
  const bool resistance = input.kind == ReadingKind::esr || input.kind == ReadingKind::impedance;
  const double times = resistance ? times_its_brothers(input.value, others) : 1.0;
  if (times >=
      readings::outlier_times) {  // to compare costs as much as to read each: only where it tells
    input.brothers = others;
  } else {
    input.brothers_uncompared = others.size();
  }
  std::vector<std::string> told;
  set_meter(ground, reading, input);
  set_across(ground, group, input, told);
  if (const std::string doubt = doubt_of_meter(ground, reading); !doubt.empty()) {
    told.push_back(doubt);
  }
  const bool by_history = use_history(ground, input);
  auto assessment = readings::assess_reading(input, priors, *ground.readings);
  if (!assessment) {
    return without_effect("Not weighed: " + quantities::describe(assessment.problems().front()));
  }
  if (rests_on_a_guess(input, *assessment)) {
    speak_no_louder_than_a_guess(input, *assessment);
  }
  WeighedReading weighed = worded(*assessment);
  weighed.shorted =
      assessment->verdict == readings::Verdict::suspect_short && shows_shorts_alone(input);
  weighed.caveats.insert(weighed.caveats.end(), told.begin(), told.end());
  if (by_history) {
    weighed.caveats.emplace_back(
        "Held against what sound parts of its type read in this shop: its history is switched on.");
  }
  if (std::string odd = stands_off_told(times, others.size()); !odd.empty()) {
    weighed.caveats.push_back(std::move(odd));
  }
  weighed.batch = compares(reading) ? brothers.batch_of(item, reading) : "";
  weighed.unsound_alone = 1.0 - readings::posterior_of(priors, assessment->likelihood).front();
  const diagnosis::Item& network_item = ground.compiled.network.items[item];
  weighed.likelihood = rows_for(network_item, *assessment, priors);
  if (compiled.kind == CompiledItem::Kind::group && group != nullptr) {
    const auto named = std::count_if(state.parts.begin(), state.parts.end(),
                                     [&](const auto& each) { return each.group == group->id; });
    const int count = std::max(1, group->count - static_cast<int>(named));
    for (auto& row : weighed.likelihood) {
      spread_over_group(row, count);
    }
    if (count > 1) {
      weighed.caveats.push_back("One of " + std::to_string(count) +
                                " parts: give it its name, then the reading counts in full.");
    }
  }
  return weighed;
}

}  // namespace dryout::casework
