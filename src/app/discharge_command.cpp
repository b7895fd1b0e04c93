// dryout discharge: how to empty one charged capacitor.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/typed_numbers.h"
#include "app/typed_volts.h"
#include "circuit/discharge.h"
#include "quantities/printed_number.h"
#include "quantities/spelling.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::Measure;

constexpr const char* discharge_caution =
    "Plug out and in sight, batteries out. Clip the resistor to the end on chassis or common "
    "first, "
    "then touch the other end, which may be the negative one, by an insulated probe. A figure "
    "never replaces the meter: measure before each "
    "touch, and keep a clip across a part that is stored. Your local electrical code, licensed "
    "practice and the maker's instructions come first.";
constexpr const char* trained_hands =
    "Above 1 kV: a string of resistors, each rated for its share, and only by hands trained on it.";
constexpr const char* no_esr =
    "A back-up part may have tens of ohms of its own, which slow this and limit the current: --esr "
    "takes them in. Without, let the meter say when it is empty.";

/// What comes back into a part that was emptied, by its kind.
struct Recovery {
  std::string_view kind;  ///< a technology, or "tube"
  double absorption;      ///< of the former volts
  const char* text;       ///< with the volts between what stands here and `when`
  const char* when;
};
constexpr const char* over_weeks = ", most of it 10 to 20 days later";
constexpr const char* within_minutes =
    " within minutes: discharge it again, and keep it shorted while hands are near";
// Aluminium and film: circuit/discharge.h. The others as a cautious bench takes them (judgement):
// paper in oil and the glass of a tube give back far more than film.
constexpr std::array<Recovery, 14> recoveries{{
    {"wet-aluminium", circuit::wet_absorption, "an aluminium electrolytic may climb back to ",
     over_weeks},
    {"bipolar-aluminium", circuit::wet_absorption, "an aluminium electrolytic may climb back to ",
     over_weeks},
    {"surface-mount-aluminium", circuit::wet_absorption,
     "an aluminium electrolytic may climb back to ", over_weeks},
    {"solid-tantalum", 0.1, "a solid tantalum may climb back to ", within_minutes},
    {"polymer", 0.1, "a polymer part may climb back to ", within_minutes},
    {"supercap", 0.1, "a back-up part may climb back to ", " over hours"},
    {"film", circuit::film_absorption, "a film part may give back ", within_minutes},
    {"mains-film", circuit::film_absorption, "a film part may give back ", within_minutes},
    {"polystyrene", circuit::film_absorption, "a film part may give back ", within_minutes},
    {"mica", 0.01, "mica may give back ", within_minutes},
    {"ceramic", 0.01, "a ceramic part may give back ", within_minutes},
    {"paper", 0.1, "paper may give back up to ", within_minutes},
    {"oil-paper", 0.1, "paper in oil may give back up to ", within_minutes},
    {"tube", 0.1, "a picture tube may give back up to ", within_minutes},
}};
/// Where nothing is said of a part that is no electrolytic, the worst of its neighbours.
constexpr Recovery unknown_kind{"unknown", 0.1, "oil, paper and picture tubes may give back up to ",
                                " within minutes, film less: discharge it again, and keep it "
                                "shorted while hands are near"};

/// The kind that was named, else by the values: electrolytics end about 600 V (common practice).
std::optional<Recovery> recovery_of(const std::string& technology, const circuit::Charged& part) {
  const bool electrolytic =
      part.volts <= quantities::volts(600.0) && part.capacitance >= quantities::microfarads(1.0);
  if (technology.empty()) {
    return electrolytic ? recoveries.front() : unknown_kind;
  }
  const auto* found = std::find_if(recoveries.begin(), recoveries.end(),
                                   [&](const Recovery& each) { return each.kind == technology; });
  return found == recoveries.end() ? std::nullopt : std::optional(*found);
}

quantities::Problem unknown_technology(const std::string& technology) {
  std::vector<std::string_view> kinds;
  std::string accepted;
  for (const Recovery& each : recoveries) {
    kinds.push_back(each.kind);
    accepted.append(accepted.empty() ? "" : ", ").append(each.kind);
  }
  if (const auto nearest = quantities::nearest_spelling(technology, kinds)) {
    accepted = "did you mean \"" + *nearest + "\"?";
  }
  return {"no such kind of part", {"--technology", 0, {}}, technology, accepted};
}

struct DischargeWords {
  std::string& capacitance;
  std::string& volts;
  std::string& esr;
  std::string& down_to;
  std::string& resistor;
  std::string& technology;
};

