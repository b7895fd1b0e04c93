#include "casework/tables.h"

#include <initializer_list>

#include "casework/word_list.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

/// A tab or line break inside a cell would shift all that follows.
std::string cell(std::string text) {
  for (char& c : text) {
    c = c == '\t' || c == '\n' || c == '\r' ? ' ' : c;
  }
  return text;
}

std::string row(std::initializer_list<std::string> cells) {
  std::string line;
  for (const std::string& text : cells) {
    line += line.empty() ? cell(text) : '\t' + cell(text);
  }
  return line + '\n';
}

/// In SI units, for a spreadsheet.
std::string number(double value) { return quantities::significant_figures(value, 6); }

}  // namespace

std::string readings_table(const CaseView& view) {
  std::string text =
      row({"part", "kind", "read", "value (SI)", "limit (SI)", "limit from", "verdict"});
  for (const ReadingView& reading : view.readings) {
    text +=
        row({reading.item_title, reading.kind, reading.shown, number(reading.value),
             reading.limit ? number(*reading.limit) : "", reading.limit_source, reading.sentence});
  }
  return text;
}

std::string suspects_table(const CaseView& view) {
  std::string text = row({"suspect", "block", "board", "suspicion", "before any evidence",
                          "evidence (dB)", "judged", "mended"});
  for (const SuspectView& suspect : view.suspects) {
    text += row({suspect.title, suspect.block_title, suspect.board_title,
                 quantities::fixed_point(suspect.suspicion.value(), 4),
                 quantities::fixed_point(suspect.before.value(), 4),
                 quantities::fixed_point(suspect.weight.value, 1), suspect.judged, suspect.mended});
  }
  return text;
}

std::string shopping_table(const std::vector<ShoppingRow>& rows) {
  std::string text = row({"needed", "spare", "part", "for"});
  for (const ShoppingRow& wanted : rows) {
    text += row({std::to_string(wanted.needed), std::to_string(wanted.spares), wanted.part,
                 in_a_row(wanted.for_parts)});
  }
  return text;
}

}  // namespace dryout::casework
