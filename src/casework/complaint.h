// How this room says that an id is not known.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantities/problem.h"

namespace dryout::casework {

template <class Entries>
[[nodiscard]] std::vector<std::string_view> ids_of(const Entries& entries) {
  std::vector<std::string_view> ids;
  ids.reserve(entries.size());
  for (const auto& entry : entries) {
    ids.push_back(entry.id);
  }
  return ids;
}

/// "unknown symptom; found "hmu"; accepted: did you mean "hum"?", or the list where it is short.
[[nodiscard]] quantities::Problem unknown(std::string_view what, std::string_view id,
                                          const std::vector<std::string_view>& accepted);

}  // namespace dryout::casework
