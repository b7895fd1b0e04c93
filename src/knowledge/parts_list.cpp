#include "knowledge/parts_list.h"

#include <algorithm>
#include <charconv>
#include <cstdint>

#include "knowledge/part_value.h"
#include "knowledge/parts_list_columns.h"
#include "knowledge/reference_range.h"
#include "knowledge/spoken_name.h"
#include "quantities/digit.h"

namespace dryout::knowledge {
namespace {

using documents::TableRow;
using quantities::is_digit;
using quantities::Problem;
using quantities::Problems;

constexpr int count_max = 500;           // of one group, as in equipment files
constexpr std::size_t faults_max = 100;  // a person mends no more at once

std::string lowered(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

/// Reads one list row by row and keeps every complaint.
class ListReader {
 public:
  ListReader(const documents::Table& table, const KnowledgeBase& knowledge, Headings headings)
      : table_(table), knowledge_(knowledge), headings_(std::move(headings)) {
    list_.file = table.file;
    list_.unread = headings_.unread;
    for (std::size_t column = 0; column < column_count; ++column) {
      if (const auto at = headings_.indices[column]) {
        list_.columns[std::string(name_of(static_cast<Column>(column)))] =
            table.rows[headings_.heading_row].cells[*at];
      }
    }
  }

  void read() {
    for (std::size_t r = headings_.heading_row + 1; r < table_.rows.size(); ++r) {
      read_row(table_.rows[r]);
      if (problems_.size() >= faults_max || named_ > list_references_max) return;
    }
    if (list_.capacitors.empty() && problems_.empty()) {
      problems_.push_back({"no capacitor in this list",
                           {table_.file, 0, {}},
                           std::to_string(table_.rows.size() - headings_.heading_row - 1) + " rows",
                           "rows whose reference begins with C, or with a capacitor's technology "
                           "or role"});
    }
  }

  [[nodiscard]] const Problems& problems() const { return problems_; }
  [[nodiscard]] PartsList take() { return std::move(list_); }

 private:
  [[nodiscard]] const std::string& cell(const TableRow& row, Column column) const {
    return headings_.cell(row, column);
  }

  void complain(const TableRow& row, Column column, Problem problem) {
    problem.place = {table_.file, row.line, {}};
    if (const auto at = headings_.index(column)) {
      problem.place.pointer =
          "column " + std::to_string(*at + 1) + ", " +
          quantities::excerpt(table_.rows[headings_.heading_row].cells[*at], 30);
    }
    problems_.push_back(std::move(problem));
  }

  /// False, and a complaint, where they are more than a list may hold.
  bool append_references(const TableRow& row, const std::string& word,
                         std::vector<std::string>& references) {
    const std::optional<ReferenceRange> range = range_in(word);
    if (!range && is_no_range(word)) {
      complain(row, Column::reference,
               {"a range that cannot be counted",
                {},
                '"' + quantities::excerpt(word) + '"',
                "the same letters on both sides and numbers that go up, such as C41-C50; else each "
                "reference by itself, with commas between"});
      return false;
    }
    const std::int64_t more = range ? range->count : 1;
    if (more > range_references_max) {
      complain(row, Column::reference,
               {"a range of too many parts",
                {},
                '"' + quantities::excerpt(word) + "\", " + std::to_string(more) + " parts",
                "at most " + std::to_string(range_references_max) + " in one range"});
      return false;
    }
    named_ += static_cast<std::size_t>(more);
    if (named_ > list_references_max) {
      complain(row, Column::reference,
               {"too many parts for one list",
                {},
                "more than " + std::to_string(list_references_max) + " up to this row",
                "at most " + std::to_string(list_references_max) +
                    " references in a list; one list a board"});
      return false;
    }
    for (int i = 0; range && i < range->count; ++i) {
      references.push_back(range->head + std::to_string(range->first + i));
    }
    if (!range) references.push_back(word);
    return true;
  }

  [[nodiscard]] std::optional<std::vector<std::string>> references_in(const TableRow& row) {
    std::vector<std::string> references;
    for (const std::string& word : reference_words(cell(row, Column::reference))) {
      if (!append_references(row, word, references)) return {};
    }
    return references;
  }

  /// The technology that the row's own words name: its technology cell, else its description and
  /// value.
  [[nodiscard]] std::string technology_in(const std::string& text) const {
    const std::string spoken = lowered(text);
    std::string found;
    std::size_t longest = 0;
    for (const Technology& technology : knowledge_.technologies) {
      if (spoken == technology.id || hyphenated(text) == hyphenated(technology.title)) {
        return technology.id;
      }
      // A special kind of electrolytic is called by both names: the plain kind, which stands first,
      // yields.
      const bool plain_found = found == knowledge_.technologies.front().id;
      for (const std::string& name : technology.called) {
        if ((plain_found || name.size() > longest) && stands_in(spoken, name)) {
          found = technology.id;
          longest = name.size();
        }
      }
    }
    return found;
  }

  /// As words of its own: "mica" is not in "chemical".
  static bool stands_in(const std::string& text, const std::string& words) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() && ((text[i] >= 'a' && text[i] <= 'z') || is_digit(text[i]));
    };
    for (std::size_t at = text.find(words); at != std::string::npos;
         at = text.find(words, at + 1)) {
      if ((at == 0 || !letter(at - 1)) && !letter(at + words.size())) return true;
    }
    return false;
  }

