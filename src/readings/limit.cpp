#include "readings/limit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "circuit/capacitor_model.h"
#include "readings/loss_fit.h"

namespace dryout::readings {

using quantities::Celsius;
using quantities::Hertz;
using quantities::Problem;
using quantities::Result;

namespace {

constexpr double plateau_from_Hz = 8e3;
constexpr double plateau_to_Hz = 1e6;
constexpr double low_frequency_below_Hz = 1.1e3;
constexpr double high_end_Hz = 100e3;     // where testers measure and sheets state resistance
constexpr double fitted_from_Hz = 120.0;  // of the step of loss_fit.h
constexpr double coldest_C = 5.0;
constexpr double hottest_C = 60.0;
constexpr double room_from_C = 15.0;
constexpr double room_to_C = 30.0;
constexpr double usual_rated_V = 25.0;         // where the mark was not read
constexpr double series_log_spread = 0.15;     // of tan delta, between sheets of one class
constexpr double capacitance_tolerance = 0.2;  // letter M, the usual one

bool on_plateau(Hertz f) { return f.si() >= plateau_from_Hz && f.si() <= plateau_to_Hz; }
bool is_low(Hertz f) { return f.si() <= low_frequency_below_Hz; }

Problem refusal(std::string message, std::string found, std::string accepted) {
  return {std::move(message), {}, std::move(found), std::move(accepted)};
}

/// What is left at 100 kHz of a resistance that is stated for a low frequency.
Limit::HighEnd high_end_of(const Limit& limit, const Conditions& conditions) {
  if (limit.high_end) {
    return *limit.high_end;
  }
  if (!conditions.wet || !conditions.capacitance) {
    const BelievedLimit sixth = believe(limit);
    return {quantities::hertz(high_end_Hz), sixth.median, sixth.log_spread};
  }
  const LossStep step =
      loss_step(*conditions.capacitance,
                conditions.rated.value_or(quantities::volts(usual_rated_V)), conditions.body, "");
  const double share_of_way =
      std::log(high_end_Hz / limit.frequency.si()) / std::log(high_end_Hz / fitted_from_Hz);
  return {quantities::hertz(high_end_Hz), limit.value * std::exp(-step.log_ratio * share_of_way),
          std::hypot(step.log_spread, std::hypot(series_log_spread, limit.extra_log_spread))};
}

/// From the low frequency of a tan delta: below it tan delta as it is, above it evenly down to the
/// high end, beyond that no further.
BelievedLimit from_low_loss(const Limit& limit, const Conditions& conditions) {
  const double f = conditions.frequency.si();
  const double low_f = limit.frequency.si();
  const Limit::HighEnd high = high_end_of(limit, conditions);
  const double low = std::max(limit.value, high.median);
  // Like with like: neither factor nor doubt of the rung apply at the sheet's own frequency.
  const double low_spread = std::hypot(0.1, limit.extra_log_spread);
  if (f <= low_f) {
    return {low * low_f / f, low_spread};
  }
  if (f >= high.frequency.si()) {
    return {high.median, high.log_spread};
  }
  const double way = std::log(f / low_f) / std::log(high.frequency.si() / low_f);
  const double drawn = low * std::pow(high.median / low, way);
  const double two_terms = high.median + (low - high.median) * low_f / f;
  const double ends = std::hypot((1.0 - way) * low_spread, way * high.log_spread);
  return {drawn, std::hypot(ends, 0.5 * std::log(drawn / two_terms))};
}

/// Carries the limit from its own frequency to that of the reading.
Result<BelievedLimit> at_frequency(const Limit& limit, const Conditions& conditions) {
  const Hertz wanted = conditions.frequency;
  BelievedLimit believed = believe(limit);
  if (limit.source == LimitSource::tan_delta && is_low(limit.frequency) &&
      wanted.si() <= plateau_to_Hz) {
    return from_low_loss(limit, conditions);
  }
  const bool from_plateau = limit.source == LimitSource::tan_delta || on_plateau(limit.frequency);
  const double apart = std::abs(std::log(wanted.si() / limit.frequency.si()));
  if (apart < 0.2) {
    return believed;
  }
  if (from_plateau && on_plateau(wanted)) {
    const double decades = limit.source == LimitSource::tan_delta ? 0.0 : apart / std::log(10.0);
    believed.log_spread = std::hypot(believed.log_spread, 0.15 * decades);
    return believed;
  }
  return refusal("the limit holds at " + format(limit.frequency) +
                     " and the reading was taken at " + format(wanted) +
                     ": resistance changes too much in between to convert",
                 format(wanted), "a reading or a limit at the same frequency");
}

/// From |Z| to resistance: sqrt(Z^2 - X^2), with the tolerance of C as doubt.
Result<BelievedLimit> as_resistance(BelievedLimit believed, const Limit& limit,
                                    const Conditions& conditions) {
  if (limit.kind != Kind::impedance) {
    return believed;
  }
  if (!conditions.capacitance) {
    believed.log_spread = std::hypot(believed.log_spread, 0.2);
    return believed;
  }
  const double x = circuit::reactance(*conditions.capacitance, limit.frequency).si();
  const double square = believed.median * believed.median - x * x;
  if (square < 0.1 * believed.median * believed.median) {
    return refusal("at " + format(*conditions.capacitance) + " the limit of " +
                       format(quantities::ohms(believed.median)) +
                       " on the impedance is nearly all "
                       "reactance (" +
                       format(quantities::ohms(x)) + "), so it says nothing of the resistance",
                   format(quantities::ohms(believed.median)),
                   "a limit on ESR, or a capacitance meter");
  }
  const double doubt = capacitance_tolerance * x * x / square;
  return BelievedLimit{std::sqrt(square), std::hypot(believed.log_spread, doubt)};
}

Result<BelievedLimit> at_temperature(BelievedLimit believed, const Limit& limit,
                                     const Conditions& conditions) {
  if (!conditions.wet) {
    return believed;
  }
  const Celsius now = conditions.temperature;
  if (now < Celsius(coldest_C) || now > Celsius(hottest_C)) {
    return refusal("a wet part at " + format(now) + " can't be held against a limit for " +
                       format(limit.temperature),
                   format(now), "a part between 5 and 60 °C: let it come to room temperature");
  }
  const auto at_room = [](Celsius t) {
    return t >= Celsius(room_from_C) && t <= Celsius(room_to_C);
  };
  if (at_room(now) && at_room(limit.temperature)) {
    return believed;
  }
  const double factor = circuit::core_factor(circuit::Core::wet, now) /
                        circuit::core_factor(circuit::Core::wet, limit.temperature);
  return BelievedLimit{believed.median * factor,
                       std::hypot(believed.log_spread, 0.4 * std::log(factor))};
}

}  // namespace

const std::vector<Rung>& ladder() {
  static const std::vector<Rung> rungs{
      {LimitSource::datasheet, "datasheet", "the part's own data sheet", 1.0, 0.05,
       "It is the maker's promise for this very part; a twentieth is left for reading the wrong "
       "line."},
      {LimitSource::fresh_part, "fresh-part", "a fresh part measured now", 2.5, 0.25,
       "Makers promise a maximum two to three times what a new part shows."},
      {LimitSource::look_alike, "look-alike", "a look-alike series", 1.0, 0.35,
       "Series of one class and size differ by a third or so: 470 \u00b5F 100 V stands at 0.032, "
       "0.045 "
       "and 0.060 \u03a9 in three sheets."},
      {LimitSource::tan_delta, "tan-delta", "derived from tan delta at 120 Hz", 1.0 / 6.0, 0.75,
       "Loss of the oxide film falls away by 100 kHz. With the value known the step is fitted from "
       "library rows that have both figures; without it a sixth is taken, with a wide doubt."},
      {LimitSource::general_table, "general-table", "a general table", 0.4, 1.1,
       "Tables differ by a factor of two among themselves and stand several times above data "
       "sheets: 8 and 16 \u03a9 against a maker's 3."},
  };
  return rungs;
}

const Rung& rung_of(LimitSource source) { return ladder()[static_cast<std::size_t>(source)]; }

std::optional<LimitSource> limit_source_of(std::string_view word) {
  for (const Rung& rung : ladder()) {
    if (rung.word == word) {
      return rung.source;
    }
  }
  return std::nullopt;
}

BelievedLimit believe(const Limit& limit) {
  const Rung& rung = rung_of(limit.source);
  return {limit.value * rung.factor, std::hypot(rung.log_spread, limit.extra_log_spread)};
}

Result<BelievedLimit> esr_limit_under(const Limit& limit, const Conditions& conditions) {
  auto believed = at_frequency(limit, conditions);
  if (believed) {
    believed = as_resistance(*believed, limit, conditions);
  }
  if (believed) {
    believed = at_temperature(*believed, limit, conditions);
  }
  return believed;
}

Limit derive_from_tan_delta(double tan_delta, Hertz frequency, quantities::Farad capacitance,
                            std::string document) {
  Limit limit;
  limit.value = circuit::esr_from_tan_delta(tan_delta, frequency, capacitance).si();
  limit.source = LimitSource::tan_delta;
  limit.frequency = frequency;
  limit.document = std::move(document);
  return limit;
}

}  // namespace dryout::readings
