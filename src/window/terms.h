// The words of the trade in a sentence or two, for whoever meets them first at this bench.
#pragma once

#include <vector>

namespace dryout::window {

struct Term {
  const char* word;
  const char* meaning;  ///< common practice unless it names its source
};
[[nodiscard]] const std::vector<Term>& terms();

}  // namespace dryout::window
