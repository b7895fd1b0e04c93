#include "quantities/problem.h"

namespace dryout::quantities {

std::string describe(const Problem& problem) {
  std::string text = problem.place.file;
  if (problem.place.line > 0) {
    text += ':' + std::to_string(problem.place.line);
  }
  if (!problem.place.pointer.empty()) {
    text += (text.empty() ? "(" : " (") + problem.place.pointer + ')';
  }
  if (!text.empty()) {
    text += ": ";
  }
  text += problem.message;
  if (!problem.found.empty()) {
    text += "; found " + problem.found;
  }
  if (!problem.accepted.empty()) {
    text += "; accepted: " + problem.accepted;
  }
  return text;
}

std::string describe(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    text += describe(problem) + '\n';
  }
  return text;
}

std::string excerpt(std::string_view text, std::size_t length_max) {
  std::string shown;
  for (const char c : text.substr(0, length_max)) {
    const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
    shown += control ? '?' : c;
  }
  if (text.size() > length_max) {
    // Never cut a UTF-8 sequence in half: drop its continuation bytes, then its lead byte.
    while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xC0U) == 0x80U) {
      shown.pop_back();
    }
    if (!shown.empty() && static_cast<unsigned char>(shown.back()) >= 0xC0U) {
      shown.pop_back();
    }
    shown += "...";
  }
  return shown;
}

}  // namespace dryout::quantities