/// A meter at the bench shows no less, and a hand feels none of it.
std::string volts_that_are_left(quantities::Volt value) {
  return value < quantities::volts(1e-3) ? "less than 1 mV" : quantities::format(value);
}

std::string plain(double value, const char* unit) {
  return quantities::significant_figures(value, 4) + ' ' + unit;
}

/// "24 ms", "5.1 s", "12 min": nobody times a part of a second by hand, but it must be told.
std::string duration(quantities::Second value) {
  constexpr double by_hand = 100.0;
  return value.si() < by_hand ? quantities::format_engineering(value.si(), quantities::Unit::second)
                              : quantities::format_duration(value);
}

/// No hand lets go within a second: that is the least to hold it for.
quantities::Second held(const circuit::DischargeStep& step) {
  return std::max(step.hold, quantities::seconds(1.0));
}

/// As hard as a short, and what to take instead.
quantities::Problem as_hard_as_a_short(const circuit::Charged& part,
                                       const circuit::DischargeStep& step,
                                       const std::string& resistor) {
  return {"this is next to a short: " + quantities::format(step.peak_current) + " and " +
              quantities::format_engineering(step.peak_power.si(), quantities::Unit::watt) +
              " at first, " + plain(step.energy.si(), "J") +
              " in all; it welds, splashes and can harm hands, part and meter",
          {"--resistor", 0, {}},
          '"' + quantities::excerpt(resistor) + '"',
          quantities::format(circuit::discharge_resistor(part)) + " or about that"};
}

std::vector<std::string> cautions_of(const circuit::Charged& part,
                                     const circuit::DischargeStep& step) {
  std::vector<std::string> cautions{discharge_caution};
  if (part.volts > quantities::volts(1000.0)) {
    cautions.emplace_back(trained_hands);
  }
  // Twice what would be chosen is still no harm; a resistor in hand is seldom the ideal one.
  if ((step.resistor + part.esr) * 2.0 < circuit::gentle_resistor(part.volts)) {
    cautions.push_back(
        "Through this resistor go " + quantities::format(step.peak_current) + " at first, " +
        quantities::format_engineering(step.peak_power.si(), quantities::Unit::watt) + ", and " +
        plain(step.energy.si(), "J") + " in all: sparks at the tips. Take a larger one, " +
        quantities::format(circuit::discharge_resistor(part)) + ".");
  }
  const bool back_up = part.capacitance >= quantities::farads(0.01) &&
                       part.volts <= quantities::volts(12.0) && part.esr.si() == 0.0;
  if (back_up) {
    cautions.emplace_back(no_esr);
  }
  return cautions;
}

/// What was typed as volts, and what it was taken for; "" where it is direct current as typed.
struct UnderstoodVolts {
  quantities::Volt across;
  std::string told;
};

/// Parts for the mains are marked in volts a.c. (IEC 60384-14, from memory), so a plain number of
/// one is that.
UnderstoodVolts volts_of(TypedNumbers& numbers, const DischargeWords& words) {
  const TypedVolts typed = read_kind_of_volts(words.volts);
  const quantities::Volt read(
      numbers.required("--volts", typed.number, range_of_limit(Measure::circuit_volts)));
  const bool by_its_kind = words.technology == "mains-film" && !typed.direct && !typed.alternating;
  if (!typed.alternating && !by_its_kind) {
    return {read, ""};
  }
  const quantities::Volt peak = peak_of(read);
  return {peak, quantities::format(read) + " a.c., charged to their peak, " +
                    quantities::format(peak) +
                    (by_its_kind ? " (so are parts for the mains marked; for volts of direct "
                                   "current type " +
                                       typed.number + "Vdc)"
                                 : "")};
}

