// The letters and words of a print that are no value: ratings, temperature characteristics,
// classes.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// Whether a bare figure is one that capacitors are rated for (16, 63, 450, ...).
[[nodiscard]] bool is_usual_rating(double volts);

struct PrintedRating {
  Volt rated;
  bool alternating = false;
};
/// "450V", "6V3", "1KV", "400VDC", "600WVDC", "250~", "275VAC", "450/525V" (working and surge).
[[nodiscard]] std::optional<PrintedRating> rating_in(std::string_view word);

/// "50Hz", "60Hz": volts beside it are a.c. ("100Hz" is the frequency of a ripple current).
[[nodiscard]] bool is_mains_frequency(std::string_view word);

/// "+-10%", "10%", "-10+50%", "+80-20%": relative.
[[nodiscard]] std::optional<Tolerance> percent_in(std::string_view word);

/// What a temperature characteristic says ("X7R", "Z5U", "NP0", "N750", "U2J"); "" for another
/// word.
[[nodiscard]] std::string temperature_words(std::string_view word);

/// What other words say beside the value ("X2", "BP", "MKT", "85C", "+85C"); "" for a word unknown.
[[nodiscard]] std::string class_words(std::string_view word);

/// Whether these words name a safety class with its number: "class X2: across the mains".
[[nodiscard]] bool names_numbered_class(const std::string& words);

/// What stands before a code without a gap: "2V103" -> "2V" and
/// "103", "F104Z" -> "F" (the temperature characteristic of a ceramic, JIS C 6422, from memory) and
/// "104Z".
struct PrefixedValue {
  std::string prefix;
  std::string value;
  bool characteristic = false;  ///< the prefix is none of volts
};
[[nodiscard]] std::optional<PrefixedValue> prefixed_value_in(const std::string& word);

}  // namespace dryout::quantities
