#include "report/picture.h"

#include "quantities/shown_text.h"

namespace dryout::report {
namespace {

/// Width of a character in ems, on the wide side of the faces in use (judged on Inter and DejaVu).
double ems(char32_t character) {
  if (character < 0x20 || character >= 0x1100) {
    return 1.05;
  }
  if (character == U'M' || character == U'W' || character == U'm' || character == U'w' ||
      character == U'@' || character == U'%') {
    return 1.0;
  }
  const bool small = (character >= U'a' && character <= U'z') || character < U'0';
  return small ? 0.6 : 0.72;
}

}  // namespace

Rgb ink_of(Ink ink) {
  switch (ink) {
    case Ink::text:
      return {0x1D, 0x1B, 0x18};
    case Ink::quiet:
      return {0x5A, 0x56, 0x4E};
    case Ink::hairline:
      return {0xBD, 0xB4, 0xA1};
    case Ink::wash:
      return {0xF3, 0xEE, 0xE3};
    case Ink::beyond:
      return {0xF3, 0xD9, 0xC4};
    case Ink::paper:
      return {0xFF, 0xFF, 0xFF};
    case Ink::before:
      return {0x7F, 0x2A, 0x00};
    case Ink::after:
      return {0x0A, 0x44, 0x79};
  }
  return {};
}

std::string fitted(const std::string& text, double size, double width_max) {
  const std::u32string characters = quantities::characters_of(text);
  double width = 0.0;
  std::size_t keep = 0;  // as many as leave room for the ellipsis
  for (std::size_t i = 0; i < characters.size(); ++i) {
    width += size * ems(characters[i]);
    if (width + size <= width_max) {
      keep = i + 1;
    }
    if (width > width_max) {
      return quantities::text_of(characters.substr(0, keep)) + "\u2026";
    }
  }
  return text;
}

}  // namespace dryout::report
