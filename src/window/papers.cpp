#include "window/papers.h"

#include <algorithm>
#include <array>

#include "report/bench_record.h"
#include "report/owner_report.h"
#include "report/parts_sheet.h"
#include "report/render.h"
#include "window/options_view.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::CaseView;
using casework::MendingView;
using quantities::Problem;
using quantities::Result;

enum class Content { owner, bench, parts, table, journal };
struct PaperKind {
  const char* name;
  const char* label;
  Content content;
  const char* stem;
  const char* ending;
};
constexpr std::array<PaperKind, 7> paper_kinds{
    {{"owner-pdf", "Owner's report, PDF", Content::owner, "owner", ".pdf"},
     {"owner-html", "Owner's report, HTML", Content::owner, "owner", ".html"},
     {"bench-pdf", "Bench record, PDF", Content::bench, "bench", ".pdf"},
     {"bench-html", "Bench record, HTML", Content::bench, "bench", ".html"},
     {"parts-pdf", "List to print, PDF", Content::parts, "parts", ".pdf"},
     {"parts-csv", "For a spreadsheet, CSV", Content::table, "parts", ".csv"},
     {"case-json", "The case as a file", Content::journal, "case", ".json"}}};

report::Document document_of(Content content, const CaseView& view, const MendingView& mending,
                             const casework::OptionView& option) {
  const report::Imprint imprint = report::imprint_now(mending.shop);
  return content == Content::owner   ? report::owner_report(view, mending, imprint)
         : content == Content::bench ? report::bench_record(view, mending, imprint)
                                     : report::parts_sheet(view, option.shopping, imprint);
}

Result<std::string> bytes_of(const PaperKind& kind, casework::Workshop& workshop,
                             const CaseView& view, const MendState& state) {
  if (kind.content == Content::journal) {
    return workshop.export_case(view.number);
  }
  const auto mending = workshop.mending(view.number, state.horizon_years);
  if (!mending) {
    return mending.problems();
  }
  const casework::OptionView& option = mending->options.at(option_in_sight(*mending, state));
  if (kind.content == Content::table) {
    return option.csv;
  }
  auto rendered = report::render(document_of(kind.content, view, *mending, option),
                                 *report::format_of(kind.ending), report::Paper::a4);
  return rendered ? Result<std::string>(std::move(rendered->bytes)) : rendered.problems();
}

/// "larkfield-40" of "Larkfield 40": what a file's name can bear everywhere.
std::string file_word(const std::string& title) {
  constexpr std::size_t longest = 40;
  std::string word;
  for (const char c : title) {
    const char low = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
    if ((low >= 'a' && low <= 'z') || (low >= '0' && low <= '9')) {
      word += low;
    } else if (!word.empty() && word.back() != '-') {
      word += '-';
    }
  }
  word.resize(std::min(word.size(), longest));
  while (!word.empty() && word.back() == '-') {
    word.pop_back();
  }
  return word;
}

std::string stem_of(const PaperKind& kind, const CaseView& view) {
  const std::string set = file_word(report::set_title(view));
  return kind.stem + std::string("-") + std::to_string(view.number) + (set.empty() ? "" : "-") +
         set;
}

}  // namespace

const std::vector<std::string>& paper_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    all.reserve(paper_kinds.size());
    for (const PaperKind& kind : paper_kinds) {
      all.emplace_back(kind.name);
    }
    return all;
  }();
  return names;
}

void draw_paper_buttons(Sheet& sheet, const std::vector<std::string>& beginnings,
                        CommandQueue& queue) {
  bool begun_row = false;
  for (const PaperKind& kind : paper_kinds) {
    const std::string name = kind.name;
    if (std::none_of(beginnings.begin(), beginnings.end(),
                     [&name](const std::string& begun) { return name.starts_with(begun); })) {
      continue;
    }
    if (row_button(sheet, begun_row, "paper/" + name, kind.label, {.face = Face::note})) {
      queue.push(WritePaper{name});
    }
  }
}

Result<std::string> write_paper(Bench& bench, const Desk& desk, const std::string& paper) {
  const auto kind = std::find_if(paper_kinds.begin(), paper_kinds.end(),
                                 [&paper](const PaperKind& each) { return paper == each.name; });
  if (kind == paper_kinds.end() || !desk.open_case) {
    return Problem{"there is no paper of this name here",
                   {},
                   quantities::excerpt(paper),
                   "an open case, and one of: " + joined(paper_names())};
  }
  const Result<std::string> bytes = bytes_of(*kind, bench.at_hand(), *desk.open_case, desk.mend);
  return bytes ? bench.workshop.files().hand_out(stem_of(*kind, *desk.open_case), kind->ending,
                                                 *bytes)
               : bytes;
}

}  // namespace dryout::window
