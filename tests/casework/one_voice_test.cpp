// What a case concludes is told in many places: the headline, the suspects, the advice, the
// decision, the batches. Random cases on every equipment that ships, after each step of which no
// two of them may disagree. DRYOUT_VOICE_CASES says how many of each kind (one unless it is told).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "casework/mending_bench.h"
#include "casework/random_commands.h"
#include "casework/shipped_bench.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the benches

bool has(const std::string& text, const char* words) {
  return text.find(words) != std::string::npos;
}

bool stands_by_itself(const SuspectView& suspect) {
  return suspect.convicted == "reading" || suspect.convicted == "judgement";
}

const ReadingView* open_reading_of(const CaseView& view, const SuspectView& suspect) {
  const auto found =
      std::find_if(view.readings.begin(), view.readings.end(), [&](const ReadingView& reading) {
        return reading.item == suspect.item && !reading.after_repair &&
               reading.sentence.find("lift a leg") != std::string::npos;
      });
  return found == view.readings.end() ? nullptr : &*found;
}

/// The headline and the suspects.
std::string readings_told(const CaseView& view) {
  std::string text;
  for (const ReadingView& reading : view.readings) {
    text += reading.item_title + ' ' + reading.kind + ' ' + reading.shown + ": " + reading.verdict +
            ". " + reading.sentence + '\n';
  }
  return text;
}

void hold_headline(const CaseView& view) {
  const std::string& told = view.leading.sentence;
  for (const SuspectView& suspect : view.suspects) {
    const bool named = has(told, suspect.title.c_str());
    if (!suspect.mended.empty()) {
      EXPECT_FALSE(told.rfind(suspect.title + " (", 0) == 0 && has(told, ") leads"))
          << suspect.title << " is mended";
      EXPECT_EQ(suspect.convicted, "") << suspect.title;
    }
    if (stands_by_itself(suspect)) {
      EXPECT_GE(suspect.suspicion.value(), suspect.convicted == "reading" ? 0.9 : 0.0)
          << suspect.title << '\n'
          << readings_told(view);
      EXPECT_FALSE(has(told, "Nothing is known to be wrong")) << suspect.title;
      EXPECT_FALSE(has(told, "No reading convicts")) << suspect.title;
    }
    if (has(told, "Settled beyond reasonable doubt") && named && suspect.convicted == "blame") {
      EXPECT_EQ(open_reading_of(view, suspect), nullptr)
          << suspect.title << " is settled, and its reading says: lift a leg";
    }
  }
}

/// The decision, against headline and suspects.
void hold_decision(const CaseView& view, const MendingView& mending) {
  const bool to_mend = std::any_of(view.suspects.begin(), view.suspects.end(), stands_by_itself);
  ASSERT_FALSE(mending.options.empty());
  if (to_mend) {
    EXPECT_NE(mending.options.front().scope, "nothing") << mending.sentence;
    EXPECT_FALSE(has(mending.sentence, "replace nothing")) << mending.sentence;
  }
  if (has(view.leading.sentence, "Settled beyond reasonable doubt")) {
    EXPECT_FALSE(has(mending.sentence, "Not decided yet")) << mending.sentence;
    EXPECT_NE(mending.options.front().scope, "nothing") << mending.sentence;
  }
  const std::string all = mending.sentence + testing::PrintToString(mending.notices);
  EXPECT_FALSE(has(all, "Nothing is convicted yet") && has(mending.sentence, "what is convicted"))
      << all;
  for (const CohortSample& sample : mending.sampling) {
    if (sample.measured + sample.undecided >= sample.parts) {
      EXPECT_FALSE(has(sample.sentence, "Measure up to")) << sample.title << sample.sentence;
    }
  }
}

/// The advice: a closed case, or one whose complaint is gone, asks for no check.
void hold_advice(const CaseView& view) {
  for (const SuspectView& suspect : view.suspects) {
    if (!suspect.mended.empty()) {
      EXPECT_FALSE(view.advice.act == casework::Advice::Act::mend &&
                   view.advice.item == suspect.item)
          << suspect.title << " is mended already";
    }
  }
  if (view.closed) {
    EXPECT_TRUE(view.advice.act == casework::Advice::Act::none);
  }
}

void hold_readings(const CaseView& view) {
  for (const ReadingView& reading : view.readings) {
    if (reading.limit && !reading.over_range && reading.verdict == "over-limit") {
      EXPECT_FALSE(has(reading.sentence, "proves nothing")) << reading.sentence;
    }
  }
}

int cases_of_each() {
  const char* told = std::getenv("DRYOUT_VOICE_CASES");
  return told == nullptr ? 1 : std::max(1, std::atoi(told));
}

TEST(OneVoice, NoTwoOutputsDisagreeAfterAnyStep) {
  constexpr int steps = 14;
  const auto workshop = shipped_mending_workshop();
  int held = 0;
  unsigned seed = 700;
  for (const auto& kind : shipped_knowledge().equipment) {
    for (int i = 0; i < cases_of_each(); ++i) {
      ++seed;
      SCOPED_TRACE(kind.id + ", seed " + std::to_string(seed));
      const std::int64_t number = start_on(*workshop, kind.id);
      CaseView view = *workshop->view(number);
      CommandMaker maker(seed, view);
      for (int step = 0; step < steps; ++step) {
        auto after = workshop->apply(number, maker.make());
        if (!after) {
          continue;
        }
        view = std::move(*after);
        maker.look_at(view);
        SCOPED_TRACE("step " + std::to_string(view.log.back().event) + ": " +
                     view.leading.sentence);
        hold_headline(view);
        hold_advice(view);
        hold_readings(view);
        if (const auto mending = workshop->mending(number, 5.0)) {
          hold_decision(view, *mending);
        }
        ++held;
      }
    }
  }
  RecordProperty("cases_held", held);
  EXPECT_GT(held, 100);
}

}  // namespace
}  // namespace dryout::casework
