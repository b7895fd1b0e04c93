// The references of a parts list as people write them: apart by commas or blanks, and as ranges
// from one to another ("C3-C6", "C3 - C6" with any dash, "C3..6", "C3 to C6").
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dryout::knowledge {

/// "C12" -> "C"; "1C7" (a board's number in front) -> "C".
[[nodiscard]] std::string letters_of(const std::string& reference);

/// C by IEEE 315 and IEC 81346-2 (from memory); makers also print EC, CE, CP, TC, VC, and CX and CY
/// of parts across and from the mains.
[[nodiscard]] bool names_capacitor(const std::string& letters);
/// X, Y: a crystal, or a part across or from the mains; the letters alone do not say.
[[nodiscard]] bool may_name_line_capacitor(const std::string& letters);

/// The words of a cell. What stands between two references and means "to" (a dash of any kind, two
/// dots, an ellipsis, the word, with blanks or without) makes one word of both: "C3-C6".
[[nodiscard]] std::vector<std::string> reference_words(std::string_view cell);

/// `count` references from head + first on: "C3-C6" is C, 3 and 4.
struct ReferenceRange {
  std::string head;
  int first = 0;
  std::int64_t count = 0;
};
/// Nothing where the word is no range, or none that can be counted.
[[nodiscard]] std::optional<ReferenceRange> range_in(const std::string& word);

/// Whether a word that is no range was meant as one: it counts down, changes its letters or has
/// letters behind its numbers ("C50-C41", "C60-R65", "C70a-C70c"), or has no end ("C10-"). A name
/// with a dash in it ("A1-C12", "-C12") is not.
[[nodiscard]] bool is_no_range(const std::string& word);

}  // namespace dryout::knowledge
