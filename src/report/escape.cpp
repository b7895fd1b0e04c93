#include "report/escape.h"

#include "quantities/shown_text.h"

namespace dryout::report {

std::string escape_html(std::string_view text) {
  std::string escaped;
  for (const char character : quantities::shown_text(text)) {
    switch (character) {
      case '&':
        escaped += "&amp;";
        break;
      case '<':
        escaped += "&lt;";
        break;
      case '>':
        escaped += "&gt;";
        break;
      case '"':
        escaped += "&quot;";
        break;
      case '\'':
        escaped += "&#39;";
        break;
      default:
        escaped += character;
    }
  }
  return escaped;
}

std::string cut_to(const std::string& text, std::size_t characters_max) {
  const std::u32string characters = quantities::characters_of(text);
  if (characters.size() <= characters_max) {
    return text;
  }
  std::size_t end = characters_max;
  const std::size_t space = characters.rfind(U' ', end);
  if (space != std::u32string::npos && space > characters_max / 2) {
    end = space;
  }
  return quantities::text_of(std::u32string_view(characters).substr(0, end)) + "\u2026";
}

}  // namespace dryout::report