  /// X3 is a crystal, or a part across the mains: only the rest of its row says which.
  [[nodiscard]] bool is_told_as_line_part(const TableRow& row,
                                          const std::string& technology) const {
    const std::string role = hyphenated(cell(row, Column::role));
    if (technology == "mains-film" || role == "mains-x" || role == "mains-y") return true;
    const std::string words =
        lowered(cell(row, Column::value) + ' ' + cell(row, Column::description) + ' ' +
                cell(row, Column::technology));
    return technology_in(words) == "mains-film";
  }

  [[nodiscard]] bool is_capacitor(const TableRow& row, const std::vector<std::string>& references,
                                  const std::string& technology) const {
    if (!references.empty()) {
      const std::string letters = letters_of(references.front());
      return names_capacitor(letters) ||
             (may_name_line_capacitor(letters) && is_told_as_line_part(row, technology));
    }
    return !technology.empty() || !cell(row, Column::role).empty();
  }

  [[nodiscard]] bool is_left_out(const TableRow& row) const {
    const std::string fitted = lowered(cell(row, Column::fitted));
    const std::string value = lowered(cell(row, Column::value));
    const auto says = [](const std::string& text) {
      return text == "dnp" || text == "dnf" || text == "not fitted" || text == "nf" ||
             text == "do not populate" || text == "do not fit";
    };
    const auto at = headings_.index(Column::fitted);
    const bool heading_dnp =
        at &&
        lowered(table_.rows[headings_.heading_row].cells[*at]).find("dnp") != std::string::npos;
    const bool no = fitted == "no" || fitted == "n" || fitted == "0" || fitted == "false";
    const bool yes = fitted == "yes" || fitted == "y" || fitted == "1" || fitted == "true";
    return says(value) || says(fitted) || (heading_dnp ? yes : no);
  }

  void read_row(const TableRow& row) {
    if (row.cells.size() > table_.rows[headings_.heading_row].cells.size()) {
      problems_.push_back({"more fields than headings",
                           {table_.file, row.line, {}},
                           std::to_string(row.cells.size()) + " fields",
                           std::to_string(table_.rows[headings_.heading_row].cells.size()) +
                               "; a field that holds the separator stands in double quotes"});
      return;
    }
    PartsRow part;
    part.line = row.line;
    auto references = references_in(row);
    if (!references) return;
    part.references = *std::move(references);
    const std::string& told = cell(row, Column::technology);
    part.technology = technology_in(told);
    const bool capacitor = is_capacitor(row, part.references, part.technology);
    if (!read_count(row, part)) return;
    if (!capacitor) {
      if (!part.references.empty()) list_.others[letters_of(part.references.front())] += part.count;
      return;
    }
    if (is_left_out(row)) {
      list_.not_fitted += part.count;
      return;
    }
    if (part.technology.empty()) {
      part.technology = technology_in(told + ' ' + cell(row, Column::description) + ' ' +
                                      cell(row, Column::value));
    }
    if (part.references.empty() && cell(row, Column::value).empty()) {
      complain(row, Column::reference,
               {"a capacitor that nothing names",
                {},
                "neither reference nor value",
                "a reference such as C12, or a value such as 47u"});
      return;
    }
    read_ratings(row, part);
    part.board = cell(row, Column::board);
    part.block = cell(row, Column::block);
    part.role = cell(row, Column::role);
    refuse_repeated(row, part);
    list_.capacitors.push_back(std::move(part));
  }

