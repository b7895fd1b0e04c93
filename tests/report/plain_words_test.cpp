#include "report/plain_words.h"

#include <gtest/gtest.h>

#include "casework/words.h"

namespace dryout::report {
namespace {

using quantities::Decibans;
using quantities::Probability;

TEST(PlainWords, CertaintyRisesWithTheFigureAndNeverSaysCertain) {
  EXPECT_EQ(certainty_word(Probability(1.0)), "almost certain");
  EXPECT_EQ(certainty_word(Probability(0.85)), "very likely");
  EXPECT_EQ(certainty_word(Probability(0.5)), "more likely than not");
  EXPECT_EQ(certainty_word(Probability(0.2)), "possible");
  EXPECT_EQ(certainty_word(Probability(0.0)), "unlikely");
}

TEST(PlainWords, TenDecibansAreTenToOne) {
  // Good, Probability and the Weighing of Evidence (1950): the deciban (from memory).
  EXPECT_NEAR(quantities::weight_of(10.0).value, 10.0, 1e-12);
  EXPECT_EQ(weight_word(quantities::weight_of(10.0)), "strongly");
  EXPECT_EQ(weight_word(quantities::weight_of(0.25)), "clearly");
  EXPECT_EQ(weight_word(Decibans{1.0}), "");
}

TEST(PlainWords, EveryKindOfReadingAndEverySourceOfALimitHasWords) {
  for (const std::string_view kind : casework::all_words<casework::ReadingKind>()) {
    EXPECT_NE(words_of_kind(kind).title, kind);
    EXPECT_NE(words_of_kind(kind).meaning, "");
  }
  for (const std::string_view source : casework::limit_source_words()) {
    EXPECT_NE(words_of_limit_source(source), source);
  }
  for (const readings::Verdict verdict :
       {readings::Verdict::over_limit, readings::Verdict::within_limit, readings::Verdict::masked,
        readings::Verdict::not_proven, readings::Verdict::suspect_short}) {
    EXPECT_NE(words_of_verdict(readings::word_of(verdict)), readings::word_of(verdict));
  }
}

TEST(PlainWords, OnlyTheWordsThatOccurAreExplained) {
  const auto words = words_to_explain("Ripple on the +38 V rail; the trail is cold.");
  ASSERT_EQ(words.size(), 2U);
  EXPECT_EQ(words[0].first, "rail");
  EXPECT_EQ(words[1].first, "ripple");
  EXPECT_TRUE(words_to_explain("The trailing trailer.").empty());
}

TEST(PlainWords, ListsReadLikeSentences) {
  EXPECT_EQ(listed({"a"}), "a");
  EXPECT_EQ(listed({"a", "b", "c"}), "a, b and c");
  EXPECT_EQ(counted(1, "part", "parts"), "1 part");
  EXPECT_EQ(as_sentence("hum is gone"), "Hum is gone.");
}

}  // namespace
}  // namespace dryout::report
