#include "complaints/typing_slips.h"

#include <algorithm>
#include <array>

namespace dryout::complaints {
namespace {

constexpr std::size_t shortest_mended = 4;
constexpr std::size_t long_word = 10;
constexpr std::size_t longest_mended = 30;

}  // namespace

std::size_t slips_between(std::string_view a, std::string_view b, std::size_t most) {
  const std::size_t apart = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (apart > most || a.size() > longest_mended || b.size() > longest_mended) {
    return most + 1;
  }
  using Row = std::array<std::size_t, longest_mended + 1>;
  Row before_last{};
  Row last{};
  Row now{};
  for (std::size_t j = 0; j <= b.size(); ++j) {
    last[j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    std::size_t least = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t wrong = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + wrong});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        now[j] = std::min(now[j], before_last[j - 2] + 1);
      }
      least = std::min(least, now[j]);
    }
    if (least > most) {
      return most + 1;
    }
    before_last = last;
    last = now;
  }
  return last[b.size()];
}

void KnownWords::add(const std::string& word) {
  if (!word.empty() && order_.emplace(word, order_.size()).second) {
    by_first_letter_[word.front()].push_back(word);
  }
}

bool KnownWords::knows(std::string_view word) const { return order_.find(word) != order_.end(); }

std::optional<std::string> KnownWords::meant_by(std::string_view word) const {
  if (word.size() < shortest_mended) {
    return std::nullopt;
  }
  const auto alike = by_first_letter_.find(word.front());
  if (alike == by_first_letter_.end()) {
    return std::nullopt;
  }
  std::size_t best = word.size() >= long_word ? 2 : 1;
  std::optional<std::string> meant;
  for (const std::string& each : alike->second) {
    if (each.size() < shortest_mended - 1) {
      continue;
    }
    const std::size_t slips = slips_between(word, each, best);
    if (slips < best || (slips == best && !meant)) {
      best = slips;
      meant = each;
    }
  }
  if (!meant) {
    const auto whole =
        std::find_if(alike->second.begin(), alike->second.end(),
                     [word](const std::string& each) { return each.starts_with(word); });
    if (whole != alike->second.end()) {
      meant = *whole;
    }
  }
  return meant;
}

}  // namespace dryout::complaints
