// dryout report CASE -o FILE: what the owner is handed, or the bench record, on paper.
#include <CLI/CLI.hpp>

#include "app/commands.h"
#include "app/print_view.h"
#include "app/write_document.h"
#include "report/bench_record.h"
#include "report/owner_report.h"

namespace dryout::app {
namespace {

struct ReportWish {
  std::string& name;
  std::string& reader;
  std::string& shop;
  double& years;
  PageOptions page;
};

Exit write_report(const Invocation& invocation, const ReportWish& wish) {
  const Terminal& terminal = invocation.terminal;
  if (const auto format = format_for(wish.page.file); !format) {
    return refuse(terminal, format.problems());
  }
  const auto opened = open_case(invocation.surroundings, wish.name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  const auto view = opened->workshop->view(opened->number);
  if (!view) {
    return refuse(terminal, view.problems());
  }
  const auto mending = opened->workshop->mending(opened->number, wish.years);
  if (!mending) {
    return refuse(terminal, mending.problems());
  }
  if (!terminal.json) {
    print_damage(terminal.out, opened->damage());
  }
  const report::Imprint imprint = imprint_of(wish.shop, *mending);
  const report::Document document = wish.reader == "bench"
                                        ? report::bench_record(*view, *mending, imprint)
                                        : report::owner_report(*view, *mending, imprint);
  return write_document(terminal, document, wish.page, wish.reader);
}

}  // namespace

void add_report(Commands& commands) {
  std::string& name = commands.text();
  std::string& reader = commands.text("owner");
  std::string& shop = commands.text();
  double& years = commands.real(casework::usual_horizon_years);
  CLI::App* command =
      commands.add("report", "The owner's report or the bench record, as a file", {});
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("--for", reader, "Who reads it: the owner, or the bench (everything)")
      ->check(CLI::IsMember({"owner", "bench"}))
      ->capture_default_str();
  command->add_option("--shop", shop,
                      "The workshop's name, to stand on it (default: as the settings say)");
  command->add_option("--years", years, "How long the owner wants it to last, 0.1 to 30")
      ->capture_default_str();
  const ReportWish wish{name, reader, shop, years, add_page_options(commands, command)};
  commands.runs.back().second = [wish](const Invocation& invocation) {
    return write_report(invocation, wish);
  };
}

}  // namespace dryout::app
