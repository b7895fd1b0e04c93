#include "app/conversation.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <iomanip>
#include <istream>
#include <numeric>
#include <ostream>
#include <sstream>

namespace dryout::app {
namespace {

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::optional<std::size_t> as_number(const std::string& text) {
  std::size_t number = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, number);
  return error == std::errc() && stop == end ? std::optional(number) : std::nullopt;
}

}  // namespace

bool holds_words(const std::string& text, const std::string& words) {
  const std::string hay = lower(text);
  std::istringstream stream(lower(words));
  for (std::string word; stream >> word;) {
    if (hay.find(word) == std::string::npos) {
      return false;
    }
  }
  return true;
}

std::optional<std::string> Conversation::ask(const std::string& question) const {
  terminal_.out << question << ' ' << std::flush;
  std::string line;
  if (!std::getline(terminal_.in, line)) {
    terminal_.out << '\n';
    return std::nullopt;
  }
  return trimmed(line);
}

void Conversation::show(const std::vector<std::string>& choices,
                        const std::vector<std::size_t>& shown) const {
  constexpr std::size_t shown_max = 20;
  for (std::size_t n = 0; n < std::min(shown_max, shown.size()); ++n) {
    terminal_.out << std::right << std::setw(4) << n + 1 << "  " << choices[shown[n]] << '\n';
  }
  if (shown.size() > shown_max) {
    terminal_.out << "      ... and " << shown.size() - shown_max
                  << " more: type words to narrow the list\n";
  }
}

std::optional<std::size_t> Conversation::pick(const std::string& question,
                                              const std::vector<std::string>& choices,
                                              const std::vector<std::string>& marks) const {
  std::vector<std::size_t> shown(choices.size());
  std::iota(shown.begin(), shown.end(), std::size_t{0});
  while (true) {
    show(choices, shown);
    const auto said = ask(question);
    if (!said || said->empty()) {
      return std::nullopt;
    }
    if (const auto number = as_number(*said); number && *number >= 1 && *number <= shown.size()) {
      return shown[*number - 1];
    }
    std::vector<std::size_t> narrowed;
    for (std::size_t i = 0; i < choices.size(); ++i) {
      if (holds_words(choices[i] + ' ' + marks[i], *said)) {
        narrowed.push_back(i);
      }
    }
    if (narrowed.empty()) {
      terminal_.out << "Nothing has all of these words. Try fewer, or an empty line to go on.\n";
    } else {
      shown = std::move(narrowed);
    }
  }
}

}  // namespace dryout::app
