#include "quantities/measure.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryout::quantities {
namespace {

constexpr double kilo = 1e3;
constexpr double giga = 1e9;
constexpr double nano = 1e-9;
constexpr double femto = 1e-15;

/// In the order of Measure.
constexpr std::array<PhysicalRange, 24> ranges{{
    {Measure::esr, "esr", "an ESR", Unit::ohm, 0.0, giga, nano, true},
    {Measure::impedance, "impedance", "an impedance", Unit::ohm, 0.0, giga, nano, true},
    {Measure::capacitance, "capacitance", "a capacitance", Unit::farad, 0.0, 10.0, femto, true},
    {Measure::leakage_current, "leakage-current", "a leakage current", Unit::ampere, 0.0, 10.0,
     femto, true},
    {Measure::dc_resistance, "dc-resistance", "a resistance", Unit::ohm, 0.0, giga, nano, true},
    {Measure::ripple, "ripple", "a ripple", Unit::volt, 0.0, 10 * kilo, nano, true},
    {Measure::dc_volts, "dc-volts", "a voltage", Unit::volt, -100 * kilo, 100 * kilo, nano, true},
    {Measure::insulation, "insulation", "an insulation resistance", Unit::ohm, 0.0, 1e15, nano,
     true},
    {Measure::dissipation, "dissipation", "a dissipation factor", Unit::none, 0.0, kilo, 1e-7,
     true},
    {Measure::hold_up, "hold-up", "a hold-up time", Unit::second, 0.0, 1e8, 1e-6, true},
    {Measure::lead_resistance, "", "a lead resistance", Unit::ohm, 0.0, 100.0, nano, true},
    {Measure::marked_capacitance, "", "a capacitance", Unit::farad, 0.0, 10.0, femto, false},
    {Measure::rated_volts, "", "a rated voltage", Unit::volt, 0.0, 100 * kilo, 0.1, false},
    {Measure::test_volts, "", "a test voltage", Unit::volt, 0.0, 100 * kilo, 1e-3, false},
    {Measure::frequency, "", "a test frequency", Unit::hertz, 1.0, giga, 1.0, false},
    {Measure::temperature, "", "a temperature", Unit::celsius, -60.0, 200.0, 0.0, true},
    {Measure::circuit_resistance, "", "a resistance", Unit::ohm, 0.0, 1e15, 0.0, true},
    {Measure::circuit_inductance, "", "an inductance", Unit::henry, 0.0, giga, 0.0, true},
    {Measure::circuit_capacitance, "", "a capacitance", Unit::farad, 0.0, 1e6, 0.0, true},
    {Measure::circuit_frequency, "", "a frequency", Unit::hertz, 1e-3, 1e12, 0.0, false},
    {Measure::circuit_volts, "", "a voltage", Unit::volt, 0.0, 100 * kilo, nano, true},
    {Measure::circuit_current, "", "a current", Unit::ampere, 0.0, 10 * kilo, nano, false},
    {Measure::endurance_hours, "", "a number of hours", Unit::none, 1e-3, 1e6, 0.0, false},
    {Measure::share_of_mark, "", "a share of the mark", Unit::none, 0.0, 1.0, 0.0, true},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    if (static_cast<std::size_t>(ranges[i].measure) != i) return false;
  }
  return true;
}
static_assert(in_order());

Result<double> parse_in(const PhysicalRange& range, std::string_view text, std::string_view what) {
  Result<double> value = parse_engineering(text, range.unit);
  if (value) {
    if (auto problem = out_of_range(range, *value, what)) {
      return *problem;
    }
  }
  return value;
}

}  // namespace

bool PhysicalRange::contains(double si) const {
  if (!std::isfinite(si) || si < least || si > most) {
    return false;
  }
  return si == 0.0 ? zero : std::abs(si) >= finest;
}

std::string PhysicalRange::describe() const {
  const auto shown = [this](double si) { return format_engineering(si, unit); };
  const bool either_side = least < 0.0;
  if (either_side || least > 0.0 || finest == 0.0) {
    return shown(least) + " to " + shown(most);
  }
  return (zero ? shown(0.0) + ", or " : "") + shown(finest) + " to " + shown(most);
}

const PhysicalRange& range_of(Measure measure) { return ranges[static_cast<std::size_t>(measure)]; }

PhysicalRange range_of_limit(Measure measure) {
  PhysicalRange range = range_of(measure);
  range.zero = false;
  range.least = std::max(range.least, 0.0);
  return range;
}

std::optional<Measure> measure_of(std::string_view word) {
  const auto found = std::find_if(ranges.begin(), ranges.end(), [word](const PhysicalRange& range) {
    return !word.empty() && range.word == word;
  });
  return found == ranges.end() ? std::nullopt : std::optional(found->measure);
}

std::optional<Problem> out_of_range(const PhysicalRange& range, double si, std::string_view what) {
  if (range.contains(si)) {
    return std::nullopt;
  }
  return Problem{std::string(what) + " is not possible",
                 {},
                 std::isfinite(si) ? format_engineering(si, range.unit) : "not a number",
                 std::string(range.title) + " of " + range.describe()};
}

Result<double> parse_measure(std::string_view text, Measure measure) {
  return parse_in(range_of(measure), text, "this value");
}

Result<double> parse_limit(std::string_view text, Measure measure) {
  return parse_in(range_of_limit(measure), text, "this limit");
}

std::optional<Understood> understood(std::string_view text, const PhysicalRange& range) {
  if (text.empty()) {
    return std::nullopt;
  }
  const Result<double> value = parse_engineering(text, range.unit);
  if (!value) {
    return Understood{"= ?", false};
  }
  // Six figures: what was typed must be told apart from what is near it.
  constexpr int figures = 6;
  return Understood{"= " + format_engineering(*value, range.unit, figures), range.contains(*value)};
}

}  // namespace dryout::quantities
