#include "quantities/problem.h"

#include <gtest/gtest.h>

#include "quantities/result.h"
#include "quantities/spelling.h"

namespace dryout::quantities {
namespace {

TEST(Problem, NamesPlaceFoundAndAccepted) {
  const Problem problem{"number out of range", {"net.json", 12, "/items/0/prior"}, "1.7", "0 to 1"};
  EXPECT_EQ(describe(problem),
            "net.json:12 (/items/0/prior): number out of range; found 1.7; accepted: 0 to 1");
}

TEST(Problem, LeavesOutWhatIsNotKnown) {
  EXPECT_EQ(describe(Problem{"no such case", {}, "", ""}), "no such case");
}

TEST(Excerpt, ShortensAndHidesControlCharacters) {
  EXPECT_EQ(excerpt("a\nb\x1b[2J"), "a?b?[2J");
  EXPECT_EQ(excerpt("abcdef", 3), "abc...");
}

TEST(Excerpt, NeverCutsACharacterInHalf) {
  EXPECT_EQ(excerpt("aµµµ", 2), "a...");
  EXPECT_EQ(excerpt("aΩ", 3), "aΩ");
  EXPECT_EQ(excerpt("a\u20acb", 3), "a...") << "a sign of three bytes, cut before its last";
}

TEST(Result, HoldsAValueOrTheProblems) {
  const Result<int> good = 4;
  const Result<int> bad = Problem{"no", {}, "", ""};
  EXPECT_EQ(*good, 4);
  EXPECT_EQ(bad.problems().size(), 1U);
  EXPECT_THROW((void)bad.value(), InternalFault);
}

TEST(NearestSpelling, FindsASlipOfTheHandAndNothingElse) {
  EXPECT_EQ(nearest_spelling("resevoir", {"reservoir", "smoothing"}), "reservoir");
  EXPECT_EQ(nearest_spelling("banana", {"reservoir", "smoothing"}), std::nullopt);
  EXPECT_EQ(nearest_spelling(std::string(10000, 'x'), {"reservoir"}), std::nullopt);
}

TEST(Spelling, UnitsBehindANumberAreSigns) {
  EXPECT_EQ(with_unit_signs("up to 0.33 uF, 30 GOhm at 100 kohm"),
            "up to 0.33 \u00b5F, 30 G\u03a9 at 100 k\u03a9");
  EXPECT_EQ(with_unit_signs("470uF, 8 ohm"), "470 \u00b5F, 8 \u03a9");
  EXPECT_EQ(with_unit_signs("k C + 0.3 mA with C in uF"), "k C + 0.3 mA with C in \u00b5F");
  for (const char* text :
       {"", "a few ohms", "capacitance_uF", "tens of kilohms", "uFX", "3 ohmic"}) {
    EXPECT_EQ(with_unit_signs(text), text);
  }
}

}  // namespace
}  // namespace dryout::quantities
