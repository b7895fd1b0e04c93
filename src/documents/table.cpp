#include "documents/table.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "documents/read_text.h"

namespace dryout::documents {
namespace {

using quantities::Problem;
using quantities::Result;

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
constexpr std::array separators{',', ';', '\t'};

/// Bytes of the UTF-8 sequence at the front, 0 where there is none (RFC 3629, section 4).
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) {
    return lead == 0 ? 0 : 1;
  }
  const std::size_t length = lead >= 0xc2 && lead <= 0xdf   ? 2
                             : (lead & 0xf0U) == 0xe0U      ? 3
                             : lead >= 0xf0 && lead <= 0xf4 ? 4
                                                            : 0;
  if (length == 0 || text.size() < length) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) {
      return 0;
    }
  }
  // Overlong forms, surrogates, beyond the last code point.
  const bool refused = (lead == 0xe0 && byte(1) < 0xa0) || (lead == 0xed && byte(1) > 0x9f) ||
                       (lead == 0xf0 && byte(1) < 0x90) || (lead == 0xf4 && byte(1) > 0x8f);
  return refused ? 0 : length;
}

std::optional<Problem> not_utf8(std::string_view text, const std::string& file) {
  int line = 1;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text.substr(at));
    if (length == 0) {
      constexpr std::string_view digits = "0123456789abcdef";
      const auto byte = static_cast<unsigned char>(text[at]);
      return Problem{"not UTF-8 text",
                     {file, line, {}},
                     std::string("the byte 0x") + digits[byte >> 4U] + digits[byte & 0xfU],
                     "a table exported as UTF-8 text"};
    }
    line += text[at] == '\n' ? 1 : 0;
    at += length;
  }
  return {};
}

using Seen = std::array<int, separators.size()>;

/// How often each separator stands outside quotes in each of the first lines.
std::vector<Seen> separators_by_line(std::string_view text) {
  constexpr std::size_t lines_looked_at = 20;
  std::vector<Seen> lines(1);
  bool quoted = false;
  for (std::size_t i = 0; i < text.size() && lines.size() <= lines_looked_at; ++i) {
    quoted = quoted != (text[i] == '"');
    if (!quoted && text[i] == '\n') lines.emplace_back();
    const auto found = std::find(separators.begin(), separators.end(), text[i]);
    if (!quoted && found != separators.end()) {
      ++lines.back()[static_cast<std::size_t>(found - separators.begin())];
    }
  }
  return lines;
}

/// The separator stands as often in one row as in the next; a comma that is decimal, or parts the
/// references of a row, does not. Among equals the one that stands more often.
char separator_of(std::string_view text) {
  const std::vector<Seen> lines = separators_by_line(text);
  char best = separators.front();
  std::pair<int, int> most{0, 0};
  for (std::size_t s = 0; s < separators.size(); ++s) {
    std::map<int, int> rows_with;
    int total = 0;
    for (const Seen& line : lines) {
      total += line[s];
      if (line[s] > 0) ++rows_with[line[s]];
    }
    int alike = 0;
    for (const auto& [count, rows] : rows_with) alike = std::max(alike, rows);
    if (std::pair(alike, total) > most) {
      most = {alike, total};
      best = separators[s];
    }
  }
  return best;
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) {
    return {};
  }
  return std::string(text.substr(first, text.find_last_not_of(blanks) - first + 1));
}

/// Walks the text field by field.
class TableParser {
 public:
  TableParser(std::string_view text, Table& table) : text_(text), table_(table) {}

  std::optional<Problem> parse() {
    while (at_ < text_.size()) {
      if (auto problem = take_row()) return problem;
    }
    return {};
  }

 private:
  [[nodiscard]] bool at_line_end() const {
    return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
  }

  void pass_line_end() {
    if (at_ >= text_.size()) return;
    at_ += text_.substr(at_, 2) == "\r\n" ? 2 : 1;
    ++line_;
  }

  std::optional<Problem> take_row() {
    TableRow row{line_, {}};
    for (bool more = true; more;) {
      std::string cell;
      if (auto problem = take_field(cell)) return problem;
      row.cells.push_back(std::move(cell));
      if (row.cells.size() > table_fields_max) {
        return beyond("a row with too many fields", row.line, table_fields_max, "fields in a row");
      }
      if (++cells_ > table_cells_max) {
        return beyond("too many fields", row.line, table_cells_max, "fields in a table");
      }
      more = at_ < text_.size() && text_[at_] == table_.separator;
      at_ += more ? 1 : 0;
    }
    pass_line_end();
    const bool filled = std::any_of(row.cells.begin(), row.cells.end(),
                                    [](const std::string& cell) { return !cell.empty(); });
    if (!filled) return {};
    if (table_.rows.size() == table_rows_max) {
      return beyond("too many rows", row.line, table_rows_max, "rows in a table");
    }
    table_.rows.push_back(std::move(row));
    return {};
  }

  [[nodiscard]] Problem beyond(std::string message, int line, std::size_t most,
                               const std::string& what) const {
    return {std::move(message),
            {table_.file, line, {}},
            "more than " + std::to_string(most),
            "at most " + std::to_string(most) + ' ' + what};
  }

  std::optional<Problem> take_field(std::string& cell) {
    std::size_t ahead = at_;
    while (ahead < text_.size() && text_[ahead] == ' ') ++ahead;
    if (ahead < text_.size() && text_[ahead] == '"') {
      at_ = ahead + 1;
      return take_quoted(cell);
    }
    const std::size_t begin = at_;
    while (!at_line_end() && text_[at_] != table_.separator) ++at_;
    cell = trimmed(text_.substr(begin, at_ - begin));
    return {};
  }

  std::optional<Problem> take_quoted(std::string& cell) {
    const int opened = line_;
    for (;; ++at_) {
      if (at_ >= text_.size()) {
        return Problem{"a quoted field that is never closed",
                       {table_.file, opened, {}},
                       '"' + quantities::excerpt(cell, 30),
                       "a field closed by a double quote, a quote inside it doubled (RFC 4180)"};
      }
      if (text_[at_] == '"') {
        if (text_.substr(at_, 2) != "\"\"") break;
        ++at_;
      }
      line_ += text_[at_] == '\n' ? 1 : 0;
      cell += text_[at_];
    }
    ++at_;
    cell = trimmed(cell);
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    if (!at_line_end() && text_[at_] != table_.separator) {
      return Problem{"text after a closing quote",
                     {table_.file, line_, {}},
                     '"' + quantities::excerpt(text_.substr(at_, 20)) + '"',
                     "a separator or the end of the line; a quote inside a field is doubled "
                     "(RFC 4180)"};
    }
    return {};
  }

  std::string_view text_;
  Table& table_;
  std::size_t at_ = 0;
  std::size_t cells_ = 0;
  int line_ = 1;
};

}  // namespace

Result<Table> parse_table(std::string_view text, std::string file) {
  if (text.size() > table_bytes_max) {
    return too_large(file, text.size(), table_bytes_max);
  }
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) {
    text.remove_prefix(byte_order_mark.size());
  }
  if (const auto problem = not_utf8(text, file)) {
    return *problem;
  }
  Table table{std::move(file), separator_of(text), {}};
  if (const auto problem = TableParser(text, table).parse()) {
    return *problem;
  }
  if (table.rows.empty()) {
    return Problem{
        "an empty table", {table.file, 0, {}}, "", "a row of headings and rows of parts"};
  }
  return table;
}

}  // namespace dryout::documents
