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

inline constexpr std::size_t table_bytes_max = 16U << 20U;

/// Parses text that was already read. The separator is the one that stands equally often in most of
/// the first twenty lines, outside quotes: a decimal comma between semicolons does not.
[[nodiscard]] quantities::Result<Table> parse_table(std::string_view text, std::string file);

}  // namespace dryout::documents
