// dryout marking PRINT: what is printed on a part, read by the published codes.
#include <CLI/CLI.hpp>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "quantities/date_code.h"
#include "quantities/engineering_notation.h"
#include "quantities/part_marking.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::DateReading;
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

std::string told(const DateReading& date) {
  return std::to_string(date.year) + (date.month ? ", month " + std::to_string(*date.month) : "") +
         (date.week ? ", week " + std::to_string(*date.week) : "");
}

Value dates_json(const std::vector<DateReading>& dates) {
  return list_json(dates, [](const DateReading& date) {
    return Value::object({{"year", date.year},
                          {"month", date.month ? Value(*date.month) : Value()},
                          {"week", date.week ? Value(*date.week) : Value()}});
  });
}

/// A short print may be a value or the day it was made; whoever holds the part can tell which.
Exit read_print(const Terminal& terminal, const std::string& text, const std::string& body,
                int year_now) {
  const auto readings = quantities::read_marking(text, body_of(body));
  const auto dates = quantities::read_date_code(text, year_now);
  if (!readings && !dates) {
    return refuse(terminal, readings.problems());
  }
  Value list = Value::array();
  for (const MarkingReading& reading : readings ? *readings : std::vector<MarkingReading>{}) {
    if (terminal.json) {
      list.append(marking_json(reading));
    } else {
      print(terminal, reading);
    }
  }
  if (terminal.json) {
    return answer(terminal,
                  Value::object({{"readings", list},
                                 {"dates", dates ? dates_json(*dates) : Value::array()}}));
  }
  for (const DateReading& date : dates ? *dates : std::vector<DateReading>{}) {
    terminal.out << told(date) << "  (date code)\n";
  }
  return Exit::done;
}

Exit read_date(const Terminal& terminal, const std::string& code, int year_now) {
  const auto dates = quantities::read_date_code(code, year_now);
  if (!dates) {
    return refuse(terminal, dates.problems());
  }
  if (terminal.json) {
    return answer(terminal, Value::object({{"dates", dates_json(*dates)}}));
  }
  for (const DateReading& date : *dates) {
    terminal.out << told(date) << '\n';
  }
  return Exit::done;
}

}  // namespace

void add_marking(Commands& commands) {
  std::string& text = commands.text();
  std::string& body = commands.text("unknown");
  bool& date = commands.flag();
  CLI::App* command =
      commands.add("marking", "Reads what is printed on a part", [&](const Invocation& invocation) {
        return date ? read_date(invocation.terminal, text, invocation.surroundings.year_now)
                    : read_print(invocation.terminal, text, body, invocation.surroundings.year_now);
      });
  command->add_option("print", text, "The print: 104K, 4n7, A475, \"47 16V\"")->required();
  command->add_option("--body", body, "What it stands on")
      ->check(CLI::IsMember({"unknown", "ceramic", "film", "tantalum", "can"}))
      ->capture_default_str();
  command->add_flag("--date", date, "The print can only be a date code: H5, 8512");
}

}  // namespace dryout::app
