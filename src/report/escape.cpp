#include "report/escape.h"

namespace dryout::report {
namespace {

constexpr char32_t replacement = 0xFFFD;

struct Decoded {
  char32_t character = replacement;
  std::size_t bytes = 1;
};

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

/// One character by The Unicode Standard, table 3-7 (well-formed byte sequences): overlong forms,
/// surrogates and what lies above U+10FFFF are refused.
Decoded decode(std::string_view text, std::size_t at) {
  const unsigned lead = byte_at(text, at);
  if (lead < 0x80) {
    return {lead, 1};
  }
  const std::size_t length = lead >= 0xF0 ? 4 : (lead >= 0xE0 ? 3 : 2);
  if (lead < 0xC2 || lead > 0xF4 || at + length > text.size()) {
    return {};
  }
  char32_t character = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned next = byte_at(text, at + i);
    if ((next & 0xC0U) != 0x80U) {
      return {};
    }
    character = (character << 6U) | (next & 0x3FU);
  }
  const bool overlong = (length == 3 && character < 0x800) || (length == 4 && character < 0x10000);
  const bool surrogate = character >= 0xD800 && character <= 0xDFFF;
  return overlong || surrogate || character > 0x10FFFF ? Decoded{} : Decoded{character, length};
}

void append(std::string& text, char32_t c) {
  const auto byte = [&text](char32_t value) { text += static_cast<char>(value); };
  if (c < 0x80) {
    byte(c);
  } else if (c < 0x800) {
    byte(0xC0 | (c >> 6U));
    byte(0x80 | (c & 0x3FU));
  } else if (c < 0x10000) {
    byte(0xE0 | (c >> 12U));
    byte(0x80 | ((c >> 6U) & 0x3FU));
    byte(0x80 | (c & 0x3FU));
  } else {
    byte(0xF0 | (c >> 18U));
    byte(0x80 | ((c >> 12U) & 0x3FU));
    byte(0x80 | ((c >> 6U) & 0x3FU));
    byte(0x80 | (c & 0x3FU));
  }
}

bool may_be_shown(char32_t c) {
  const bool control = (c < 0x20 && c != U'\n' && c != U'\t') || (c >= 0x7F && c < 0xA0);
  const bool noncharacter = (c & 0xFFFEU) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
  const bool turns_order = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
  const bool line_break = c == 0x2028 || c == 0x2029;
  return !control && !noncharacter && !turns_order && !line_break;
}

}  // namespace

std::u32string characters_of(std::string_view text) {
  std::u32string characters;
  for (std::size_t at = 0; at < text.size();) {
    const Decoded decoded = decode(text, at);
    characters += decoded.character;
    at += decoded.bytes;
  }
  return characters;
}

std::string text_of(std::u32string_view characters) {
  std::string text;
  for (const char32_t character : characters) {
    append(text, character);
  }
  return text;
}

std::string printable(std::string_view text) {
  std::u32string characters = characters_of(text);
  for (char32_t& character : characters) {
    character = may_be_shown(character) ? character : replacement;
  }
  return text_of(characters);
}

std::string on_one_line(std::string_view text) {
  std::string line = printable(text);
  for (char& character : line) {
    character = character == '\n' || character == '\t' ? ' ' : character;
  }
  return line;
}

std::string escape_html(std::string_view text) {
  std::string escaped;
  for (const char character : printable(text)) {
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
  const std::u32string characters = characters_of(text);
  if (characters.size() <= characters_max) {
    return text;
  }
  std::size_t end = characters_max;
  const std::size_t space = characters.rfind(U' ', end);
  if (space != std::u32string::npos && space > characters_max / 2) {
    end = space;
  }
  return text_of(std::u32string_view(characters).substr(0, end)) + "\u2026";
}

}  // namespace dryout::report
