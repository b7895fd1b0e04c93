#include "report/parts_sheet.h"

#include <map>

#include "report/bench_sections.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::ShoppingRow;

Table order_table(const std::vector<ShoppingRow>& shopping) {
  Table table{{{"No.", true}, {"Needed", true}, {"Spare", true}, {"Part"}, {"For"}}, {}};
  for (const ShoppingRow& row : shopping) {
    table.rows.push_back({std::to_string(table.rows.size() + 1), std::to_string(row.needed),
                          std::to_string(row.spares), row.part, one_a_line(row.for_parts)});
  }
  return table;
}

/// Each remark once, with the numbers of the lines it goes with: "No. 2, 3: A film part ...".
Points remarks(const std::vector<ShoppingRow>& shopping,
               const std::vector<std::string> ShoppingRow::*told) {
  std::map<std::string, std::string> numbers;
  std::vector<std::string> order;
  for (std::size_t i = 0; i < shopping.size(); ++i) {
    for (const std::string& remark : shopping[i].*told) {
      std::string& lines = numbers[remark];
      if (lines.empty()) {
        order.push_back(remark);
      }
      lines += (lines.empty() ? "" : ", ") + std::to_string(i + 1);
    }
  }
  Points points;
  for (const std::string& remark : order) {
    points.sentences.push_back("No. " + numbers[remark] + ": " + remark);
  }
  return points;
}

void add_remarks(Document& document, const char* title, Points points) {
  if (!points.sentences.empty()) {
    document.blocks.emplace_back(Heading{title});
    document.blocks.emplace_back(std::move(points));
  }
}

}  // namespace

Document parts_sheet(const casework::CaseView& view,
                     const std::vector<casework::ShoppingRow>& shopping, const Imprint& imprint) {
  Document document;
  document.title = "Parts to order";
  document.subtitle = set_title(view);
  document.subject = "Parts for one repair";
  document.author = imprint.shop;
  document.made_at = imprint.made_at;
  document.dense = true;
  document.running = running_line(view, imprint);
  if (shopping.empty()) {
    document.blocks.emplace_back(Paragraph{"Nothing is to be ordered for this set."});
    return document;
  }
  std::size_t pieces = 0;
  for (const auto& row : shopping) {
    pieces += static_cast<std::size_t>(row.needed + row.spares);
  }
  document.blocks.emplace_back(Paragraph{counted(shopping.size(), "kind", "kinds") + " of part, " +
                                         counted(pieces, "piece", "pieces") + " with the spares."});
  document.blocks.emplace_back(order_table(shopping));
  add_remarks(document, "When fitting", remarks(shopping, &ShoppingRow::look_at));
  add_remarks(document, "Why these", remarks(shopping, &ShoppingRow::why));
  document.blocks.emplace_back(Paragraph{
      "Hold every part against the old one before it is fitted: size, lead spacing, polarity, "
      "and for parts across the mains the marks of a recognised test house.",
      Paragraph::Tone::quiet});
  return document;
}

}  // namespace dryout::report
