// What every entry of the knowledge has: its id, title, reason and source, and where it was read.
#pragma once

#include <string>

#include "quantities/problem.h"

namespace dryout::knowledge {

/// Where a rule or number comes from. `memory` is a published source recalled but not opened.
struct Source {
  enum class Kind { published, memory, common_practice, judgement };
  Kind kind = Kind::judgement;
  std::string text;  ///< document and page or table; empty for practice and judgement
};

/// What every entry has: a stable id, a title in the words of the trade, a reason a novice
/// understands, a source, and where it was read.
struct Entry {
  std::string id;
  std::string title;
  std::string because;
  Source source;
  quantities::Place place;
};

}  // namespace dryout::knowledge
