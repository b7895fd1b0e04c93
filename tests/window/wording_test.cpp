#include "window/wording.h"

#include <gtest/gtest.h>

#include <limits>

#include "window/readings_view.h"
#include "window/symptom_search.h"

namespace dryout::window {
namespace {

using quantities::Decibans;
using quantities::Probability;

TEST(Percent, NeverClaimsCertainty) {
  EXPECT_EQ(percent(Probability(0.0)), "< 1 %");
  EXPECT_EQ(percent(Probability(0.004)), "< 1 %");
  EXPECT_EQ(percent(Probability(0.372)), "37 %");
  EXPECT_EQ(percent(Probability(1.0)), "> 99 %");
}

TEST(DecibansInWords, CarryTheirSign) {
  EXPECT_EQ(decibans(Decibans{7.24}), "+7.2 dB");
  EXPECT_EQ(decibans(Decibans{-1.3}), "\u22121.3 dB");
  EXPECT_EQ(decibans(Decibans{std::numeric_limits<double>::infinity()}), "proves it");
  EXPECT_EQ(decibans(Decibans{-std::numeric_limits<double>::infinity()}), "rules it out");
}

TEST(KindWords, KnowEveryKindByItsIdAndPlace) {
  for (int i = 0; i <= static_cast<int>(casework::ReadingKind::dc_volts); ++i) {
    const auto kind = static_cast<casework::ReadingKind>(i);
    EXPECT_EQ(kind_words(kind).kind, kind);
    ASSERT_NE(kind_words(kind_words(kind).id), nullptr);
    EXPECT_EQ(kind_words(kind_words(kind).id)->kind, kind);
  }
  EXPECT_EQ(kind_words(""), nullptr);
}

TEST(SymptomSearch, CountsTheWordsThatBeginAWord) {
  EXPECT_EQ(words_matched("hum low", "It hums all the time, a low drone"), 2);
  EXPECT_EQ(words_matched("HUM", "it hums"), 1);
  EXPECT_EQ(words_matched("um", "it hums"), 0) << "the middle of a word is no match";
  EXPECT_EQ(words_matched("  ", "anything"), 1);
}

TEST(SymptomSearch, PutsTheBestFitFirstAndAllWhenNothingIsAsked) {
  std::vector<casework::SymptomView> symptoms(3);
  symptoms[0].title = "Weak";
  symptoms[1].title = "Hum";
  symptoms[1].owner_words = {"it drones"};
  symptoms[2].title = "Hum that drones when warm";
  EXPECT_EQ(find_symptoms(symptoms, "drones warm"), (std::vector<std::size_t>{2, 1}));
  EXPECT_EQ(find_symptoms(symptoms, "").size(), 3U);
}

TEST(Decades, SpanReadingsAndLimits) {
  casework::ReadingView one;
  one.value = 0.42;
  one.limit = 3.0;
  const Decades decades = decades_of({&one});
  EXPECT_EQ(decades.low, -1);
  EXPECT_EQ(decades.high, 1);
}

TEST(Decades, StandAlthoughAReadingIsZero) {
  casework::ReadingView zero;
  const Decades decades = decades_of({&zero});
  EXPECT_LT(decades.low, decades.high);
}

}  // namespace
}  // namespace dryout::window
