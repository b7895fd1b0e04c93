#include "quantities/patience.h"

#include <gtest/gtest.h>

#include <thread>

namespace dryout::quantities {
namespace {

using std::chrono::hours;
using std::chrono::milliseconds;

TEST(Patience, WorkThatNobodyWaitsForRestsForNothing) {
  EXPECT_NO_THROW(rest());
  EXPECT_NO_THROW(rest(1, 2));
}

TEST(Patience, WorkEndsAtTheNextRestOnceItIsOver) {
  Patience patience{hours(1)};
  const HeedPatience heeding(patience);
  EXPECT_NO_THROW(rest(3, 7));
  EXPECT_EQ(patience.done(), 3U);
  EXPECT_EQ(patience.all(), 7U);
  patience.end();
  EXPECT_THROW(rest(), GivenUp);
  EXPECT_TRUE(patience.ended());
}

TEST(Patience, IsOverWhenTheTimeIs) {
  Patience patience{milliseconds(0)};
  const HeedPatience heeding(patience);
  std::this_thread::sleep_for(milliseconds(2));
  EXPECT_THROW(rest(), GivenUp);
  EXPECT_FALSE(patience.ended()) << "nobody ended it";
}

TEST(Patience, IsOfOneThreadAndOfOneScope) {
  Patience over{hours(1)};
  over.end();
  {
    const HeedPatience heeding(over);
    Patience other{hours(1)};
    {
      const HeedPatience inner(other);
      EXPECT_NO_THROW(rest());
    }
    EXPECT_THROW(rest(), GivenUp);
    std::thread([] { EXPECT_NO_THROW(rest()); }).join();
  }
  EXPECT_NO_THROW(rest());
}

}  // namespace
}  // namespace dryout::quantities
