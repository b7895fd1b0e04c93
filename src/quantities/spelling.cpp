#include "quantities/spelling.h"

#include <algorithm>
#include <numeric>

namespace dryout::quantities {
namespace {

/// Levenshtein distance, one row at a time.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, replace});
    }
  }
  return row[b.size()];
}

}  // namespace

std::optional<std::string> nearest_spelling(std::string_view word,
                                            const std::vector<std::string_view>& candidates) {
  constexpr std::size_t word_length_max = 64;  // bounds the work on hostile input
  if (word.size() > word_length_max) {
    return std::nullopt;
  }
  const std::size_t slips_max = std::max<std::size_t>(1, word.size() / 3);
  std::size_t best = slips_max + 1;
  std::optional<std::string> nearest;
  for (const std::string_view candidate : candidates) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best) {
      best = distance;
      nearest = std::string(candidate);
    }
  }
  return nearest;
}

}  // namespace dryout::quantities