  bool read_count(const TableRow& row, PartsRow& part) {
    const std::string& text = cell(row, Column::quantity);
    const int named = static_cast<int>(part.references.size());
    part.count = std::max(1, named);
    if (text.empty()) return true;
    int count = 0;
    const auto [stop, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
    const bool whole = fault == std::errc() && stop == text.data() + text.size();
    if (!whole || count < 1 || count > count_max) {
      complain(row, Column::quantity,
               {"not a quantity",
                {},
                '"' + quantities::excerpt(text) + '"',
                "a whole number from 1 to " + std::to_string(count_max)});
      return false;
    }
    if (named > 0 && named != count) {
      complain(row, Column::quantity,
               {"the quantity is not the number of references",
                {},
                text,
                std::to_string(named) + ", as many as stand in the column of references"});
      return false;
    }
    part.count = count;
    return true;
  }

  void read_ratings(const TableRow& row, PartsRow& part) {
    part.value_text = cell(row, Column::value);
    const auto volts = read_part_volts(cell(row, Column::volts));
    if (!volts) {
      complain(row, Column::volts, volts.problems().front());
    } else {
      part.rated = *volts;
    }
    const auto value = read_part_value(part.value_text, figures_of(part));
    if (!value) {
      complain(row, Column::value, value.problems().front());
      return;
    }
    part.capacitance = value->capacitance;
    if (!part.rated) part.rated = value->rated;
  }

  [[nodiscard]] Figures figures_of(const PartsRow& part) const {
    if (part.technology == "solid-tantalum") return Figures::codes_on_tantalum;
    const Technology* technology = find(knowledge_.technologies, part.technology);
    if (technology == nullptr) return Figures::unknown;
    return technology->wears_out || part.technology == "polymer" ? Figures::microfarads_on_cans
                                                                 : Figures::codes_on_small_parts;
  }

  void refuse_repeated(const TableRow& row, const PartsRow& part) {
    for (const std::string& reference : part.references) {
      const auto [first, fresh] = seen_.emplace(part.board + '\n' + reference, row.line);
      if (fresh) continue;
      complain(
          row, Column::reference,
          {"a reference that stands twice",
           {},
           reference,
           "each reference of a board once; it stood on line " + std::to_string(first->second)});
    }
  }

  const documents::Table& table_;
  const KnowledgeBase& knowledge_;
  Headings headings_;
  PartsList list_;
  Problems problems_;
  std::map<std::string, int> seen_;
  std::size_t named_ = 0;  ///< references up to here
};

}  // namespace

std::string PartsRow::name() const {
  std::string name;
  for (const std::string& reference : references) name += (name.empty() ? "" : ", ") + reference;
  return name.empty() ? value_text : name;
}

int PartsList::capacitor_count() const {
  int count = 0;
  for (const PartsRow& row : capacitors) count += row.count;
  return count;
}

quantities::Result<PartsList> read_parts_list(const documents::Table& table,
                                              const KnowledgeBase& knowledge) {
  const auto headings = find_headings(table);
  if (!headings) {
    std::string found;
    for (const std::string& cell : table.rows.front().cells) {
      found += (found.empty() ? "" : ", ") + cell;
    }
    return Problem{"no row of headings with a column of references and one of values",
                   {table.file, table.rows.front().line, {}},
                   quantities::excerpt(found),
                   accepted_headings()};
  }
  ListReader reader(table, knowledge, *headings);
  reader.read();
  if (!reader.problems().empty()) {
    return reader.problems();
  }
  return reader.take();
}

}  // namespace dryout::knowledge
