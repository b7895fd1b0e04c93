// How the desk words plain values. Rounding for display is all the arithmetic there is.
#pragma once

#include <optional>
#include <string>

#include "casework/case_view.h"
#include "casework/command.h"
#include "quantities/engineering_notation.h"

namespace dryout::window {

/// "37 %", "< 1 %", "> 99 %": certainty is never shown where there is none.
[[nodiscard]] std::string percent(quantities::Probability p);
/// "+7.2 dB" with the sign; the unit of evidence is the deciban.
[[nodiscard]] std::string decibans(quantities::Decibans weight);
/// What has to be done to the set before a check in this state.
[[nodiscard]] std::string set_state(const std::string& state);
/// The verdict of a reading in words.
[[nodiscard]] std::string verdict_words(const std::string& verdict);
[[nodiscard]] std::string provenance_words(const std::string& limit_source);
[[nodiscard]] std::string danger_words(const std::string& danger);
/// A heading from a plain word ("audio" to "Audio").
[[nodiscard]] std::string capitalised(std::string word);
/// "lid, shield" from a list.
[[nodiscard]] std::string joined(const std::vector<std::string>& words, const char* between = ", ");

struct KindWords {
  casework::ReadingKind kind;
  const char* id;  ///< as the knowledge spells a check's quantity
  const char* title;
  quantities::Unit unit;
  const char* example;
};
/// The kind of reading that a check's quantity asks for; none where no number can be typed.
[[nodiscard]] const KindWords* kind_words(const std::string& quantity);
[[nodiscard]] const KindWords& kind_words(casework::ReadingKind kind);

struct AcrossWords {
  casework::Across across;
  const char* title;
};
[[nodiscard]] const std::vector<AcrossWords>& across_words();

}  // namespace dryout::window
