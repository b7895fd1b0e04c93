// The words of complaints as data: which words mean one thing, what a place or a condition is
// called, and what owners complain of that is not this program's field. Files of rules/complaints/.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::complaints {

/// Place and condition by the names of the command line: {"channel": "left"}, {"when": "cold"}.
using Where = std::map<std::string, std::string>;

/// What a group of words does in a sentence.
enum class WordKind {
  filler,     ///< nothing
  negation,   ///< denies what follows: "no hum"; of a function: it is missing
  absence,    ///< dead, gone: of the function beside it, or of the whole set
  working,    ///< fine: takes what stands beside it out of the complaint
  function,   ///< what a set should do: sound, picture; with a denial it is a complaint
  trouble,    ///< what it should not do: hum, smoke
  thing,      ///< a part or control by name
  set,        ///< the whole set by its kind: says little of the fault
  place,      ///< channel, band, source, path
  condition,  ///< cold, warm, under load
  level       ///< loud, quiet, strong: one may be fine while the other is not
};

/// Words and phrases that mean the same.
struct WordGroup : knowledge::Entry {
  WordKind kind = WordKind::thing;
  std::vector<std::string> said;
  Where where;  ///< of a place or condition; empty otherwise
};

/// A complaint that this program does not look into, with what to do.
struct Elsewhere : knowledge::Entry {
  std::string advice;
  std::vector<std::string> said_as;
};

/// How often owners bring a class of complaints, and the symptoms that share it.
struct BroughtOften : knowledge::Entry {
  double notes = 0.0;  ///< of some thousand that were counted; only their ratio matters
  std::vector<std::string> symptoms;
};

/// What an owner said to this bench, and the symptom that was then found by hand.
struct Remembered : knowledge::Entry {
  std::string symptom, said;
};

struct Vocabulary {
  std::vector<WordGroup> words;
  std::vector<Elsewhere> elsewhere;
  std::vector<BroughtOften> often;
  std::vector<Remembered> remembered;
};

/// Of all trees, each laid over the one before by id. A tree without the folder has none.
[[nodiscard]] quantities::Result<Vocabulary> load_vocabulary(
    const std::vector<std::string>& directories);

/// A symptom named in the vocabulary that the knowledge does not have, each by file and line.
[[nodiscard]] quantities::Problems unknown_symptoms(const Vocabulary& vocabulary,
                                                    const knowledge::KnowledgeBase& knowledge);

}  // namespace dryout::complaints
