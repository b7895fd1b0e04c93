#include "quantities/value_list.h"

#include <algorithm>
#include <string>

#include "quantities/digit.h"

namespace dryout::quantities {
namespace {

std::vector<std::string> parted(std::string_view text, std::string_view separators) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (separators.find(c) != std::string_view::npos) {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  std::erase(words, std::string());
  return words;
}

bool is_whole_figure(const std::string& word) {
  return std::all_of(word.begin(), word.end(), is_digit);
}

/// Whether the comma between these two could be a decimal comma: "2" and "4", "2" and "4k".
bool could_be_one(const std::string& before, const std::string& after) {
  return is_whole_figure(before) && is_digit(after.front()) && after.find('.') == std::string::npos;
}

/// "0,047": no value is written "047", so the comma is decimal.
bool is_one_below_tenth(const std::vector<std::string>& words) {
  return words.size() == 2 && words[0] == "0" && words[1].size() > 1 && words[1].front() == '0' &&
         is_digit(words[1][1]);
}

Problem ambiguous(std::string_view text) {
  std::string semicolons(text);
  std::replace(semicolons.begin(), semicolons.end(), ',', ';');
  return {"commas that may part values or be decimal commas",
          {},
          '"' + excerpt(text) + '"',
          "semicolons between the values: \"" + excerpt(semicolons) + "\", or \"2,2;2,5\""};
}

}  // namespace

Result<std::vector<double>> parse_list(std::string_view text, Unit unit) {
  const bool semicolons = text.find_first_of("; \t") != std::string_view::npos;
  std::vector<std::string> words = parted(text, semicolons ? "; \t" : ",");
  if (!semicolons && is_one_below_tenth(words)) words = {std::string(text)};
  for (std::size_t i = 0; !semicolons && i + 1 < words.size(); ++i) {
    if (could_be_one(words[i], words[i + 1])) {
      return ambiguous(text);
    }
  }
  std::vector<double> values;
  for (std::string word : words) {
    const bool parting_comma = semicolons && word.size() > 1 && word.back() == ',';
    if (parting_comma) word.pop_back();  // "2.2, 2.5"
    const Result<double> value = parse_engineering(word, unit);
    if (!value) {
      return value.problems();
    }
    values.push_back(*value);
  }
  return values;
}

}  // namespace dryout::quantities
