// The bundle of a shop as a file: what it holds beside its cases.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>

#include "quantities/result.h"

namespace dryout::app {

struct OwnText {
  std::string name;  ///< below the own folder: "rules/limits/bench.json"
  std::string text;
};

/// Whether it names a file of knowledge below the own folder and nowhere else.
[[nodiscard]] bool is_own_name(const std::string& name);
inline constexpr const char* own_name_accepted =
    "rules/... or symptoms/... ending in .json, at most 200 bytes, no control characters, no "
    "hidden folders";

struct Bundle {
  std::size_t own = 0;
  std::optional<bool> in_the_figures;
};

/// Goes through what a bundle holds beside its cases, one own file at a time; the first problem of
/// a visit ends it.
[[nodiscard]] quantities::Result<Bundle> look_through(
    const std::string& path,
    const std::function<quantities::Result<quantities::Done>(const OwnText&)>& visit);

}  // namespace dryout::app
