// dryout discharge: how to empty one charged capacitor.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/typed_numbers.h"
#include "circuit/discharge.h"
#include "quantities/printed_number.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::Measure;

constexpr const char* discharge_caution =
    "Plug out and in sight, batteries out. Clip the resistor to the negative end first, the "
    "positive end by an insulated probe. A figure never replaces the meter: measure before each "
    "touch, and keep a clip across a part that is stored. Your local electrical code, licensed "
    "practice and the maker's instructions come first.";
constexpr const char* trained_hands =
    "Above 1 kV: a string of resistors, each rated for its share, and only by hands trained on it.";
constexpr const char* hard_pulse =
    "This resistor lets more than 0.2 A through your tips above 100 V: take a larger one.";

constexpr const char* no_esr =
    "A back-up part may have tens of ohms of its own, which slow this and limit the current: --esr "
    "takes them in. Without, let the meter say when it is empty.";

struct DischargeWords {
  std::string& capacitance;
  std::string& volts;
  std::string& esr;
  std::string& down_to;
  std::string& resistor;
};

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
  if (part.volts > quantities::volts(100.0) && step.peak_current > quantities::amperes(0.2001)) {
    cautions.emplace_back(hard_pulse);
  } else if (step.peak_current > quantities::amperes(10.0)) {
    cautions.push_back("Through this resistor go " + quantities::format(step.peak_current) +
                       " at first, and " + plain(step.energy.si(), "J") +
                       " in all: sparks at the tips. Take a larger one.");
  }
  const bool back_up = part.capacitance >= quantities::farads(0.01) &&
                       part.volts <= quantities::volts(12.0) && part.esr.si() == 0.0;
  if (back_up) {
    cautions.emplace_back(no_esr);
  }
  return cautions;
}

Exit discharge(const Terminal& terminal, const DischargeWords& words) {
  TypedNumbers numbers;
  const circuit::Charged part{
      quantities::Farad(
          numbers.required("--capacitance", words.capacitance, Measure::marked_capacitance)),
      quantities::Volt(
          numbers.required("--volts", words.volts, range_of_limit(Measure::circuit_volts))),
      quantities::Ohm(numbers.optional("--esr", words.esr, Measure::esr).value_or(0.0))};
  const quantities::Volt down_to(
      numbers.optional("--to", words.down_to, range_of_limit(Measure::circuit_volts))
          .value_or(circuit::safe_to_touch.si()));
  const auto given =
      numbers.optional("--resistor", words.resistor, range_of_limit(Measure::dc_resistance));
  if (!numbers.problems().empty()) {
    return refuse(terminal, numbers.problems());
  }
  const quantities::Ohm resistor =
      given ? quantities::Ohm(*given) : circuit::discharge_resistor(part);
  const circuit::DischargeStep step =
      circuit::plan_discharge(part, resistor, circuit::wet_absorption, down_to);
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
    return answer(terminal, Value::object({{"resistor_ohm", resistor.si()},
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
                                           {"energy_J", step.energy.si()},
                                           {"cautions", said}}));
  }
  const auto line = [&](const char* name, const std::string& text) {
    terminal.out << std::left << std::setw(12) << name << text << '\n';
  };
  line("stored", plain(step.energy.si(), "J"));
  line("resistor", quantities::format(resistor) + ", rated " +
                       plain(circuit::rating_to_buy(step).si(), "W") + " or more and " +
                       plain(step.voltage_rating.si(), "V"));
  line("at first",
       quantities::format(step.peak_current) + ", " +
           quantities::format_engineering(step.peak_power.si(), quantities::Unit::watt));
  line("time", duration(constant) + " a time constant (37 % left); " + plain(down_to.si(), "V") +
                   " after " + duration(reached));
  line("hold", duration(held(step)) + ", then " + quantities::format(left) + " is left");
  line("recovery", "an aluminium electrolytic may climb back to " + plain(step.rebound.si(), "V") +
                       ", most of it 10 to 20 days later");
  for (const std::string& caution : cautions) {
    terminal.out << "CAUTION. " << caution << '\n';
  }
  return Exit::done;
}

}  // namespace

void add_discharge(Commands& commands) {
  const DischargeWords words{commands.text(), commands.text(), commands.text(), commands.text("5"),
                             commands.text()};
  CLI::App* command = commands.add(
      "discharge", "How to empty a charged capacitor: resistor, watts, seconds, volts left",
      [words](const Invocation& invocation) { return discharge(invocation.terminal, words); });
  command->add_option("--capacitance", words.capacitance, "Of the part, 470u");
  command->add_option("--volts", words.volts, "At most across it: the rail, or its mark");
  command->add_option("--esr", words.esr, "Its own series resistance, 30");
  command->add_option("--to", words.down_to, "Volts to come down to")->capture_default_str();
  command->add_option("--resistor", words.resistor, "The one in hand; left out: the one to take");
}

}  // namespace dryout::app
