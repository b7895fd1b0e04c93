// Which of several named things a person means: "Supply board" for the board `supply`, "reservoir"
// for the role `reservoir`, "driver left" for the block `driver-left`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dryout::knowledge {

struct Named {
  std::string_view id, title;
};

template <class Entries>
[[nodiscard]] std::vector<Named> names_of(const Entries& entries) {
  std::vector<Named> names;
  names.reserve(entries.size());
  for (const auto& entry : entries) names.push_back({entry.id, entry.title});
  return names;
}

/// Indices of those meant. One whose id or title is exactly that (whatever the case, blanks or
/// hyphens) is meant alone; else all that hold every word of it in id or title.
[[nodiscard]] std::vector<std::size_t> meant_by(std::string_view text,
                                                const std::vector<Named>& names);

/// Lower case, everything that is no letter or digit turned into single hyphens: fit for an id.
[[nodiscard]] std::string hyphenated(std::string_view text);

}  // namespace dryout::knowledge
