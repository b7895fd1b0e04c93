#include "knowledge/reference_range.h"

#include <algorithm>
#include <charconv>
#include <limits>
#include <utility>

#include "quantities/digit.h"

namespace dryout::knowledge {
namespace {

using quantities::is_digit;

/// Hyphen, non-breaking hyphen, figure dash, en dash, em dash and minus as one sign; so the
/// ellipsis, the no-break spaces (Unicode Standard, chapter 6.2).
std::string plain_signs(std::string_view cell) {
  constexpr std::pair<std::string_view, std::string_view> plain[] = {
      {"\u2010", "-"}, {"\u2011", "-"},  {"\u2012", "-"}, {"\u2013", "-"}, {"\u2014", "-"},
      {"\u2212", "-"}, {"\u2026", ".."}, {"\u00a0", " "}, {"\u202f", " "}};
  std::string text;
  while (!cell.empty()) {
    const auto* const sign =
        std::find_if(std::begin(plain), std::end(plain),
                     [&](const auto& each) { return cell.starts_with(each.first); });
    const bool known = sign != std::end(plain);
    text += known ? sign->second : cell.substr(0, 1);
    cell.remove_prefix(known ? sign->first.size() : 1);
  }
  return text;
}

bool means_to(const std::string& word) {
  return word == "-" || word == "--" || word == ".." || word == "..." || word == "to" ||
         word == "TO" || word == "thru" || word == "through";
}

bool begins_as_range(const std::string& word) { return word[0] == '-' || word.starts_with(".."); }
bool ends_as_range(const std::string& word) {
  return word.size() > 1 && (word.back() == '-' || word.ends_with(".."));
}
bool has_digit(const std::string& word) { return std::any_of(word.begin(), word.end(), is_digit); }

/// The two sides of the first sign that may mean "to".
std::optional<std::pair<std::string, std::string>> sides_of(const std::string& word) {
  std::size_t gap = word.find("..");
  std::size_t behind = gap;
  if (gap != std::string::npos) {
    behind = word.find_first_not_of('.', gap);
  } else {
    gap = word.find('-');
    behind = gap == std::string::npos ? gap : word.find_first_not_of('-', gap);
  }
  if (gap == std::string::npos || gap == 0) return {};
  return std::pair(word.substr(0, gap),
                   behind == std::string::npos ? std::string() : word.substr(behind));
}

}  // namespace

std::string letters_of(const std::string& reference) {
  std::string letters;
  for (const char c : reference) {
    if (is_digit(c) && !letters.empty()) break;
    if ((c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z')) {
      letters += c >= 'a' ? static_cast<char>(c - 'a' + 'A') : c;
    }
  }
  return letters;
}

bool names_capacitor(const std::string& letters) {
  constexpr std::string_view known[] = {"C", "EC", "CE", "CP", "TC", "VC", "CT", "CV", "CX", "CY"};
  return std::find(std::begin(known), std::end(known), letters) != std::end(known);
}

bool may_name_line_capacitor(const std::string& letters) {
  return letters == "X" || letters == "Y" || letters == "XC" || letters == "YC";
}

std::vector<std::string> reference_words(std::string_view cell) {
  std::vector<std::string> words;
  std::string word;
  bool blanks_only = false;  // between the last word and the next
  bool open = false;         // the last word waits for the other end of its range
  const auto close = [&] {
    if (word.empty()) return;
    const bool behind_reference =
        !words.empty() && blanks_only && words.back()[0] != '-' && has_digit(words.back());
    const bool ends_range = open && blanks_only;
    const bool opens_range = !ends_range && behind_reference && means_to(word);
    const bool goes_on =
        behind_reference && begins_as_range(word) && !sides_of(words.back()).has_value();
    if (opens_range) {
      words.back() += word[0] == '.' ? ".." : "-";
      open = true;
    } else if (ends_range || goes_on) {
      words.back() += word;
      open = false;
    } else {
      words.push_back(word);
      open = false;
    }
    open = open || (ends_as_range(words.back()) && has_digit(words.back()));
    word.clear();
    blanks_only = true;
  };
  for (const char c : plain_signs(cell)) {
    const bool parts = c == ',' || c == ';' || c == '\n' || c == '/';
    if (!parts && c != ' ' && c != '\t') {
      word += c;
      continue;
    }
    close();
    blanks_only = blanks_only && !parts;
  }
  close();
  return words;
}

std::optional<ReferenceRange> range_in(const std::string& word) {
  const auto sides = sides_of(word);
  if (!sides) return {};
  const auto split = [](const std::string& name) {
    const std::size_t digits = name.find_last_not_of("0123456789") + 1;
    int number = -1;
    const auto read = std::from_chars(name.data() + digits, name.data() + name.size(), number);
    number = read.ec == std::errc::result_out_of_range ? std::numeric_limits<int>::max() : number;
    return std::pair(name.substr(0, digits), number);
  };
  const auto [head, first] = split(sides->first);
  const auto [tail, last] = split(sides->second);
  const bool range = first >= 0 && last > first && !head.empty() && (tail.empty() || tail == head);
  return range ? std::optional(ReferenceRange{head, first, std::int64_t{last} - first + 1})
               : std::nullopt;
}

bool is_no_range(const std::string& word) {
  const auto sides = sides_of(word);
  if (!sides || range_in(word)) return false;
  const auto& [from, to] = *sides;
  const std::string letters = letters_of(from);
  const bool capacitor = names_capacitor(letters) && has_digit(from);
  const bool alike = has_digit(from) && has_digit(to) && letters == letters_of(to);
  return capacitor ? to.empty() || has_digit(to) : alike && !letters.empty();
}

}  // namespace dryout::knowledge
