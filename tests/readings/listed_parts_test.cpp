// One limit, one verdict: what must hold of every part that a bench meets, with no limit typed, so
// that the library, the fitted step and the usual loss are what is held to account.
#include "listed_parts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>

#include "priors.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

ReadingInput input_of(const ListedPart& part) {
  ReadingInput input;
  input.technology = part.technology;
  input.body = part.body;
  input.capacitance = quantities::microfarads(part.microfarad);
  input.rated = quantities::volts(part.volts);
  input.in_circuit = false;
  return input;
}

std::string name_of(const ListedPart& part) {
  return std::to_string(part.microfarad) + " uF " + std::to_string(part.volts) + " V " +
         part.technology;
}

double limit_of(const ListedPart& part) {
  const Assessment a = assessed(input_of(part), 1.0);
  return a.limit ? a.limit->value : 0.0;
}

TEST(ListedParts, EachHasALimitAndNothingAtOrBelowItIsConvicted) {
  for (const ListedPart& part : listed_parts()) {
    const double limit = limit_of(part);
    ASSERT_GT(limit, 0.0) << name_of(part);
    for (const double share : {0.02, 0.1, 0.3, 0.5, 0.8, 0.95, 1.0}) {
      const Assessment a = assessed(input_of(part), share * limit);
      EXPECT_NE(a.verdict, Verdict::over_limit) << name_of(part) << " at " << share;
      EXPECT_THAT(a.sentence, Not(HasSubstr("convicted"))) << name_of(part) << " at " << share;
      // Nor does it make anybody more suspicious: what a check calls good is good.
      if (a.verdict != Verdict::suspect_short) {
        EXPECT_GE(a.after.front(), a.before.front() - 1e-9) << name_of(part) << " at " << share;
      }
    }
  }
}

TEST(ListedParts, ATextBookPairOfReadingsIsDecidedForFourOutOfFive) {
  std::size_t acquitted = 0;
  std::size_t convicted = 0;
  std::size_t convicted_unzeroed = 0;
  for (const ListedPart& part : listed_parts()) {
    const double limit = limit_of(part);
    ReadingInput zeroed = input_of(part);
    zeroed.lead_zero = quantities::ohms(0.0);
    acquitted += assessed(input_of(part), 0.3 * limit).verdict == Verdict::within_limit ? 1 : 0;
    convicted += assessed(zeroed, 3.5 * limit).verdict == Verdict::over_limit ? 1 : 0;
    convicted_unzeroed +=
        assessed(input_of(part), 3.5 * limit).verdict == Verdict::over_limit ? 1 : 0;
  }
  std::printf("of %zu: %zu acquitted, %zu convicted, %zu where nobody zeroed the meter\n",
              listed_parts().size(), acquitted, convicted, convicted_unzeroed);
  const std::size_t four_fifths = listed_parts().size() * 4 / 5;
  EXPECT_GE(acquitted, four_fifths);
  EXPECT_GE(convicted, four_fifths);
  EXPECT_GE(convicted_unzeroed, four_fifths);
}

// Over what sits across, limits of every provenance, in circuit and lifted.
TEST(ListedParts, WhoeverIsConvictedIsAtMostOneInTenSoundAndIsNotSentToBeLifted) {
  constexpr LimitSource sources[] = {LimitSource::datasheet, LimitSource::fresh_part,
                                     LimitSource::look_alike, LimitSource::tan_delta,
                                     LimitSource::general_table};
  constexpr Across across[] = {Across::unknown,     Across::nothing,   Across::ceramic,
                               Across::winding,     Across::regulator, Across::electrolytic,
                               Across::low_resistor};
  std::mt19937_64 random(20261128);
  int over = 0;
  for (const ListedPart& part : listed_parts()) {
    const double limit = limit_of(part);
    for (const LimitSource source : sources) {
      ReadingInput input = input_of(part);
      input.limit = limit;
      input.limit_source = source;
      input.lead_zero = quantities::ohms(0.0);
      input.in_circuit = random() % 2 == 0;
      input.across = across[random() % std::size(across)];
      for (const double times : {0.4, 1.0, 1.05, 1.3, 2.0, 5.0, 20.0}) {
        const Assessment a = assessed(input, times * limit);
        ASSERT_TRUE(a.limit) << name_of(part);
        if (a.verdict != Verdict::over_limit) {
          EXPECT_THAT(a.sentence, Not(HasSubstr("convicted"))) << name_of(part);
          continue;
        }
        ++over;
        EXPECT_GT(a.corrected_value, a.limit->value) << name_of(part) << ": " << a.sentence;
        EXPECT_LE(a.after.front(), 0.1 + 1e-9) << name_of(part) << ": " << a.sentence;
        EXPECT_THAT(a.sentence, HasSubstr("convicted"));
        for (const std::string& advice : a.advice) {
          EXPECT_THAT(advice, Not(HasSubstr("Lift"))) << a.sentence;
        }
      }
    }
  }
  EXPECT_GT(over, 500);
}

}  // namespace
}  // namespace dryout::readings
