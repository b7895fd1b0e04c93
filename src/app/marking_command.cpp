// dryout marking PRINT: what is printed on a part, read by the published codes.
#include <CLI/CLI.hpp>
#include <array>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "quantities/date_code.h"
#include "quantities/measure.h"
#include "quantities/part_marking.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::DateReading;
using quantities::MarkingReading;

struct BodyWord {
  const char* word;
  quantities::Body body;
};
constexpr std::array<BodyWord, 8> bodies{{{"unknown", quantities::Body::unknown},
                                          {"ceramic", quantities::Body::ceramic},
                                          {"film", quantities::Body::film},
                                          {"tantalum", quantities::Body::tantalum},
                                          {"can", quantities::Body::electrolytic_can},
                                          {"mica", quantities::Body::mica},
                                          {"paper", quantities::Body::paper},
                                          {"double-layer", quantities::Body::double_layer}}};

struct MarkingWords {
  std::string& print;
  std::string& body;
  std::string& volts;
  int& year;
  bool& date;
};

quantities::Result<quantities::MarkedPart> part_of(const MarkingWords& words) {
  quantities::MarkedPart part;
  for (const BodyWord& each : bodies) {
    if (words.body == each.word) part.body = each.body;
  }
  if (words.year > 0) part.year_made = words.year;
  if (!words.volts.empty()) {
    const auto volts = quantities::parse_measure(words.volts, quantities::Measure::rated_volts);
    if (!volts) {
      quantities::Problem problem = volts.problems().front();
      problem.place.file = "--volts";
      return problem;
    }
    part.in_circuit = quantities::Volt(*volts);
  }
  return part;
}

Value sections_json(const MarkingReading& reading) {
  return list_json(reading.sections, [](const quantities::MarkedSection& section) {
    return Value::object({{"capacitance_F", section.capacitance.si()},
                          {"rated_V", section.rated ? Value(section.rated->si()) : Value()}});
  });
}

Value marking_json(const MarkingReading& reading) {
  Value value = Value::object({{"capacitance_F", reading.capacitance.si()}});
  value.set("sections", sections_json(reading));
  value.set("alternating", reading.alternating);
  value.set("remarks",
            list_json(reading.remarks, [](const std::string& remark) { return Value(remark); }));
  value.set("why", reading.why);
  value.set("rated_V", reading.rated ? Value(reading.rated->si()) : Value());
  value.set("tolerance_minus", reading.tolerance ? Value(reading.tolerance->minus) : Value());
  value.set("tolerance_plus", reading.tolerance ? Value(reading.tolerance->plus) : Value());
  value.set("tolerance_unit",
            reading.tolerance ? Value(reading.tolerance->absolute_farads ? "F" : "1") : Value());
  return value.set("how", reading.how), value;
}

void print(const Terminal& terminal, const MarkingReading& reading) {
  std::string sections;
  for (const quantities::MarkedSection& section : reading.sections) {
    sections += (sections.empty() ? "" : " + ") + quantities::format(section.capacitance);
    const bool own = section.rated && section.rated != reading.rated;
    if (own) sections += " (" + quantities::format(*section.rated) + ')';
  }
  terminal.out << (sections.empty() ? quantities::format(reading.capacitance) : sections);
  if (reading.rated) {
    terminal.out << ", " << quantities::format(*reading.rated)
                 << (reading.alternating ? " a.c." : "");
  }
  if (reading.tolerance && reading.tolerance->absolute_farads) {
    terminal.out << ", ±" << quantities::format(quantities::Farad(reading.tolerance->plus));
  } else if (reading.tolerance) {
    terminal.out << ", -" << percent(reading.tolerance->minus) << " +"
                 << percent(reading.tolerance->plus);
  }
  terminal.out << "  (" << reading.how << ")\n     " << reading.why << '\n';
  for (const std::string& remark : reading.remarks) {
    terminal.out << "     " << remark << '\n';
  }
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
Exit read_print(const Terminal& terminal, const MarkingWords& words, int year_now) {
  const std::string& text = words.print;
  const auto part = part_of(words);
  if (!part) {
    return refuse(terminal, part.problems());
  }
  const auto readings = quantities::read_marking(text, *part);
  const auto dates = quantities::read_date_code(text, year_now);
  if (!readings && !dates) {
    return refuse(terminal, readings.problems());
  }
  Value list = Value::array();
  int rank = 0;
  for (const MarkingReading& reading : readings ? *readings : std::vector<MarkingReading>{}) {
    if (terminal.json) {
      list.append(marking_json(reading));
    } else {
      terminal.out << ++rank << ". ";
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
  const MarkingWords words{commands.text(), commands.text("unknown"), commands.text(),
                           commands.number(0), commands.flag()};
  CLI::App* command =
      commands.add("marking", "Reads what is printed on a part, the likeliest reading first",
                   [words](const Invocation& invocation) {
                     const int year_now = invocation.surroundings.year_now;
                     return words.date ? read_date(invocation.terminal, words.print, year_now)
                                       : read_print(invocation.terminal, words, year_now);
                   });
  command
      ->add_option("print", words.print,
                   "The print: 104K, 4n7, A475, \"47 16V\", \"40/20/20 450V\", \"brown black "
                   "orange\"")
      ->required();
  std::vector<std::string> known;
  known.reserve(std::size(bodies));
  for (const BodyWord& each : bodies) known.emplace_back(each.word);
  command->add_option("--body", words.body, "What it stands on")
      ->check(CLI::IsMember(known))
      ->capture_default_str();
  command->add_option("--volts", words.volts, "What stands across it in the set");
  command->add_option("--year", words.year, "When it was made, about")
      ->check(CLI::Range(1900, 2100));
  command->add_flag("--date", words.date, "The print can only be a date code: H5, 8512");
}

}  // namespace dryout::app
