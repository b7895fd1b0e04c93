// dryout parts CASE: the shopping list of the option advised, or of another one; as a sheet to
// print or a file for a spreadsheet.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/mending_json.h"
#include "app/print_view.h"
#include "app/write_document.h"
#include "decision/options.h"
#include "documents/write_whole.h"
#include "report/parts_sheet.h"

namespace dryout::app {
namespace {

using casework::MendingView;
using casework::OptionView;
using documents::Value;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

struct PartsWish {
  std::string& name;
  std::string& scope;
  PageOptions page;
  double& years;
};

constexpr std::string_view for_spreadsheets = ".csv";

bool is_spreadsheet(const std::string& file) {
  return file.size() > for_spreadsheets.size() &&
         file.compare(file.size() - for_spreadsheets.size(), std::string::npos, for_spreadsheets) ==
             0;
}

/// Whether the ending says what to write; before anything is worked out.
Result<Done> accepts(const std::string& file) {
  if (file.empty() || is_spreadsheet(file) || report::format_of(file)) {
    return Done{};
  }
  return Problem{"no format is known for this ending",
                 {"--output", 0, {}},
                 '"' + quantities::excerpt(file) + '"',
                 "a file name that ends in .pdf, .html or .csv"};
}

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

}  // namespace

void print_shopping(std::ostream& out, const OptionView& option) {
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

namespace {

Value rows_json(const OptionView& option, const std::vector<std::string>& notices) {
  Value rows = Value::array();
  for (const casework::ShoppingRow& row : option.shopping) {
    rows.append(to_json(row));
  }
  return Value::object({{"scope", option.scope},
                        {"title", option.title},
                        {"shopping", rows},
                        {"notices", texts_json(notices)}});
}

/// For a spreadsheet the file comes beside the list on the terminal; a sheet to print alone.
Exit print_list(const Terminal& terminal, const OptionView& option, const std::string& file,
                const std::string& damage, const std::vector<std::string>& notices) {
  if (!file.empty()) {
    if (const auto written = documents::write_whole(file, option.csv); !written) {
      return refuse(terminal, written.problems());
    }
  }
  if (terminal.json) {
    return answer(terminal, rows_json(option, notices));
  }
  print_damage(terminal.out, damage);
  print_shopping(terminal.out, option);
  return Exit::done;
}

Exit parts(const Invocation& invocation, const PartsWish& wish) {
  const Terminal& terminal = invocation.terminal;
  if (const auto accepted = accepts(wish.page.file); !accepted) {
    return refuse(terminal, accepted.problems());
  }
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
  if (wish.page.file.empty() || is_spreadsheet(wish.page.file)) {
    return print_list(terminal, **option, wish.page.file, opened->damage(), mending->notices);
  }
  if (!terminal.json) {
    print_damage(terminal.out, opened->damage());
  }
  const auto view = opened->workshop->view(opened->number);
  if (!view) {
    return refuse(terminal, view.problems());
  }
  return write_document(terminal,
                        report::parts_sheet(*view, (*option)->shopping, imprint_of("", *mending)),
                        wish.page, "parts");
}

}  // namespace

void add_parts(Commands& commands) {
  std::string& name = commands.text();
  std::string& scope = commands.text();
  double& years = commands.real(casework::usual_horizon_years);
  CLI::App* command = commands.add("parts", "Shopping list of what will be replaced", {});
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("--for", scope,
                      "nothing, convicted-part, cohort, board, all-electrolytics (default: as "
                      "decide advises)");
  command->add_option("--years", years, "Horizon that the advice is for")->capture_default_str();
  const PageOptions page = add_page_options(commands, command);
  command->get_option("--output")
      ->required(false)
      ->description("File to write: a sheet to print (.pdf, .html), or for a spreadsheet (.csv)");
  const PartsWish wish{name, scope, page, years};
  commands.runs.back().second = [wish](const Invocation& invocation) {
    return parts(invocation, wish);
  };
}

}  // namespace dryout::app