Exit discharge(const Terminal& terminal, const DischargeWords& words) {
  TypedNumbers numbers;
  const UnderstoodVolts understood = volts_of(numbers, words);
  const circuit::Charged part{
      quantities::Farad(
          numbers.required("--capacitance", words.capacitance, Measure::marked_capacitance)),
      understood.across,
      quantities::Ohm(numbers.optional("--esr", words.esr, Measure::esr).value_or(0.0))};
  const quantities::Volt down_to(
      numbers.optional("--to", words.down_to, range_of_limit(Measure::circuit_volts))
          .value_or(circuit::safe_to_touch.si()));
  const auto given =
      numbers.optional("--resistor", words.resistor, range_of_limit(Measure::dc_resistance));
  const auto recovery = recovery_of(words.technology, part);
  if (!recovery) {
    numbers.complain(unknown_technology(words.technology));
  }
  if (!words.down_to.empty() && down_to >= part.volts && numbers.problems().empty()) {
    numbers.complain({"it is charged to no more than that already",
                      {"--to", 0, {}},
                      quantities::format(down_to),
                      "below the " + quantities::format(part.volts) + " across it"});
  }
  if (!numbers.problems().empty()) {
    return refuse(terminal, numbers.problems());
  }
  const quantities::Ohm resistor =
      given ? quantities::Ohm(*given) : circuit::discharge_resistor(part);
  const circuit::DischargeStep step =
      circuit::plan_discharge(part, resistor, recovery->absorption, down_to);
  if (next_to_a_short(part, step)) {
    return refuse(terminal, {as_hard_as_a_short(part, step, words.resistor)});
  }
  const quantities::Second constant = circuit::time_constant(part, resistor);
  const quantities::Second reached = circuit::time_to(part, resistor, down_to);
  const quantities::Volt left = circuit::volts_left(part, resistor, held(step));
  const std::vector<std::string> cautions = cautions_of(part, step);
  if (terminal.json) {
    Value said = Value::array();
    for (const std::string& caution : cautions) said.append(caution);
    return answer(terminal, Value::object({{"volts_V", part.volts.si()},
                                           {"understood", understood.told},
                                           {"resistor_ohm", resistor.si()},
                                           {"peak_A", step.peak_current.si()},
                                           {"peak_W", step.peak_power.si()},
                                           {"rating_W", circuit::rating_to_buy(step).si()},
                                           {"rating_V", step.voltage_rating.si()},
                                           {"time_constant_s", constant.si()},
                                           {"down_to_V", down_to.si()},
                                           {"reached_s", reached.si()},
                                           {"hold_s", held(step).si()},
                                           {"left_V", left.si()},
                                           {"recovery_V", step.rebound.si()},
                                           {"recovery_of", std::string(recovery->kind)},
                                           {"energy_J", step.energy.si()},
                                           {"cautions", said}}));
  }
  const auto line = [&](const char* name, const std::string& text) {
    terminal.out << std::left << std::setw(12) << name << text << '\n';
  };
  if (!understood.told.empty()) {
    line("taken for", understood.told);
  }
  line("stored", plain(step.energy.si(), "J"));
  line("resistor", quantities::format(resistor) + ", rated " +
                       plain(circuit::rating_to_buy(step).si(), "W") + " or more and " +
                       quantities::format(step.voltage_rating));
  line("at first",
       quantities::format(step.peak_current) + ", " +
           quantities::format_engineering(step.peak_power.si(), quantities::Unit::watt));
  line("time",
       duration(constant) + " a time constant (37 % left); " +
           (reached.si() > 0.0 ? quantities::format(down_to) + " after " + duration(reached)
                               : "at or below " + quantities::format(down_to) + " from the start"));
  line("hold", duration(held(step)) + ", then " + volts_that_are_left(left) + " is left");
  line("recovery", recovery->text + volts_that_are_left(step.rebound) + recovery->when);
  for (const std::string& caution : cautions) {
    terminal.out << "CAUTION. " << caution << '\n';
  }
  return Exit::done;
}

}  // namespace

void add_discharge(Commands& commands) {
  const DischargeWords words{commands.text(), commands.text(), commands.text(),
                             commands.text(), commands.text(), commands.text()};
  CLI::App* command = commands.add(
      "discharge", "How to empty a charged capacitor: resistor, watts, seconds, volts left",
      [words](const Invocation& invocation) { return discharge(invocation.terminal, words); });
  command->add_option("--capacitance", words.capacitance, "Of the part, 470u");
  command->add_option("--volts", words.volts,
                      "At most across it: the rail, or its mark; 275~ or 275Vac of alternating "
                      "current, as parts for the mains are marked");
  command->add_option("--esr", words.esr, "Its own series resistance, 30");
  command->add_option("--to", words.down_to, "Volts to come down to (default 5)");
  command->add_option("--technology", words.technology,
                      "What it is: wet-aluminium, film, oil-paper, tube, ...; left out: an "
                      "electrolytic up to 600 V and from 1u, else film, oil or a tube");
  command->add_option("--resistor", words.resistor, "The one in hand; left out: the one to take");
}

}  // namespace dryout::app
