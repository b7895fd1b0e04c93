// dryout discharge: how to empty one charged capacitor.
#include <CLI/CLI.hpp>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/typed_numbers.h"
#include "circuit/discharge.h"
#include "quantities/printed_number.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::Unit;

constexpr const char* discharge_caution =
    "Plug out and in sight, batteries out. Clip the resistor to the negative end first, the "
    "positive end by an insulated probe. A figure never replaces the meter: measure before each "
    "touch, and keep a clip across a part that is stored. Your local electrical code, licensed "
    "practice and the maker's instructions come first.";
constexpr const char* trained_hands =
    "Above 1 kV: a string of resistors, each rated for its share, and only by hands trained on it.";
constexpr const char* hard_pulse =
    "This resistor lets more than 0.2 A through your tips above 100 V: take a larger one.";

struct DischargeWords {
  std::string& capacitance;
  std::string& volts;
  std::string& down_to;
  std::string& resistor;
};

std::string plain(double value, const char* unit) {
  return quantities::significant_figures(value, 4) + ' ' + unit;
}

Exit discharge(const Terminal& terminal, const DischargeWords& words) {
  TypedNumbers numbers;
  const circuit::Charged part{
      quantities::Farad(
          numbers.required("--capacitance", words.capacitance, Unit::farad, 1e-12, 100.0)),
      quantities::Volt(numbers.required("--volts", words.volts, Unit::volt, 1e-3, 100e3))};
  const quantities::Volt down_to(
      numbers.optional("--to", words.down_to, Unit::volt, 1e-3, 100e3).value_or(5.0));
  const auto given = numbers.optional("--resistor", words.resistor, Unit::ohm, 1e-3, 1e12);
  if (!numbers.problems().empty()) {
    return refuse(terminal, numbers.problems());
  }
  const quantities::Ohm resistor =
      given ? quantities::Ohm(*given) : circuit::discharge_resistor(part);
  const circuit::DischargeStep step =
      circuit::plan_discharge(part, resistor, circuit::wet_absorption, down_to);
  const quantities::Second reached = circuit::time_to(part, resistor, down_to);
  std::vector<std::string> cautions{discharge_caution};
  if (part.volts > quantities::volts(1000.0)) {
    cautions.emplace_back(trained_hands);
  }
  if (part.volts > quantities::volts(100.0) && step.peak_current > quantities::amperes(0.2001)) {
    cautions.emplace_back(hard_pulse);
  }
  if (terminal.json) {
    Value said = Value::array();
    for (const std::string& caution : cautions) said.append(caution);
    return answer(terminal, Value::object({{"resistor_ohm", resistor.si()},
                                           {"peak_A", step.peak_current.si()},
                                           {"peak_W", step.peak_power.si()},
                                           {"rating_W", circuit::rating_to_buy(step).si()},
                                           {"rating_V", step.voltage_rating.si()},
                                           {"time_constant_s", (resistor * part.capacitance).si()},
                                           {"down_to_V", down_to.si()},
                                           {"reached_s", reached.si()},
                                           {"hold_s", step.hold.si()},
                                           {"left_V", step.left.si()},
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
  line("at first", plain(step.peak_current.si(), "A") + ", " + plain(step.peak_power.si(), "W"));
  line("time", plain((resistor * part.capacitance).si(), "s") + " a time constant (37 % left); " +
                   plain(down_to.si(), "V") + " after " + plain(reached.si(), "s"));
  line("hold", plain(step.hold.si(), "s") + ", then " + plain(step.left.si(), "V") + " is left");
  line("recovery", "an aluminium electrolytic may climb back to " + plain(step.rebound.si(), "V") +
                       ", most of it 10 to 20 days later");
  for (const std::string& caution : cautions) {
    terminal.out << "CAUTION. " << caution << '\n';
  }
  return Exit::done;
}

}  // namespace

void add_discharge(Commands& commands) {
  const DischargeWords words{commands.text(), commands.text(), commands.text("5"), commands.text()};
  CLI::App* command = commands.add(
      "discharge", "How to empty a charged capacitor: resistor, watts, seconds, volts left",
      [words](const Invocation& invocation) { return discharge(invocation.terminal, words); });
  command->add_option("--capacitance", words.capacitance, "Of the part, 470u");
  command->add_option("--volts", words.volts, "At most across it: the rail, or its mark");
  command->add_option("--to", words.down_to, "Volts to come down to")->capture_default_str();
  command->add_option("--resistor", words.resistor, "The one in hand; left out: the one to take");
}

}  // namespace dryout::app
