// Tables as spreadsheets and layout programs export them: the format of RFC 4180 (fields in double
// quotes may hold separators, line breaks and doubled quotes), with a comma, a semicolon or a
// tabulator between the fields, in UTF-8 with or without its byte order mark. Lines may end in CR
// LF, LF or CR. Every refusal names file and line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace dryout::documents {

struct TableRow {
  int line = 0;                    ///< where the row begins, 1-based
  std::vector<std::string> cells;  ///< without quotes and without blanks around them
};

struct Table {
  std::string file;            ///< as it is to be named in complaints
  char separator = ',';        ///< the one found
  std::vector<TableRow> rows;  ///< rows without a single filled cell are left out
};

/// More than the largest parts list, and little enough that a file made to be large costs nobody
/// their memory: what lies beyond is refused where it stands, before it is read.
inline constexpr std::size_t table_bytes_max = 16U << 20U;
inline constexpr std::size_t table_rows_max = 20'000;
inline constexpr std::size_t table_fields_max = 200;  ///< of one row
inline constexpr std::size_t table_cells_max = 500'000;

/// Parses text that was already read. The separator is the one that stands equally often in most of
/// the first twenty lines, outside quotes: a decimal comma between semicolons does not.
[[nodiscard]] quantities::Result<Table> parse_table(std::string_view text, std::string file);

}  // namespace dryout::documents
