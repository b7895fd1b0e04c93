// Text that somebody typed, made safe to set on paper or into a page. Nothing typed is ever read as
// markup, and nothing typed may be invisible or turn the reading order of what stands beside it.
#pragma once

#include <string>
#include <string_view>

namespace dryout::report {

/// Well-formed UTF-8 that can be printed. What cannot be shown becomes U+FFFD (the replacement
/// character), so that one sees that something stood there: bytes that are no UTF-8, control
/// characters other than line feed and tab, noncharacters, and the marks that embed or override the
/// direction of writing (U+202A to U+202E, U+2066 to U+2069). Text in a right-to-left script stays.
[[nodiscard]] std::string printable(std::string_view text);

/// printable(), on one line.
[[nodiscard]] std::string on_one_line(std::string_view text);

/// printable(), with the five characters that mean something in HTML and XML written as entities.
[[nodiscard]] std::string escape_html(std::string_view text);

/// The characters of UTF-8 text; U+FFFD for every byte that is none.
[[nodiscard]] std::u32string characters_of(std::string_view text);
[[nodiscard]] std::string text_of(std::u32string_view characters);

/// At most `characters_max` characters, cut at a word's end where there is one, with an ellipsis.
[[nodiscard]] std::string cut_to(const std::string& text, std::size_t characters_max);

}  // namespace dryout::report
