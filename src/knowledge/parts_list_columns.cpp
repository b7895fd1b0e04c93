#include "knowledge/parts_list_columns.h"

#include <algorithm>

#include "knowledge/spoken_name.h"

namespace dryout::knowledge {
namespace {

struct Called {
  Column column;
  std::string_view heading;  ///< hyphenated
};

// General words of the trade. Of two headings for one column the one further up counts, so that
// "Value" goes before "Part".
constexpr std::array<Called, 58> headings{{
    {Column::reference, "reference"},
    {Column::reference, "references"},
    {Column::reference, "ref"},
    {Column::reference, "refs"},
    {Column::reference, "refdes"},
    {Column::reference, "ref-des"},
    {Column::reference, "designator"},
    {Column::reference, "designators"},
    {Column::reference, "reference-designator"},
    {Column::reference, "reference-designators"},
    {Column::reference, "reference-s"},
    {Column::reference, "part-reference"},
    {Column::reference, "position"},
    {Column::value, "value"},
    {Column::value, "values"},
    {Column::value, "val"},
    {Column::value, "capacitance"},
    {Column::value, "part-value"},
    {Column::value, "component-value"},
    {Column::value, "part"},
    {Column::value, "comment"},
    {Column::volts, "volts"},
    {Column::volts, "voltage"},
    {Column::volts, "rated-voltage"},
    {Column::volts, "rated-volts"},
    {Column::volts, "working-voltage"},
    {Column::volts, "voltage-rating"},
    {Column::volts, "v"},
    {Column::volts, "wv"},
    {Column::technology, "technology"},
    {Column::technology, "dielectric"},
    {Column::technology, "type"},
    {Column::technology, "capacitor-type"},
    {Column::technology, "construction"},
    {Column::technology, "kind"},
    {Column::board, "board"},
    {Column::board, "pcb"},
    {Column::board, "module"},
    {Column::board, "unit"},
    {Column::board, "assembly"},
    {Column::block, "block"},
    {Column::block, "stage"},
    {Column::block, "section"},
    {Column::block, "circuit"},
    {Column::block, "sheet"},
    {Column::role, "role"},
    {Column::role, "function"},
    {Column::role, "purpose"},
    {Column::role, "duty"},
    {Column::quantity, "quantity"},
    {Column::quantity, "qty"},
    {Column::quantity, "count"},
    {Column::quantity, "pcs"},
    {Column::description, "description"},
    {Column::description, "part-description"},
    {Column::description, "footprint"},
    {Column::fitted, "fitted"},
    {Column::fitted, "dnp"},
}};

constexpr std::array<std::string_view, column_count> names{
    "reference", "value", "volts",    "technology",  "board",
    "block",     "role",  "quantity", "description", "fitted"};

std::optional<std::size_t> rank_of(const std::string& heading) {
  const std::string spoken = hyphenated(heading);
  const auto found = std::find_if(headings.begin(), headings.end(),
                                  [&](const Called& called) { return called.heading == spoken; });
  return found == headings.end()
             ? std::nullopt
             : std::optional(static_cast<std::size_t>(found - headings.begin()));
}

Headings headings_in(const documents::TableRow& row) {
  Headings found;
  std::array<std::size_t, column_count> ranks{};
  std::vector<bool> used(row.cells.size());
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const auto rank = rank_of(row.cells[i]);
    if (!rank) continue;
    const auto column = static_cast<std::size_t>(headings[*rank].column);
    auto& at = found.indices[column];
    if (at && ranks[column] <= *rank) continue;
    if (at) used[*at] = false;
    at = i;
    ranks[column] = *rank;
    used[i] = true;
  }
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    if (!used[i] && !row.cells[i].empty()) found.unread.push_back(row.cells[i]);
  }
  return found;
}

}  // namespace

std::string_view name_of(Column column) { return names[static_cast<std::size_t>(column)]; }

const std::string& Headings::cell(const documents::TableRow& row, Column column) const {
  static const std::string nothing;
  const auto at = index(column);
  return at && *at < row.cells.size() ? row.cells[*at] : nothing;
}

std::optional<Headings> find_headings(const documents::Table& table) {
  constexpr std::size_t rows_searched = 20;
  for (std::size_t r = 0; r < std::min(rows_searched, table.rows.size()); ++r) {
    Headings found = headings_in(table.rows[r]);
    const bool more =
        found.index(Column::value) || found.index(Column::role) || found.index(Column::technology);
    if (found.index(Column::reference) && more) {
      found.heading_row = r;
      return found;
    }
  }
  return {};
}

std::string accepted_headings() {
  std::string text;
  for (std::size_t column = 0; column < column_count; ++column) {
    text += text.empty() ? "" : "; ";
    text += names[column];
    int told = 0;
    for (const Called& called : headings) {
      if (static_cast<std::size_t>(called.column) != column || called.heading == names[column] ||
          ++told > 3) {
        continue;
      }
      text += told == 1 ? " (or " : ", ";
      text += called.heading;
    }
    text += told > 0 ? ")" : "";
  }
  return text;
}

}  // namespace dryout::knowledge
