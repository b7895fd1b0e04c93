#include "quantities/date_code.h"

#include <algorithm>

#include "quantities/digit.h"

namespace dryout::quantities {
namespace {

/// Year letters of IEC 60062, a cycle of twenty: A is 1970, 1990, 2010; I, O, Q, Y, Z and G left
/// out because they look like figures or each other.
constexpr std::string_view year_letters = "ABCDEFHJKLMNPRSTUVWX";
constexpr int cycle_start = 1970;
constexpr int cycle_years = 20;
constexpr int year_first = 1950;

std::optional<int> month_of(char c) {
  if (c >= '1' && c <= '9') {
    return c - '0';
  }
  constexpr std::string_view letters = "OND";
  const std::size_t at = letters.find(c);
  return at == letters.npos ? std::nullopt : std::optional<int>(10 + static_cast<int>(at));
}

std::vector<DateReading> letter_dates(std::string_view code, int year_now) {
  std::vector<DateReading> dates;
  const std::size_t at = year_letters.find(code[0]);
  const auto month = month_of(code[1]);
  if (at == year_letters.npos || !month) {
    return dates;
  }
  for (int year = cycle_start + static_cast<int>(at); year <= year_now; year += cycle_years) {
    dates.insert(dates.begin(), DateReading{year, month, std::nullopt});
  }
  return dates;
}

std::vector<DateReading> week_dates(std::string_view code, int year_now) {
  std::vector<DateReading> dates;
  constexpr int weeks = 53;
  const int week = std::stoi(std::string(code.substr(code.size() - 2)));
  const int digits = std::stoi(std::string(code.substr(0, code.size() - 2)));
  if (week < 1 || week > weeks) {
    return dates;
  }
  const int step = code.size() == 4 ? 100 : 10;
  for (int year = year_now - (year_now - digits) % step; year >= year_first; year -= step) {
    dates.push_back({year, std::nullopt, week});
  }
  return dates;
}

}  // namespace

Result<std::vector<DateReading>> read_date_code(std::string_view code, int year_now) {
  std::vector<DateReading> dates;
  if (code.size() == 2) {
    dates = letter_dates(code, year_now);
  } else if ((code.size() == 3 || code.size() == 4) &&
             std::all_of(code.begin(), code.end(), is_digit)) {
    dates = week_dates(code, year_now);
  }
  if (dates.empty()) {
    return Problem{"not a date code",
                   {},
                   '"' + excerpt(code) + '"',
                   "a year letter and month (H5, KN), or year and week (8512, 512)"};
  }
  return dates;
}

}  // namespace dryout::quantities
