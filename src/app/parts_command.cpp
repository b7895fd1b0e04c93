// dryout parts CASE: the shopping list of the option advised, or of another one; as a file for a
// spreadsheet.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "app/commands.h"
#include "app/mending_json.h"
#include "app/write_whole.h"
#include "decision/options.h"

namespace dryout::app {
namespace {

using casework::MendingView;
using casework::OptionView;
using documents::Value;
using quantities::Problem;
using quantities::Result;

struct PartsWish {
  std::string& name;
  std::string& scope;
  std::string& file;
  double& years;
};

/// The option of that scope; where it replaces the same as a smaller one, the smaller one stands
/// for it. "" = the option advised.
Result<const OptionView*> option_for(const MendingView& mending, const std::string& scope) {
  const auto words = decision::scope_words();
  const auto wanted = std::find(words.begin(), words.end(), scope);
  if (!scope.empty() && wanted == words.end()) {
    std::string accepted;
    for (const std::string& word : words) {
      accepted += (accepted.empty() ? "" : ", ") + word;
    }
    return Problem{
        "no such scope", {"--for", 0, {}}, '"' + quantities::excerpt(scope) + '"', accepted};
  }
  const OptionView* found = scope.empty() ? &mending.options.front() : nullptr;
  for (auto word = words.begin(); !scope.empty() && word <= wanted; ++word) {
    for (const OptionView& option : mending.options) {
      found = option.scope == *word ? &option : found;
    }
  }
  return found;
}

void print_rows(std::ostream& out, const OptionView& option) {
  out << "To " << option.title << ":\n";
  if (option.shopping.empty()) {
    out << "  nothing to buy\n";
  }
  for (const casework::ShoppingRow& row : option.shopping) {
    out << "  " << row.needed << " + " << row.spares << " spare  " << row.part << '\n';
    for (const std::string& part : row.for_parts) {
      out << "      for " << part << '\n';
    }
    for (const std::string& why : row.why) {
      out << "      " << why << '\n';
    }
    for (const std::string& look_at : row.look_at) {
      out << "      when fitting: " << look_at << '\n';
    }
  }
}

Value rows_json(const OptionView& option) {
  Value rows = Value::array();
  for (const casework::ShoppingRow& row : option.shopping) {
    rows.append(to_json(row));
  }
  return Value::object({{"scope", option.scope}, {"title", option.title}, {"shopping", rows}});
}

Exit parts(const Invocation& invocation, const PartsWish& wish) {
  const Terminal& terminal = invocation.terminal;
  const auto opened = open_case(invocation.surroundings, wish.name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  const auto mending = opened->workshop->mending(opened->number, wish.years);
  if (!mending) {
    return refuse(terminal, mending.problems());
  }
  const auto option = option_for(*mending, wish.scope);
  if (!option) {
    return refuse(terminal, option.problems());
  }
  if (!wish.file.empty()) {
    if (const auto written = write_whole(wish.file, (*option)->csv); !written) {
      return refuse(terminal, written.problems());
    }
  }
  if (terminal.json) {
    return answer(terminal, rows_json(**option));
  }
  print_rows(terminal.out, **option);
  return Exit::done;
}

}  // namespace

void add_parts(Commands& commands) {
  const PartsWish wish{commands.text(), commands.text(), commands.text(),
                       commands.real(casework::usual_horizon_years)};
  CLI::App* command =
      commands.add("parts", "Shopping list of what will be replaced",
                   [wish](const Invocation& invocation) { return parts(invocation, wish); });
  command->add_option("case", wish.name, "Case number or case file")->required();
  command->add_option("--for", wish.scope,
                      "nothing, convicted-part, cohort, board, all-electrolytics (default: as "
                      "decide advises)");
  command->add_option("-o,--output", wish.file, "Also as CSV")->type_name("FILE");
  command->add_option("--years", wish.years, "Horizon that the advice is for")
      ->capture_default_str();
}

}  // namespace dryout::app
