// The headings of a parts list: which of our columns each one is.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "documents/table.h"

namespace dryout::knowledge {

enum class Column {
  reference,
  value,
  volts,
  technology,
  board,
  block,
  role,
  quantity,
  description,
  fitted
};
inline constexpr std::size_t column_count = 10;

/// "reference", "value", ...
[[nodiscard]] std::string_view name_of(Column column);

struct Headings {
  std::size_t heading_row = 0;  ///< index in the table; the parts follow it
  std::array<std::optional<std::size_t>, column_count> indices;
  std::vector<std::string> unread;

  [[nodiscard]] std::optional<std::size_t> index(Column column) const {
    return indices[static_cast<std::size_t>(column)];
  }
  /// The cell of a row, "" where the row or the table has none.
  [[nodiscard]] const std::string& cell(const documents::TableRow& row, Column column) const;
};

/// The first of the leading rows that names a reference and something else. Layout programs write a
/// title or two above it.
[[nodiscard]] std::optional<Headings> find_headings(const documents::Table& table);

/// What is accepted as headings, for complaints.
[[nodiscard]] std::string accepted_headings();

}  // namespace dryout::knowledge
