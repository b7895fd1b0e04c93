#include "casework/words.h"

#include <algorithm>
#include <array>

namespace dryout::casework {
namespace {

constexpr std::array<std::string_view, 3> seen_words{"yes", "no", "unclear"};
constexpr std::array<std::string_view, 3> verdict_words{"at-fault", "cleared", "open"};

constexpr std::array<std::string_view, 3> proved_words{"passed", "failed", "skipped"};

constexpr std::array<std::string_view, std::variant_size_v<Command>> verbs{
    "take-in", "symptom",    "outcome", "measure", "name-part", "heed",
    "decline", "reconsider", "open",    "shut",    "judge",     "repair",
    "retest",  "proof",      "note",    "finish",  "reopen"};

template <class Choice, std::size_t N>
std::string_view at(const std::array<std::string_view, N>& words, Choice choice) {
  return words.at(static_cast<std::size_t>(choice));
}

template <class Choice, std::size_t N>
std::optional<Choice> find(const std::array<std::string_view, N>& words, std::string_view word) {
  const auto* found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) {
    return std::nullopt;
  }
  return static_cast<Choice>(found - words.begin());
}

}  // namespace

std::string_view word_of(Seen seen) { return at(seen_words, seen); }
std::string_view word_of(JudgeSuspect::Verdict verdict) { return at(verdict_words, verdict); }

std::string_view word_of(Proved outcome) { return at(proved_words, outcome); }

std::string_view word_of(const Command& command) { return verbs.at(command.index()); }
const std::array<PlainerVerb, 3>& plainer_verbs() {
  static constexpr std::array<PlainerVerb, 3> plainer{
      {{"acknowledge", "heed"}, {"close-access", "shut"}, {"close", "finish"}}};
  return plainer;
}

std::string_view written_verb(std::string_view verb) {
  for (const PlainerVerb& each : plainer_verbs()) {
    if (verb == each.plain) return each.written;
  }
  return verb;
}

std::vector<std::string_view> command_words() { return {verbs.begin(), verbs.end()}; }

template <>
std::optional<Seen> choice_of(std::string_view word) {
  return find<Seen>(seen_words, word);
}
template <>
std::optional<ReadingKind> choice_of(std::string_view word) {
  return readings::kind_of(word);
}
template <>
std::optional<Across> choice_of(std::string_view word) {
  return readings::across_of(word);
}
template <>
std::optional<JudgeSuspect::Verdict> choice_of(std::string_view word) {
  return find<JudgeSuspect::Verdict>(verdict_words, word);
}
template <>
std::optional<Proved> choice_of(std::string_view word) {
  return find<Proved>(proved_words, word);
}

template <>
std::vector<std::string_view> all_words<Seen>() {
  return {seen_words.begin(), seen_words.end()};
}
template <>
std::vector<std::string_view> all_words<ReadingKind>() {
  return readings::kind_words();
}
template <>
std::vector<std::string_view> all_words<Across>() {
  return readings::across_words();
}
template <>
std::vector<std::string_view> all_words<JudgeSuspect::Verdict>() {
  return {verdict_words.begin(), verdict_words.end()};
}
template <>
std::vector<std::string_view> all_words<Proved>() {
  return {proved_words.begin(), proved_words.end()};
}

std::vector<std::string_view> limit_source_words() {
  return {"datasheet", "fresh-part", "look-alike", "tan-delta", "general-table"};
}

}  // namespace dryout::casework
