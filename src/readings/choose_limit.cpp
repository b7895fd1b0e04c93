#include "readings/choose_limit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "readings/loss_fit.h"

namespace dryout::readings {
namespace {

using quantities::Farad;
using quantities::Volt;

constexpr double loss_frequency_below_Hz = 1.1e3;
constexpr double high_frequency_from_Hz = 8e3;  // a row's resistance is the electrolyte's
constexpr double same_frequency = 0.82;         // 100 kHz and 85 kHz are one
constexpr double same_part_below = 0.16;  // distance of a look-alike: same value, volts and body
constexpr double loss_volts_factor_max = 2.2;
constexpr double near_frequency = 1.3;  // 100 and 120 Hz are one
const quantities::Hertz low_frequency{120.0};
constexpr double bipolar_loss = 2.0;  // two oxide films in series: twice the loss of a polar part

/// Tan delta of general-purpose aluminium parts at 120 Hz by rated volts: the columns that makers'
/// sheets share (Nichicon, Rubycon, Nippon Chemi-Con general-purpose series; from memory). Stands
/// in where no row of the library is near.
struct UsualLoss {
  double rated_max_V;
  double tan_delta;
};
constexpr std::array usual_losses{
    UsualLoss{4.0, 0.35},  UsualLoss{6.3, 0.28},   UsualLoss{10.0, 0.24},
    UsualLoss{16.0, 0.20}, UsualLoss{25.0, 0.16},  UsualLoss{35.0, 0.14},
    UsualLoss{50.0, 0.12}, UsualLoss{100.0, 0.10}, UsualLoss{250.0, 0.20}};
constexpr double usual_loss_high_V = 0.25;
constexpr double usual_tantalum_loss = 0.08;
constexpr double per_1000uF = 0.02;  // makers add it above 1,000 uF

double usual_loss_of(std::optional<Volt> rated, Farad capacitance) {
  const double volts = rated.value_or(Volt(25.0)).si();
  const auto at = std::find_if(usual_losses.begin(), usual_losses.end(),
                               [&](const UsualLoss& u) { return volts <= u.rated_max_V; });
  const double loss = at == usual_losses.end() ? usual_loss_high_V : at->tan_delta;
  return loss + per_1000uF * std::max(0.0, capacitance.si() / 1e-3 - 1.0);
}

/// What a sheet of a special grade says of an ordinary part's loss: little of one made to leak less
/// or for computers, which is also made to lose less.
double loss_grade_apart(const std::string& grade) {
  if (grade == "general") {
    return 0.0;
  }
  return grade == "low-leakage" || grade == "computer" ? 0.6 : 0.1;
}

/// How far a row's tan delta is from speaking of this part; nothing where it does not.
std::optional<double> loss_distance(const LimitRow& row, const PartDescription& part,
                                    std::string_view technology) {
  if (!row.tan_delta_max || limit_family(row.technology) != limit_family(technology)) {
    return std::nullopt;
  }
  double distance = 0.1 * static_cast<double>(row.mark) + loss_grade_apart(row.grade);
  if (part.rated) {
    const double times = std::max(row.rated / *part.rated, *part.rated / row.rated);
    if (times > loss_volts_factor_max) {
      return std::nullopt;
    }
    distance += std::log(times);
  }
  if (row.capacitance && part.capacitance) {
    distance += 0.3 * std::abs(std::log(*row.capacitance / *part.capacitance));
  }
  const bool both = row.body != Body::unknown && part.body != Body::unknown;
  return distance + (both && row.body != part.body ? 0.3 : 0.0);
}

/// Of the rows that were measured near a frequency.
const LimitRow* nearest_loss(const LimitsLibrary& library, const PartDescription& part,
                             std::string_view technology, quantities::Hertz frequency) {
  const LimitRow* nearest = nullptr;
  double least = 1e9;
  for (const LimitRow& row : library.rows) {
    const auto distance = loss_distance(row, part, technology);
    const double times = row.tan_delta_frequency / frequency;
    if (distance && times < near_frequency && times > 1.0 / near_frequency && *distance < least) {
      least = *distance;
      nearest = &row;
    }
  }
  return nearest;
}

ChosenLimit by_tan_delta(const LimitsLibrary& library, const PartDescription& part) {
  if (!part.capacitance) {
    return {};
  }
  const bool bipolar = part.technology == "bipolar-aluminium";
  const auto derived = [&](double tan_delta, quantities::Hertz frequency, std::string document,
                           const LimitRow* row = nullptr) {
    return ChosenLimit{
        derive_from_tan_delta(tan_delta, frequency, *part.capacitance, std::move(document)),
        {},
        {},
        row};
  };
  if (const LimitRow* row = nearest_loss(library, part, part.technology, low_frequency)) {
    return derived(*tan_delta_allowed(*row, *part.capacitance), row->tan_delta_frequency,
                   told(*row), row);
  }
  if (bipolar) {
    if (const LimitRow* row = nearest_loss(library, part, "wet-aluminium", low_frequency)) {
      return derived(bipolar_loss * *tan_delta_allowed(*row, *part.capacitance),
                     row->tan_delta_frequency, "twice the loss of a polar part: " + told(*row),
                     row);
    }
  }
  if (part.technology == "solid-tantalum") {
    return derived(usual_tantalum_loss, quantities::hertz(120.0),
                   "a usual tan delta of 0.08, no series known (from memory)");
  }
  if (!is_wet(part.technology)) {
    return {};
  }
  ChosenLimit usual = derived(
      (bipolar ? bipolar_loss : 1.0) * usual_loss_of(part.rated, *part.capacitance),
      quantities::hertz(120.0), "the usual tan delta for its volts, no series known (from memory)");
  usual.limit->extra_log_spread = 0.2;
  return usual;
}

ChosenLimit by_look_alike(const LimitsLibrary& library, const PartDescription& part, Kind wanted,
                          double& distance) {
  const std::vector<LookAlike> found = look_alikes(library, part);
  if (found.empty()) {
    return {};
  }
  const LimitRow& row = *found.front().row;
  distance = found.front().distance;
  const bool esr = row.esr_max && (wanted == Kind::esr || !row.impedance_max);
  Limit limit;
  limit.kind = esr ? Kind::esr : Kind::impedance;
  limit.value = esr ? row.esr_max->si() : row.impedance_max->si();
  limit.source = LimitSource::look_alike;
  limit.frequency = row.frequency;
  limit.temperature = row.temperature;
  limit.document = told(row);
  limit.extra_log_spread = distance;
  return {limit, {}, {}, &row};
}

/// Double-layer parts for memory back-up: tens of ohms are sound. R goes about as 1 / sqrt(C).
ChosenLimit double_layer(const ReadingInput& input, const LimitsLibrary& library,
                         std::optional<Farad> capacitance) {
  constexpr double coin_ohm = 75.0;  // of 0.1 F 5.5 V (from memory)
  constexpr double coin_farad = 0.1;
  Limit limit;
  limit.source = LimitSource::look_alike;
  limit.frequency = input.frequency;
  limit.temperature = quantities::Celsius(20.0);
  const double c = capacitance.value_or(Farad(coin_farad)).si();
  limit.value = coin_ohm * std::sqrt(coin_farad / c);
  limit.document = "double-layer cells of 5.5 V for back-up, tens of ohms (from memory)";
  limit.extra_log_spread = 0.7;
  double least = 1.0;
  const LimitRow* nearest = nullptr;
  for (const LimitRow& row : library.rows) {
    if (row.technology != "supercap" || !row.capacitance || !(row.dc_esr_max || row.esr_max)) {
      continue;
    }
    // Series differ sixfold; a sheet that was read counts before one recalled.
    const double apart =
        std::abs(std::log(row.capacitance->si() / c)) + 0.3 * static_cast<double>(row.mark);
    if (apart < least) {
      least = apart;
      nearest = &row;
      const double stated = (row.dc_esr_max ? *row.dc_esr_max : *row.esr_max).si();
      limit.value = stated * std::sqrt(row.capacitance->si() / c);
      limit.document = told(row);
      limit.extra_log_spread = 0.6 + 0.4 * apart;
    }
  }
  return {limit, {}, {}, nearest};
}

/// Where nobody said: small electrolytics stand on two wires, big ones are cans.
Body body_assumed(const ReadingInput& input, std::optional<Farad> capacitance) {
  if (input.body != Body::unknown || !is_wet(input.technology)) {
    return input.body;
  }
  if (input.technology == "surface-mount-aluminium") {
    return Body::smd;
  }
  return capacitance && capacitance->si() > 3e-3 ? Body::can : Body::radial;
}

double spread_of(const Limit& limit, const PartDescription& part) {
  if (limit.source != LimitSource::tan_delta) {
    return std::hypot(rung_of(limit.source).log_spread, limit.extra_log_spread);
  }
  if (!is_wet(part.technology)) {
    return rung_of(limit.source).log_spread;
  }
  const LossStep step =
      loss_step(*part.capacitance, part.rated.value_or(Volt(25.0)), part.body, "");
  return std::hypot(step.log_spread, limit.extra_log_spread);
}

Limit as_typed(const ReadingInput& input, double value, Kind kind) {
  Limit limit;
  limit.value = value;
  limit.kind = kind;
  limit.source = input.limit_source;
  const bool derived = limit.source == LimitSource::tan_delta;
  limit.frequency =
      input.limit_frequency.value_or(derived ? quantities::hertz(120.0) : input.frequency);
  limit.temperature = input.limit_temperature.value_or(quantities::Celsius(20.0));
  limit.document = input.limit_document;
  return limit;
}

ChosenLimit not_by_resistance(const ReadingInput& input, std::optional<Farad> capacitance) {
  ChosenLimit none;
  none.refusal = "a part of this kind is not judged by its series resistance";
  if (capacitance) {
    none.refusal += " (its reactance alone is " +
                    format(circuit::reactance(*capacitance, input.frequency)) + " at " +
                    format(input.frequency) + ")";
  }
  none.accepted =
      "insulation or leakage at working volts, capacitance, or loss at 1 kHz, one leg lifted";
  return none;
}

/// For a reading between the frequency of a tan delta and that of a look-alike's resistance.
ChosenLimit between(const ReadingInput& input, ChosenLimit derived, const ChosenLimit& alike) {
  Conditions there = conditions_of(input);
  there.frequency = alike.limit->frequency;
  there.temperature = alike.limit->temperature;
  if (const auto high = esr_limit_under(*alike.limit, there)) {
    derived.limit->high_end = {alike.limit->frequency, high->median, high->log_spread};
    derived.limit->document +=
        "; at " + format(alike.limit->frequency) + ": " + alike.limit->document;
  }
  return derived;
}

}  // namespace

std::optional<Limit> nearest_loss_row(const ReadingInput& input, const LimitsLibrary& library) {
  const PartDescription part{input.technology, body_assumed(input, input.capacitance),
                             input.capacitance, input.rated};
  Limit limit;
  limit.kind = Kind::dissipation;
  limit.source = LimitSource::look_alike;
  limit.frequency = input.frequency;
  const LimitRow* row = nearest_loss(library, part, part.technology, input.frequency);
  if (row != nullptr) {
    limit.value =
        tan_delta_allowed(*row, input.capacitance.value_or(Farad())).value_or(*row->tan_delta_max);
    limit.document = told(*row);
    return limit;
  }
  const bool low = input.frequency.si() < 300.0;
  if (!low || !is_wet(input.technology)) {
    return std::nullopt;
  }
  limit.value = (input.technology == "bipolar-aluminium" ? bipolar_loss : 1.0) *
                usual_loss_of(input.rated, input.capacitance.value_or(Farad(1e-4)));
  limit.document = "the usual tan delta for its volts, no series known (from memory)";
  limit.extra_log_spread = 0.2;
  return limit;
}

std::optional<Farad> capacitance_of(const ReadingInput& input) {
  if (input.capacitance || !input.netlist || !input.netlist->point.target) {
    return input.capacitance;
  }
  const auto& elements = input.netlist->netlist.elements;
  return quantities::farads(elements[*input.netlist->point.target].capacitance_F);
}

namespace {

ChosenLimit limit_by_library(const ReadingInput& input, const LimitsLibrary& library,
                             std::optional<Farad> capacitance) {
  const PartDescription part{input.technology, body_assumed(input, capacitance), capacitance,
                             input.rated};
  ChosenLimit derived = by_tan_delta(library, part);
  const bool low = input.frequency.si() <= loss_frequency_below_Hz;
  double distance = 0.0;
  ChosenLimit alike = by_look_alike(library, part, input.kind, distance);
  if (!alike.limit || !derived.limit) {
    return alike.limit && !low ? alike : derived;
  }
  const bool better = distance <= same_part_below ||
                      spread_of(*alike.limit, part) <= spread_of(*derived.limit, part);
  if (!better) {
    return derived;
  }
  const quantities::Hertz stated = alike.limit->frequency;
  if (stated.si() < high_frequency_from_Hz) {
    return low ? derived : alike;
  }
  return input.frequency.si() >= same_frequency * stated.si()
             ? alike
             : between(input, std::move(derived), alike);
}

// Cans and axials of before 1965 are judged loosely by resistance: no sheet of their day states it
// (judged).
constexpr double old_part_years = 55.0;
constexpr double old_part_log_spread = 0.5;

}  // namespace

ChosenLimit choose_limit(const ReadingInput& input, const LimitsLibrary& library) {
  const auto capacitance = capacitance_of(input);
  if (input.limit) {
    return {as_typed(input, *input.limit, input.limit_kind.value_or(input.kind)), {}, {}, nullptr};
  }
  if (input.netlist && input.netlist->point.limit_ohm) {
    return {as_typed(input, *input.netlist->point.limit_ohm, Kind::esr), {}, {}, nullptr};
  }
  if (has_dry_dielectric(input.technology)) {
    return not_by_resistance(input, capacitance);
  }
  if (input.technology == "supercap") {
    return double_layer(input, library, capacitance);
  }
  ChosenLimit chosen = limit_by_library(input, library, capacitance);
  if (chosen.limit && is_aluminium_electrolytic(input.technology) &&
      input.years >= old_part_years) {
    chosen.limit->extra_log_spread =
        std::hypot(chosen.limit->extra_log_spread, old_part_log_spread);
    chosen.limit->document += "; no sheet of its own day is at hand";
  }
  return chosen;
}

Conditions conditions_of(const ReadingInput& input) {
  return {input.frequency,          input.temperature, capacitance_of(input),
          is_wet(input.technology), input.rated,       input.body};
}

}  // namespace dryout::readings
