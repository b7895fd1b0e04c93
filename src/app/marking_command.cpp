// dryout marking PRINT: what is printed on a part, read by the published codes.
#include <CLI/CLI.hpp>
#include <ostream>

#include "app/commands.h"
#include "quantities/date_code.h"
#include "quantities/engineering_notation.h"
#include "quantities/part_marking.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::MarkingReading;

quantities::Body body_of(const std::string& word) {
  return word == "ceramic" || word == "film" ? quantities::Body::ceramic_or_film
         : word == "tantalum"                ? quantities::Body::tantalum
         : word == "can"                     ? quantities::Body::electrolytic_can
                                             : quantities::Body::unknown;
}

Value marking_json(const MarkingReading& reading) {
  Value value = Value::object({{"capacitance_F", reading.capacitance.si()}});
  value.set("rated_V", reading.rated ? Value(reading.rated->si()) : Value());
  value.set("tolerance_minus", reading.tolerance ? Value(reading.tolerance->minus) : Value());
  value.set("tolerance_plus", reading.tolerance ? Value(reading.tolerance->plus) : Value());
  value.set("tolerance_unit",
            reading.tolerance ? Value(reading.tolerance->absolute_farads ? "F" : "1") : Value());
  return value.set("how", reading.how), value;
}

void print(const Terminal& terminal, const MarkingReading& reading) {
  terminal.out << quantities::format(reading.capacitance);
  if (reading.rated) {
    terminal.out << ", " << quantities::format(*reading.rated);
  }
  if (reading.tolerance && reading.tolerance->absolute_farads) {
    terminal.out << ", ±" << quantities::format(quantities::Farad(reading.tolerance->plus));
  } else if (reading.tolerance) {
    terminal.out << ", -" << percent(reading.tolerance->minus) << " +"
                 << percent(reading.tolerance->plus);
  }
  terminal.out << "  (" << reading.how << ")\n";
}

Exit read_print(const Terminal& terminal, const std::string& text, const std::string& body) {
  const auto readings = quantities::read_marking(text, body_of(body));
  if (!readings) {
    return refuse(terminal, readings.problems());
  }
  Value list = Value::array();
  for (const MarkingReading& reading : *readings) {
    if (terminal.json) {
      list.append(marking_json(reading));
    } else {
      print(terminal, reading);
    }
  }
  return terminal.json ? answer(terminal, Value::object({{"readings", list}})) : Exit::done;
}

Exit read_date(const Terminal& terminal, const std::string& code, int year_now) {
  const auto dates = quantities::read_date_code(code, year_now);
  if (!dates) {
    return refuse(terminal, dates.problems());
  }
  Value list = Value::array();
  for (const quantities::DateReading& date : *dates) {
    if (terminal.json) {
      list.append(Value::object({{"year", date.year},
                                 {"month", date.month ? Value(*date.month) : Value()},
                                 {"week", date.week ? Value(*date.week) : Value()}}));
    } else {
      terminal.out << date.year << (date.month ? ", month " + std::to_string(*date.month) : "")
                   << (date.week ? ", week " + std::to_string(*date.week) : "") << '\n';
    }
  }
  return terminal.json ? answer(terminal, Value::object({{"dates", list}})) : Exit::done;
}

}  // namespace

void add_marking(Commands& commands) {
  std::string& text = commands.text();
  std::string& body = commands.text("unknown");
  bool& date = commands.flag();
  CLI::App* command =
      commands.add("marking", "Reads what is printed on a part", [&](const Invocation& invocation) {
        return date ? read_date(invocation.terminal, text, invocation.surroundings.year_now)
                    : read_print(invocation.terminal, text, body);
      });
  command->add_option("print", text, "The print: 104K, 4n7, A475, \"47 16V\"")->required();
  command->add_option("--body", body, "What it stands on")
      ->check(CLI::IsMember({"unknown", "ceramic", "film", "tantalum", "can"}))
      ->capture_default_str();
  command->add_flag("--date", date, "The print is a date code: H5, 8512");
}

}  // namespace dryout::app
