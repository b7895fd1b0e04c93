// The words of complaints as data: which words mean one thing, what a place or a condition is
// called, and what owners complain of that is not this program's field. Files of rules/complaints/.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "knowledge/rules.h"
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

struct Vocabulary {
  std::vector<WordGroup> words;
  std::vector<Elsewhere> elsewhere;
};

/// Of all trees, each laid over the one before by id. A tree without the folder has none.
[[nodiscard]] quantities::Result<Vocabulary> load_vocabulary(
    const std::vector<std::string>& directories);

}  // namespace dryout::complaints
