#include "complaints/spans_of_time.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <string_view>

namespace dryout::complaints {
namespace {

using Words = std::vector<std::string>;

std::optional<int> count_of(const std::string& word) {
  static const std::map<std::string, int, std::less<>> spelt{
      {"a", 1},        {"an", 1},      {"one", 1},     {"two", 2},    {"three", 3}, {"four", 4},
      {"five", 5},     {"six", 6},     {"seven", 7},   {"eight", 8},  {"nine", 9},  {"ten", 10},
      {"fifteen", 15}, {"twenty", 20}, {"thirty", 30}, {"forty", 40}, {"sixty", 60}};
  if (const auto known = spelt.find(word); known != spelt.end()) {
    return known->second;
  }
  int count = 0;
  const char* end = word.data() + word.size();
  const auto [stop, error] = std::from_chars(word.data(), end, count);
  return error == std::errc() && stop == end && count > 0 ? std::optional(count) : std::nullopt;
}

template <std::size_t count>
bool one_of(const std::string& word, const std::array<std::string_view, count>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

constexpr std::array<std::string_view, 4> minute_words{"minute", "minutes", "min", "mins"};
constexpr std::array<std::string_view, 4> hour_words{"hour", "hours", "hr", "hrs"};
constexpr std::array<std::string_view, 5> metre_words{"m", "metre", "metres", "meter", "meters"};
constexpr int minutes_most = 24 * 60;
constexpr int minutes_an_hour = 60;

}  // namespace

std::optional<int> span_in_minutes(const Words& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool hours = one_of(words[i], hour_words);
    if ((!hours && !one_of(words[i], minute_words)) || i == 0) {
      continue;
    }
    if (hours && i >= 2 && words[i - 2] == "half" && words[i - 1] == "an") {
      return minutes_an_hour / 2;
    }
    if (hours && words[i - 1] == "half") {
      return minutes_an_hour / 2;
    }
    const auto count = count_of(words[i - 1]);
    if (count && *count <= minutes_most / (hours ? minutes_an_hour : 1)) {
      return *count * (hours ? minutes_an_hour : 1);
    }
  }
  return std::nullopt;
}

std::optional<std::string> band_in_metres(const Words& words) {
  // Amateur bands by wavelength, ITU Radio Regulations, article 5 (as they are called; from
  // memory).
  constexpr std::array<std::string_view, 13> bands{"160", "80", "60", "40", "30", "20", "17",
                                                   "15",  "12", "10", "6",  "4",  "2"};
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (one_of(words[i], metre_words) && one_of(words[i - 1], bands)) {
      return words[i - 1] + "m";
    }
  }
  return std::nullopt;
}

}  // namespace dryout::complaints
