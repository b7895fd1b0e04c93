#include "report/parts_sheet.h"

#include "report/bench_sections.h"
#include "report/plain_words.h"

namespace dryout::report {

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
  document.blocks.emplace_back(shopping_table(shopping));
  document.blocks.emplace_back(Paragraph{
      "Hold every part against the old one before it is fitted: size, lead spacing, polarity, "
      "and for parts across the mains the marks of a recognised test house.",
      Paragraph::Tone::quiet});
  return document;
}

}  // namespace dryout::report
