#include "knowledge/spoken_name.h"

#include <algorithm>

namespace dryout::knowledge {
namespace {

/// "driver-left" -> {"driver", "left"}.
std::vector<std::string> words_of(const std::string& hyphens) {
  std::vector<std::string> words(1);
  for (const char c : hyphens) {
    if (c == '-') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

/// Does some word begin with this one? "regulators" answers to "regulator".
bool begins_one(const std::vector<std::string>& words, const std::string& wanted) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return word.compare(0, wanted.size(), wanted) == 0;
  });
}

}  // namespace

std::string hyphenated(std::string_view text) {
  std::string id;
  for (const char c : text) {
    const bool upper = c >= 'A' && c <= 'Z';
    const char lower = upper ? static_cast<char>(c - 'A' + 'a') : c;
    const bool plain = (lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9');
    if (plain) {
      id += lower;
    } else if (!id.empty() && id.back() != '-') {
      id += '-';
    }
  }
  if (!id.empty() && id.back() == '-') {
    id.pop_back();
  }
  return id;
}

std::vector<std::size_t> meant_by(std::string_view text, const std::vector<Named>& names) {
  const std::string spoken = hyphenated(text);
  std::vector<std::size_t> meant;
  if (spoken.empty()) {
    return meant;
  }
  const std::vector<std::string> wanted = words_of(spoken);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string title = hyphenated(names[i].title);
    if (names[i].id == spoken || title == spoken) {
      return {i};
    }
    const std::vector<std::string> known = words_of(std::string(names[i].id) + '-' + title);
    if (std::all_of(wanted.begin(), wanted.end(),
                    [&](const std::string& word) { return begins_one(known, word); })) {
      meant.push_back(i);
    }
  }
  return meant;
}

}  // namespace dryout::knowledge
