#include "quantities/shown_text.h"

#include <algorithm>

namespace dryout::quantities {
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

/// Signs that take no room or steer how others stand (Unicode Character Database, categories Cc, Cf
/// and Zl, Zp, and the blank letters; from memory).
bool is_unseen(char32_t c) {
  const auto within = [c](char32_t first, char32_t last) { return c >= first && c <= last; };
  const bool control = c < 0x20 || within(0x7F, 0x9F);
  const bool direction =
      c == 0x061C || within(0x200E, 0x200F) || within(0x202A, 0x202E) || within(0x2066, 0x2069);
  const bool no_width = c == 0x00AD || c == 0x034F || c == 0x180E || within(0x200B, 0x200D) ||
                        within(0x2060, 0x2065) || within(0x206A, 0x206F) || c == 0xFEFF ||
                        within(0xFFF9, 0xFFFB) || within(0xE0000, 0xE007F);
  const bool blank_letter =
      within(0x115F, 0x1160) || within(0x17B4, 0x17B5) || c == 0x3164 || c == 0xFFA0;
  const bool separator = within(0x2028, 0x2029);
  const bool noncharacter = (c & 0xFFFEU) == 0xFFFE || within(0xFDD0, 0xFDEF);
  return control || direction || no_width || blank_letter || separator || noncharacter;
}

void append_half(std::string& text, char32_t half) {
  constexpr std::string_view digits = "0123456789abcdef";
  text += "\\u";
  for (const unsigned shift : {12U, 8U, 4U, 0U}) {
    text += digits[(half >> shift) & 0xFU];
  }
}

/// As JSON writes it: beyond the first plane in the two halves of UTF-16.
void append_escape(std::string& text, char32_t c) {
  if (c == U'\n' || c == U'\t') {
    text += c == U'\n' ? "\\n" : "\\t";
  } else if (c < 0x10000) {
    append_half(text, c);
  } else {
    append_half(text, 0xD800 + ((c - 0x10000) >> 10U));
    append_half(text, 0xDC00 + ((c - 0x10000) & 0x3FFU));
  }
}

/// Most text needs nothing done, and a window asks for each of its words in every frame.
bool is_plain(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c < '\x7f'; });
}

std::string shown(std::string_view text, bool lines) {
  if (is_plain(text)) {
    return std::string(text);
  }
  std::string shown;
  for (std::size_t at = 0; at < text.size();) {
    const Decoded decoded = decode(text, at);
    at += decoded.bytes;
    const bool stays = lines && (decoded.character == U'\n' || decoded.character == U'\t');
    if (!stays && is_unseen(decoded.character)) {
      append_escape(shown, decoded.character);
    } else {
      append(shown, decoded.character);
    }
  }
  return shown;
}

}  // namespace

std::string shown_text(std::string_view text) { return shown(text, true); }
std::string shown_line(std::string_view text) { return shown(text, false); }

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

std::size_t begun_character(std::string_view text) {
  for (std::size_t back = 1; back <= std::min<std::size_t>(3, text.size()); ++back) {
    const unsigned byte = byte_at(text, text.size() - back);
    if (byte >= 0xC0) {
      const std::size_t length = byte >= 0xF0 ? 4 : (byte >= 0xE0 ? 3 : 2);
      return length > back ? back : 0;
    }
    if (byte < 0x80) {
      return 0;
    }
  }
  return 0;
}

}  // namespace dryout::quantities
