#include "casework/bench_hints.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace dryout::casework {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

TEST(ReadPrint, TheTechnologyDecidesWhatComesFirst) {
  EXPECT_NEAR(read_print("47 25V", "wet-aluminium", 2026).values.front().capacitance.si(), 47e-6,
              1e-12);
  EXPECT_NEAR(read_print("A106", "solid-tantalum", 2026).values.front().capacitance.si(), 10e-6,
              1e-12);
  EXPECT_NEAR(read_print("475", "film", 2026).values.front().capacitance.si(), 4.7e-6, 1e-12);
}

TEST(ReadPrint, TellsVoltsAndToleranceInWords) {
  const ReadPrint read = read_print("2A104J", "film", 2026);
  ASSERT_FALSE(read.values.empty());
  EXPECT_THAT(read.values.front().told, HasSubstr("100 nF, 100 V, \u00b15 %"));
}

TEST(ReadPrint, TellsWhatItMeansAsADate) {
  EXPECT_THAT(read_print("0931", "", 2026).dates, Contains("2009, week 31"));
}

TEST(ReadPrint, SaysWhenItIsNeither) {
  const ReadPrint read = read_print("hello", "film", 2026);
  EXPECT_TRUE(read.values.empty());
  EXPECT_FALSE(read.fault.empty());
}

TEST(Leads, MatterOnlyToSmallOhms) {
  EXPECT_TRUE(leads_matter(readings::Kind::esr, 0.2));
  EXPECT_FALSE(leads_matter(readings::Kind::esr, 4.0));
  EXPECT_FALSE(leads_matter(readings::Kind::capacitance, 1e-6));
}

}  // namespace
}  // namespace dryout::casework
