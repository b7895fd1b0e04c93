// What the owner's words sound like, on the page where a set comes in: proposed while they are
// typed, taken by one key, noted when the set is taken in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/knowledge_watch.h"
#include "complaints/complaint_reader.h"
#include "window/driver.h"

namespace dryout::window {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const complaints::ComplaintReader& shipped_words() {
  static const casework::LoadedKnowledge loaded = *app::load_all_knowledge({DRYOUT_SOURCE_DIR});
  static const complaints::ComplaintReader reader(loaded.base, loaded.vocabulary);
  return reader;
}

Desk counter() {
  Desk desk;
  desk.catalogue = sample_catalogue();
  desk.catalogue.complaint_reader = &shipped_words();
  desk.cases_state.taking_in = true;
  return desk;
}

TEST(IntakeProposals, ComeWhileTheWordsAreTypedAndOneKeyTakesThem) {
  Driver bench(counter());
  bench.click("intake/complaint");
  bench.type("left speaker dea");
  bench.frames(2);
  EXPECT_TRUE(bench.shows("intake/symptom/one-channel-dead")) << "before the word is whole";
  bench.key(Key::take_proposal);
  bench.frames(1);
  EXPECT_THAT(bench.desk().new_case.proposals.taken, Contains("one-channel-dead"));
  EXPECT_THAT(bench.label("intake/symptom/one-channel-dead"), HasSubstr("Taken"));
  bench.type("d");
  EXPECT_EQ(bench.desk().new_case.complaint, "left speaker dead") << "the field kept the caret";
  bench.press_by_key("intake/equipment/stereo-receiver");
  bench.press_by_key("intake/take-in");
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 1U);
  const auto& start = std::get<StartCase>(wishes.front());
  ASSERT_EQ(start.then.size(), 1U);
  const auto& symptom = std::get<casework::ReportSymptom>(start.then.front());
  EXPECT_EQ(symptom.symptom, "one-channel-dead");
  EXPECT_EQ(symptom.seen, casework::Seen::yes);
}

TEST(IntakeProposals, ASecondPressLeavesASymptom) {
  Driver bench(counter());
  bench.click("intake/complaint");
  bench.type("hum");
  bench.frames(2);
  bench.click("intake/symptom/hum-steady");
  EXPECT_THAT(bench.desk().new_case.proposals.taken, Contains("hum-steady"));
  bench.click("intake/symptom/hum-steady");
  EXPECT_THAT(bench.desk().new_case.proposals.taken, IsEmpty());
}

TEST(IntakeProposals, ProposeTheKindThatWasSaid) {
  Driver bench(counter());
  bench.click("intake/complaint");
  bench.type("stereo receiver hums");
  bench.frames(2);
  bench.click("intake/kind/stereo-receiver");
  EXPECT_EQ(bench.desk().new_case.equipment, "stereo-receiver");
}

TEST(IntakeProposals, NothingIsCutWhereALongComplaintIsTypedAtTwiceTheScale) {
  for (const float scale : {1.0F, 2.0F}) {
    Desk desk = counter();
    desk.scale = scale;
    desk.new_case.complaint =
        "CD not recognised, drawer sticks, and the left channel comes and goes when it is warm";
    Driver bench(std::move(desk));
    bench.frames(3);
    EXPECT_THAT(bench.items().cut(), IsEmpty()) << scale;
  }
}

}  // namespace
}  // namespace dryout::window
