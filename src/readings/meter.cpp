#include "readings/meter.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "documents/reader.h"
#include "readings/rule_files.h"

namespace dryout::readings {

using documents::Reader;
using documents::Value;
using quantities::Problems;
using quantities::Result;

namespace {

constexpr double stays_off_V = 0.15;
constexpr double silicon_V = 0.4;
constexpr double unknown_leads_ohm = 0.1;  // leads show 0.05 to 0.3 ohm (common practice)
constexpr double accuracy_least = 0.02;    // the grids of likelihood.cpp resolve no finer

bool is_ohms(Kind kind) {
  return kind == Kind::esr || kind == Kind::impedance || kind == Kind::dc_resistance;
}

/// Nothing on the display means less than a meter of the kind can show.
double least_of_display(Kind kind) {
  switch (kind) {
    case Kind::capacitance:
      return 1e-12;
    case Kind::leakage_current:
      return 1e-9;
    case Kind::insulation:
      return 0.1;
    case Kind::ripple:
    case Kind::dc_volts:
      return 1e-3;
    case Kind::dissipation:
      return 1e-4;
    case Kind::hold_up:
      return 0.1;
    case Kind::esr:
    case Kind::impedance:
    case Kind::dc_resistance:
      break;
  }
  return 0.0;
}

Meter read_meter(const Reader& reader) {
  reader.accept_only({"id", "title", "shows", "frequency_Hz", "accuracy", "floor", "lead_zero_ohm",
                      "test_V", "because", "source", "judged"});
  Meter meter;
  meter.id = reader.id("id");
  meter.title = reader.text("title");
  for (const std::string& word : reader.texts("shows")) {
    if (const auto kind = kind_of(word)) {
      meter.shows.push_back(*kind);
    } else {
      reader.complain("no such kind of reading",
                      "esr, impedance, capacitance, leakage-current, dc-resistance, ripple, "
                      "dc-volts, insulation, dissipation, hold-up",
                      word);
    }
  }
  meter.frequency = quantities::hertz(
      reader.optional_number("frequency_Hz", {.max = 1e9, .above = 0.0}).value_or(100e3));
  meter.accuracy = reader.optional_number("accuracy", {.max = 1.0, .above = 0.0}).value_or(0.05);
  meter.floor = reader.optional_number("floor", {.min = 0.0, .max = 1e6}).value_or(0.02);
  if (const auto zero = reader.optional_number("lead_zero_ohm", {.min = 0.0, .max = 100.0})) {
    meter.lead_zero = quantities::ohms(*zero);
  }
  if (const auto test = reader.optional_number("test_V", {.min = 0.0, .max = 1e4})) {
    meter.test_volts = quantities::volts(*test);
  }
  meter.because = reader.optional_text("because").value_or("");
  if (reader.has("source")) {
    meter.source = read_source(reader);
  }
  (void)reader.optional_text("judged");
  return meter;
}

}  // namespace

bool Meter::can_show(Kind kind) const {
  return shows.empty() || std::find(shows.begin(), shows.end(), kind) != shows.end();
}

Junctions junctions_under(quantities::Volt test_volts) {
  if (test_volts.si() <= stays_off_V) {
    return Junctions::stay_off;
  }
  return test_volts.si() < silicon_V ? Junctions::germanium_and_schottky_conduct
                                     : Junctions::silicon_conducts;
}

Result<std::vector<Meter>> read_meters(const documents::Document& document) {
  Problems problems;
  const Reader root(document, problems);
  root.accept_only({"schema", "meters"});
  static_cast<void>(root.whole_number("schema", {.min = 1, .max = 1}));
  std::vector<Meter> meters;
  std::set<std::string> ids;
  root.for_each("meters", [&](const Reader& reader) {
    meters.push_back(read_meter(reader));
    if (!ids.insert(meters.back().id).second) {
      reader.complain("this id is used twice", "a different id for each meter", meters.back().id);
    }
  });
  if (!problems.empty()) {
    return problems;
  }
  return meters;
}

Result<std::vector<Meter>> load_meters(const std::vector<std::string>& directories) {
  std::vector<std::string> with_meters;
  for (const std::string& directory : directories) {
    std::error_code error;
    if (std::filesystem::is_directory(std::filesystem::path(directory) / "rules/meters", error)) {
      with_meters.push_back(directory);
    }
  }
  if (with_meters.empty()) {
    return std::vector<Meter>{};
  }
  Problems problems;
  Overlay<Meter> meters;
  for_each_rule(with_meters, "meters", "meters", problems,
                [&](const Reader& reader, std::size_t tree) {
                  meters.add(read_meter(reader), tree, reader);
                });
  if (!problems.empty()) {
    return problems;
  }
  return meters.take();
}

const Meter* find_meter(const std::vector<Meter>& meters, std::string_view id) {
  const auto found = std::find_if(meters.begin(), meters.end(),
                                  [&](const Meter& meter) { return meter.id == id; });
  return found == meters.end() ? nullptr : &*found;
}

Value to_json(const std::vector<Meter>& meters) {
  Value list = Value::array();
  for (const Meter& meter : meters) {
    Value shows = Value::array();
    for (const Kind kind : meter.shows) {
      shows.append(word_of(kind));
    }
    Value one = Value::object({{"id", meter.id}, {"title", meter.title}});
    one.set("shows", std::move(shows));
    one.set("frequency_Hz", meter.frequency.si());
    one.set("accuracy", meter.accuracy);
    one.set("floor", meter.floor);
    if (meter.lead_zero) {
      one.set("lead_zero_ohm", meter.lead_zero->si());
    }
    if (meter.test_volts) {
      one.set("test_V", meter.test_volts->si());
    }
    list.append(std::move(one));
  }
  return Value::object({{"schema", 1}, {"meters", std::move(list)}});
}

double CorrectedReading::spread_at(double expected) const {
  if (absolute == 0.0) {
    return relative;
  }
  return std::hypot(relative, absolute / std::max(expected, absolute));
}

double CorrectedReading::spread_between(double expected) const {
  const double apart = value - expected;
  if (absolute == 0.0 || std::abs(apart) < 1e-3 * expected) {
    return spread_at(expected);
  }
  return std::hypot(relative, absolute * std::log(value / expected) / apart);
}

CorrectedReading correct(double value, Kind kind, std::optional<quantities::Ohm> lead_zero,
                         const Meter& meter) {
  CorrectedReading corrected;
  corrected.value = value == 0.0 ? least_of_display(kind) : value;
  corrected.shown = value;
  corrected.relative = std::max(meter.accuracy, accuracy_least);
  corrected.log_spread = corrected.relative;
  if (!is_ohms(kind)) {
    return corrected;
  }
  const auto zero = lead_zero ? lead_zero : meter.lead_zero;
  corrected.absolute = meter.floor;
  const double least = std::max(meter.floor, 1e-3) / 4.0;
  corrected.shown = std::max(value - (zero ? zero->si() : 0.0), 0.0);
  corrected.value = std::max(value - (zero ? zero->si() : 0.0), least);
  corrected.log_spread = corrected.spread_at(corrected.value);
  corrected.zero_matters = !zero && corrected.value < 5.0 * unknown_leads_ohm;
  return corrected;
}

}  // namespace dryout::readings
