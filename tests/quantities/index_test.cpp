#include "quantities/index.h"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace dryout::quantities {
namespace {

using Apple = Index<struct Apples>;
using Pear = Index<struct Pears>;

// What must not compile, said so that it does.
static_assert(!std::is_constructible_v<Apple, Pear>);
static_assert(!std::is_assignable_v<Apple&, Pear>);
static_assert(!std::equality_comparable_with<Apple, Pear>);
static_assert(!std::is_convertible_v<std::size_t, Apple>, "only where someone says so");
static_assert(!std::is_convertible_v<Apple, std::size_t>);
static_assert(!std::is_default_constructible_v<Apple>, "no place is no index");

TEST(Index, CountsWithinItsOwnList) {
  EXPECT_EQ(Apple(3), Apple(3));
  EXPECT_LT(Apple(2), Apple(3));
  EXPECT_EQ(values_of(std::vector<Apple>{Apple(4), Apple(0)}), (std::vector<std::size_t>{4, 0}));
}

}  // namespace
}  // namespace dryout::quantities
