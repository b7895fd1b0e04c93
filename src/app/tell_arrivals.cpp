#include "app/tell_arrivals.h"

#include <ostream>

#include "app/json_list.h"
#include "quantities/shown_text.h"

namespace dryout::app {

using documents::Value;

Exit tell_arrivals(const Terminal& terminal, const casework::ImportReport& report,
                   const std::vector<std::string>& own) {
  Value cases = Value::array();
  for (const casework::ArrivedCase& each : report.cases) {
    if (terminal.json) {
      cases.append(Value::object({{"case", static_cast<double>(each.number)},
                                  {"set_name", each.set_name},
                                  {"arrival", casework::word_of(each.arrival)},
                                  {"chained", each.chained},
                                  {"sentence", each.sentence}}));
    } else {
      terminal.out << quantities::shown_line(each.set_name) << ": " << each.sentence << ".\n";
    }
  }
  if (terminal.json) {
    Value counts = Value::object();
    for (std::size_t i = 0; i < report.counts.size(); ++i) {
      counts.set(std::string(casework::word_of(static_cast<casework::Arrival>(i))),
                 static_cast<double>(report.counts.at(i)));
    }
    Value document = Value::object({{"cases", std::move(cases)},
                                    {"counts", std::move(counts)},
                                    {"unchained", static_cast<double>(report.unchained)}});
    if (!own.empty()) {
      document.set("own", texts_json(own));
    }
    return answer(terminal, document);
  }
  if (report.cases.size() != 1) {
    terminal.out << casework::told(report) << '\n';
  } else if (const std::string chains = casework::told_of_chains(report); !chains.empty()) {
    terminal.out << chains << '\n';
  }
  return Exit::done;
}

Exit conclude_export(const Terminal& terminal, const casework::LeftOut& left_out) {
  if (left_out.empty()) {
    return Exit::done;
  }
  terminal.err << "Everything else was exported; left out:\n";
  for (const std::string& line : left_out) {
    terminal.err << "  " << line << '\n';
  }
  terminal.err << "`dryout case rescue` looks for what can still be found of it.\n";
  return Exit::answer_is_no;
}

}  // namespace dryout::app
