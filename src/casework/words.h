// The words for the choices inside a command. Case files, the command line and the window all use
// these, so that one thing has one name.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "casework/command.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {

[[nodiscard]] std::string_view word_of(Seen seen);  ///< yes, no, unclear
using readings::unit_of;  ///< the unit in which a reading of a kind is typed and shown
using readings::word_of;  ///< of a kind of reading (esr, ...) and of what is across (nothing, ...)
[[nodiscard]] std::string_view word_of(JudgeSuspect::Verdict verdict);  ///< at-fault, cleared, open
[[nodiscard]] std::string_view word_of(Proved outcome);                 ///< passed, failed, skipped

/// The verb of a command: take-in, symptom, outcome, measure, name-part, heed, decline, reconsider,
/// open, shut, judge, repair, retest, proof, note, finish, reopen.
[[nodiscard]] std::string_view word_of(const Command& command);
/// All of them, in the order of the variant.
[[nodiscard]] std::vector<std::string_view> command_words();

/// Three verbs have a plainer word at the keyboard: acknowledge, close-access, close. Journals and
/// case files go on being written with the old ones (heed, shut, finish), so that released versions
/// read them and a chained step keeps its text; both are read everywhere.
struct PlainerVerb {
  const char* plain;    ///< what is typed and printed
  const char* written;  ///< what stands in journals
};
[[nodiscard]] const std::array<PlainerVerb, 3>& plainer_verbs();
/// The verb as journals have it, of either.
[[nodiscard]] std::string_view written_verb(std::string_view verb);

/// The choice of that word; nothing where there is none.
template <class Choice>
[[nodiscard]] std::optional<Choice> choice_of(std::string_view word);
template <>
std::optional<Seen> choice_of(std::string_view word);
template <>
std::optional<ReadingKind> choice_of(std::string_view word);
template <>
std::optional<Across> choice_of(std::string_view word);
template <>
std::optional<JudgeSuspect::Verdict> choice_of(std::string_view word);
template <>
std::optional<Proved> choice_of(std::string_view word);

/// All words of a choice, in order, for menus and complaints.
template <class Choice>
[[nodiscard]] std::vector<std::string_view> all_words();
template <>
std::vector<std::string_view> all_words<Seen>();
template <>
std::vector<std::string_view> all_words<ReadingKind>();
template <>
std::vector<std::string_view> all_words<Across>();
template <>
std::vector<std::string_view> all_words<JudgeSuspect::Verdict>();
template <>
std::vector<std::string_view> all_words<Proved>();

/// Where a limit may come from, most trusted first: datasheet, look-alike, fresh-part, tan-delta,
/// general-table.
[[nodiscard]] std::vector<std::string_view> limit_source_words();

}  // namespace dryout::casework
