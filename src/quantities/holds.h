// Whether a value stands in a list. What C++23 calls std::ranges::contains.
#pragma once

#include <algorithm>
#include <ranges>

namespace dryout::quantities {

template <std::ranges::input_range List, class Value>
[[nodiscard]] bool holds(const List& list, const Value& value) {
  return std::ranges::find(list, value) != std::ranges::end(list);
}

}  // namespace dryout::quantities
