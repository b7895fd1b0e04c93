// A place in one list. An index says by its type which list it counts in, so that one never
// reaches another: Index<struct OfApples> and Index<struct OfPears> do not mix, and neither is a
// plain number until someone says so.
#pragma once

#include <compare>
#include <cstddef>
#include <vector>

namespace dryout::quantities {

template <class List>
class Index {
 public:
  constexpr explicit Index(std::size_t value) : value_(value) {}
  [[nodiscard]] constexpr std::size_t value() const { return value_; }
  friend constexpr auto operator<=>(const Index&, const Index&) = default;

 private:
  std::size_t value_;
};

/// As plain numbers, for what works within that one list.
template <class List>
[[nodiscard]] std::vector<std::size_t> values_of(const std::vector<Index<List>>& indices) {
  std::vector<std::size_t> values;
  values.reserve(indices.size());
  for (const Index<List> index : indices) {
    values.push_back(index.value());
  }
  return values;
}

}  // namespace dryout::quantities
