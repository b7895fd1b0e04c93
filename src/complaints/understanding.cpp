#include "complaints/understanding.h"

#include <algorithm>

#include "complaints/said_parts.h"
#include "complaints/spans_of_time.h"

namespace dryout::complaints {
namespace {

constexpr std::size_t fillers_inside_most = 3;  ///< "does not even want to turn on"

/// A figure means nothing without its unit.
bool is_number(const std::string& word) {
  return std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

Understanding::Understanding(const Vocabulary& vocabulary) : vocabulary_(vocabulary) {
  for (const WordGroup& group : vocabulary_.words) {
    for (const std::string& said : group.said) {
      const std::vector<SpokenWord> words = spoken_words(said);
      if (group.kind == WordKind::negation && words.size() == 1) {
        denials_.emplace(stemmer_.stem(words.front().text), group.id);
      }
    }
  }
  for (const WordGroup& group : vocabulary_.words) {
    for (const std::string& said : group.said) {
      Phrase phrase{{}, &group};
      for (const SpokenWord& word : spoken_words(said)) {
        phrase.stems.push_back(stem_of(word.text));
        known_.add(word.text);
      }
      if (phrase.stems.empty()) {
        continue;
      }
      if (group.kind == WordKind::filler && phrase.stems.size() == 1) {
        fillers_.insert(phrase.stems.front());
      }
      phrases_[phrase.stems.front()].push_back(std::move(phrase));
    }
  }
  for (auto& [first, list] : phrases_) {
    std::stable_sort(list.begin(), list.end(), [](const Phrase& a, const Phrase& b) {
      return a.stems.size() > b.stems.size();
    });
  }
}

void Understanding::learn_words(std::string_view text) {
  for (const SpokenWord& word : spoken_words(text)) {
    known_.add(word.text);
  }
}

/// One denial is as good as another: "won't turn on" is "not turn on".
std::string Understanding::stem_of(const std::string& word) const {
  std::string stem = stemmer_.stem(word);
  const auto denial = denials_.find(stem);
  return denial == denials_.end() ? stem : denial->second;
}

bool Understanding::is_filler(const std::string& stem) const { return fillers_.contains(stem); }

std::vector<Understanding::Word> Understanding::words_of(std::string_view text) const {
  std::vector<Word> words;
  for (SpokenWord& word : spoken_words(text)) {
    std::string stem = stem_of(word.text);
    if (!known_.knows(word.text) && !phrases_.contains(stem)) {
      if (const auto meant = known_.meant_by(word.text)) {
        stem = stem_of(*meant);
      }
    }
    words.push_back({std::move(word.text), std::move(stem), word.clause});
  }
  return words;
}

std::vector<std::string> Understanding::stems_of(std::string_view text) const {
  std::vector<std::string> stems;
  for (Word& word : words_of(text)) {
    stems.push_back(std::move(word.stem));
  }
  return stems;
}

/// How many words the phrase takes from `at` on, fillers inside it among them; 0 = no match.
std::size_t Understanding::length_of_match(const Phrase& phrase, const std::vector<Word>& words,
                                           std::size_t at) const {
  std::size_t place = at;
  std::size_t skipped = 0;
  for (std::size_t i = 0; i < phrase.stems.size(); ++i) {
    while (i > 0 && place < words.size() && words[place].stem != phrase.stems[i] &&
           skipped < fillers_inside_most && is_filler(words[place].stem)) {
      ++place;
      ++skipped;
    }
    if (place >= words.size() || words[place].stem != phrase.stems[i] ||
        words[place].clause != words[at].clause) {
      return 0;
    }
    ++place;
  }
  return place - at;
}

std::vector<SaidPart> Understanding::parts_of(const std::vector<Word>& words) const {
  std::vector<SaidPart> parts;
  for (std::size_t at = 0; at < words.size();) {
    const auto candidates = phrases_.find(words[at].stem);
    std::size_t length = 0;
    const WordGroup* group = nullptr;
    if (candidates != phrases_.end()) {
      for (const Phrase& phrase : candidates->second) {
        length = length_of_match(phrase, words, at);
        if (length > 0) {
          group = phrase.group;
          break;
        }
      }
    }
    if (group == nullptr && is_number(words[at].text)) {
      ++at;
      continue;
    }
    if (group == nullptr) {
      parts.push_back({nullptr, words[at].stem, words[at].clause});
      ++at;
      continue;
    }
    if (group->kind != WordKind::filler) {
      parts.push_back({group, group->id, words[at].clause});
    }
    at += length;
  }
  return parts;
}

Understood Understanding::of(std::string_view text) const {
  const std::vector<Word> words = words_of(text);
  std::vector<SaidPart> parts = parts_of(words);
  Understood understood;
  settle_denials(parts, understood.excluded);
  settle_what_is_gone(parts);
  settle_what_is_fine(parts);
  for (const SaidPart& part : parts) {
    add_part(part, understood);
  }
  settle_places(parts, understood.where);
  std::vector<std::string> texts;
  texts.reserve(words.size());
  for (const Word& word : words) {
    texts.push_back(word.text);
  }
  if (const auto minutes = span_in_minutes(texts)) {
    understood.where["when"] = "minutes=" + std::to_string(*minutes);
  }
  if (const auto band = band_in_metres(texts)) {
    understood.where["band"] = *band;
  }
  return understood;
}

}  // namespace dryout::complaints
