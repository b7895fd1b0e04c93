// Every word of a choice is found again by itself, and every step has its lane.
#include "casework/words.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "casework/every_command.h"
#include "casework/timeline.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

template <class Choice>
void expect_words_to_lead_back() {
  const std::vector<std::string_view> words = all_words<Choice>();
  ASSERT_FALSE(words.empty());
  EXPECT_EQ(std::set(words.begin(), words.end()).size(), words.size());
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto choice = choice_of<Choice>(words[i]);
    ASSERT_TRUE(choice.has_value()) << words[i];
    EXPECT_EQ(word_of(*choice), words[i]);
    EXPECT_EQ(static_cast<std::size_t>(*choice), i) << "in their order";
  }
  EXPECT_FALSE(choice_of<Choice>("no-such-word").has_value());
}

TEST(Words, OfEveryChoiceLeadBackToIt) {
  expect_words_to_lead_back<Seen>();
  expect_words_to_lead_back<ReadingKind>();
  expect_words_to_lead_back<Across>();
  expect_words_to_lead_back<JudgeSuspect::Verdict>();
  expect_words_to_lead_back<Proved>();
}

TEST(Words, EveryKindOfReadingHasATitleOfItsOwn) {
  std::set<std::string> titles;
  for (const std::string_view word : all_words<ReadingKind>()) {
    titles.insert(title_of(*choice_of<ReadingKind>(word)));
  }
  EXPECT_EQ(titles.size(), all_words<ReadingKind>().size());
  EXPECT_EQ(titles.count(""), 0U);
}

TEST(Timeline, EveryStepHasALaneThatIsDrawn) {
  std::set<std::string_view> used;
  for (const Command& command : tests::every_command()) {
    const auto lane = std::find_if(lanes().begin(), lanes().end(),
                                   [&](const Lane& each) { return each.id == lane_of(command); });
    EXPECT_NE(lane, lanes().end()) << word_of(command);
    used.insert(lane_of(command));
  }
  EXPECT_EQ(used.size(), lanes().size()) << "no lane stays empty for ever";
}

TEST(Timeline, WhatIsUnclearIsNeitherBadNorGood) {
  EXPECT_EQ(bearing_of(ReportSymptom{"hums", Seen::yes}), "bad");
  EXPECT_EQ(bearing_of(ReportSymptom{"hums", Seen::no}), "good");
  EXPECT_EQ(bearing_of(ReportSymptom{"hums", Seen::unclear}), "");
  EXPECT_EQ(bearing_of(RetestSymptom{"hums", true}), "bad");
  EXPECT_EQ(bearing_of(RetestSymptom{"hums", false}), "good");
  EXPECT_EQ(bearing_of(RecordProof{"soak", Proved::skipped, ""}), "");
  EXPECT_EQ(bearing_of(AddNote{"x"}), "");
}

}  // namespace
}  // namespace dryout::casework
