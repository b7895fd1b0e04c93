// dryout ripple: what a rectifier, a capacitor and a load make of the mains.
#include <CLI/CLI.hpp>
#include <numbers>
#include <ostream>

#include "app/commands.h"
#include "app/typed_numbers.h"
#include "circuit/ripple.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::Measure;

constexpr const char* ripple_caution =
    "Ripple is measured with the power on: your local electrical code and licensed practice come "
    "first.";

struct RippleWords {
  std::string& load;
  std::string& capacitance;
  std::string& mains;
  std::string& ripple;
  std::string& winding;
  std::string& source;
  std::string& esr;
  std::string& drop;
  bool& half_wave;
};

/// What a ripple that was read says of the capacitance that is left.
std::string what_is_left(quantities::Volt read, const circuit::CapacitorInputFilter& filter,
                         bool winding_known, Value& document) {
  if (!winding_known) {
    return "so read     at most so much is left, as long as its ESR adds little; --winding VOLTS "
           "reckons closer\n";
  }
  const auto left = circuit::settled_capacitance_behind(read, filter);
  document.set("settled_capacitance_F", left ? Value(left->si()) : Value());
  if (!left) {
    return "so read     no capacitance behind this winding and --esr ripples so much under this "
           "load: look at load, winding and --esr again\n";
  }
  return "so read     " + quantities::format(*left) + " is left, settled behind this winding\n";
}

Exit ripple(const Terminal& terminal, const RippleWords& words) {
  TypedNumbers numbers;
  circuit::CapacitorInputFilter filter;
  filter.full_wave = !words.half_wave;
  filter.load =
      quantities::Ampere(numbers.required("--load", words.load, Measure::circuit_current));
  filter.mains = quantities::Hertz(numbers.required("--mains", words.mains, Measure::frequency));
  const auto capacitance =
      numbers.optional("--capacitance", words.capacitance, Measure::marked_capacitance);
  const auto wanted = numbers.optional("--ripple", words.ripple, range_of_limit(Measure::ripple));
  const auto winding =
      numbers.optional("--winding", words.winding, range_of_limit(Measure::circuit_volts));
  filter.source_resistance = quantities::Ohm(
      numbers.required("--source", words.source, range_of_limit(Measure::dc_resistance)));
  filter.esr = quantities::Ohm(numbers.required("--esr", words.esr, Measure::esr));
  filter.diode_drop =
      quantities::Volt(numbers.required("--drop", words.drop, Measure::circuit_volts));
  if (!capacitance && !wanted && numbers.problems().empty()) {
    numbers.complain({"nothing to reckon from", {}, "", "--capacitance, --ripple, or both"});
  }
  if (!numbers.problems().empty()) {
    return refuse(terminal, numbers.problems());
  }
  Value document =
      Value::object({{"full_wave", filter.full_wave},
                     {"recharges_Hz", filter.mains.si() * (filter.full_wave ? 2 : 1)}});
  std::string text;
  if (capacitance) {
    filter.capacitance = quantities::Farad(*capacitance);
    const quantities::Volt peak_to_peak = circuit::first_order_ripple(filter);
    const quantities::Volt rms = circuit::triangle_rms(peak_to_peak);
    document.set("ripple_Vpp", peak_to_peak.si());
    document.set("ripple_Vrms", rms.si());
    text += "ripple      " + quantities::format(peak_to_peak) + " peak to peak, " +
            quantities::format(rms) + " rms (first order: at most)\n";
  }
  if (winding) {
    filter.peak = quantities::Volt(*winding * std::numbers::sqrt2);
  }
  if (wanted) {
    const quantities::Farad needed = circuit::capacitance_behind(quantities::Volt(*wanted), filter);
    document.set("capacitance_F", needed.si());
    text += "needs       " + quantities::format(needed) + " for " +
            quantities::format(quantities::Volt(*wanted)) +
            " peak to peak, at most: the recharge is taken as instant\n" +
            what_is_left(quantities::Volt(*wanted), filter, winding.has_value(), document);
  }
  if (winding && capacitance) {
    const circuit::SettledRipple settled = circuit::settled_ripple(filter);
    document.set("settled", settled.settled);
    if (settled.settled) {
      document.set("settled_Vpp", settled.peak_to_peak.si());
      document.set("lowest_V", settled.lowest.si());
      document.set("mean_V", settled.mean.si());
      document.set("diode_peak_A", settled.diode_peak.si());
      document.set("capacitor_rms_A", settled.capacitor_rms.si());
      text += "settled     " + quantities::format(settled.peak_to_peak) + " peak to peak, " +
              quantities::format(settled.mean) + " mean, " + quantities::format(settled.lowest) +
              " at the lowest\ncurrents    " + quantities::format(settled.capacitor_rms) +
              " rms in the capacitor, " + quantities::format(settled.diode_peak) +
              " peak in the diodes\n";
    } else {
      text += "settled     never: this winding cannot carry this load\n";
    }
  }
  document.set("caution", ripple_caution);
  if (terminal.json) {
    return answer(terminal, document);
  }
  terminal.out << text << "CAUTION. " << ripple_caution << '\n';
  return Exit::done;
}

}  // namespace

void add_ripple(Commands& commands) {
  const RippleWords words{commands.text(),    commands.text(),      commands.text("50"),
                          commands.text(),    commands.text(),      commands.text("0.5"),
                          commands.text("0"), commands.text("0.8"), commands.flag()};
  CLI::App* command = commands.add(
      "ripple", "Ripple behind a rectifier, and the capacitance a ripple asks for",
      [words](const Invocation& invocation) { return ripple(invocation.terminal, words); });
  command->add_option("--load", words.load, "Current drawn, 1.5");
  command->add_option("--capacitance", words.capacitance, "Of the reservoir, 4700u");
  command->add_option("--mains", words.mains, "Its frequency")->capture_default_str();
  command->add_flag("--half-wave", words.half_wave, "Recharged once a cycle, not twice");
  command->add_option("--ripple", words.ripple,
                      "Peak to peak, allowed or read; read: what is left, closer with --winding");
  command->add_option("--winding", words.winding, "Volts rms: steps the rectifier in time too");
  command->add_option("--source", words.source, "Resistance of winding and diodes")
      ->capture_default_str();
  command->add_option("--esr", words.esr, "Of the capacitor")->capture_default_str();
  command->add_option("--drop", words.drop, "Of all diodes in the path")->capture_default_str();
}

}  // namespace dryout::app
