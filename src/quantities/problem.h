// What is wrong with an input, said so that a person can act on it: where it stands, what was
// found there, what is accepted. Loaders collect every problem they meet instead of stopping at
// the first.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dryout::quantities {

/// Where in the outside world a value stands. Empty parts are unknown.
struct Place {
  std::string file;     ///< path as the person gave it, or "<stdin>", "--value"
  int line = 0;         ///< 1-based; 0 = no line known
  std::string pointer;  ///< JSON pointer (RFC 6901) inside the file
};

struct Problem {
  std::string message;   ///< one sentence: what is wrong
  Place place;           ///< where
  std::string found;     ///< what stands there, shortened
  std::string accepted;  ///< what would have been accepted, or what to do
};

using Problems = std::vector<Problem>;

/// "rules/roles.json:12 (/roles/3/prior): probability out of range; found 1.7; accepted 0 to 1".
[[nodiscard]] std::string describe(const Problem& problem);

/// One description a line.
[[nodiscard]] std::string describe(const Problems& problems);

/// Shortens what was found so that a hostile value cannot flood the screen; control characters
/// are shown as '?'.
[[nodiscard]] std::string excerpt(std::string_view text, std::size_t length_max = 60);

}  // namespace dryout::quantities
