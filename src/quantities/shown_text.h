// Free text before it is shown to anybody: on a terminal, in a list, in the window, on paper. Names
// and notes come from people, other benches' files and damaged stores; shown as they are, an escape
// sequence could paint over what stands above it, a mark of direction turn the order of what stands
// beside it, a new line forge a row of a list, and an invisible sign make two names look alike.
// What is stored, and what JSON says, stays as it was typed.
#pragma once

#include <string>
#include <string_view>

namespace dryout::quantities {

/// Well-formed UTF-8 in which every sign is seen. Written as the escape that JSON has for it
/// (RFC 8259, section 7: \u001b; above U+FFFF as its two halves): control characters but line feed
/// and tab, marks that embed, override, isolate or hint the direction of writing (Unicode Standard
/// Annex 9), signs without width, line and paragraph separators, noncharacters. A byte that is no
/// UTF-8 becomes U+FFFD. Text in a right-to-left script stays.
[[nodiscard]] std::string shown_text(std::string_view text);

/// The same for what belongs on one line, as names do: line feed and tab are written \n and \t.
[[nodiscard]] std::string shown_line(std::string_view text);

/// The characters of UTF-8 text; U+FFFD for every byte that is none.
[[nodiscard]] std::u32string characters_of(std::string_view text);
[[nodiscard]] std::string text_of(std::u32string_view characters);

/// How many bytes at the end begin a character whose other bytes are not there yet: 0 to 3. For
/// text that comes piece by piece.
[[nodiscard]] std::size_t begun_character(std::string_view text);

}  // namespace dryout::quantities
