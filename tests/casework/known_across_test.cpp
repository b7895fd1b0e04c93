// What the description of a set and the shop's meter bring into a reading.
#include "casework/known_across.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using readings::Across;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

Ground ground_of(const knowledge::KnowledgeBase& knowledge, const std::string& equipment) {
  Ground ground;
  ground.knowledge = &knowledge;
  ground.readings = &shipped_readings();
  ground.equipment = knowledge::find(knowledge.equipment, equipment);
  return ground;
}

TEST(KnownAcross, ElectrolyticsOnOneRailAreAcrossEachOther) {
  const Ground ground = ground_of(shipped_knowledge(), "stereo-receiver");
  const auto* reservoirs = knowledge::find(ground.equipment->groups, "reservoirs");
  const auto known = known_across(ground, *reservoirs);
  ASSERT_TRUE(known.has_value());
  EXPECT_EQ(known->across, Across::electrolytic);
  EXPECT_THAT(known->because, HasSubstr("more electrolytic"));
}

TEST(KnownAcross, ACouplingPartIsAskedAbout) {
  const Ground ground = ground_of(shipped_knowledge(), "stereo-receiver");
  for (const knowledge::PartGroup& group : ground.equipment->groups) {
    if (group.rail.empty()) {
      EXPECT_FALSE(known_across(ground, group).has_value()) << group.id;
    }
  }
}

TEST(KnownAcross, WhatTheGroupSaysGoesFirst) {
  const Ground ground = ground_of(shipped_knowledge(), "stereo-receiver");
  knowledge::PartGroup group = *knowledge::find(ground.equipment->groups, "reservoirs");
  group.across = "winding";
  EXPECT_EQ(known_across(ground, group)->across, Across::winding);
  group.across = "unknown";
  EXPECT_FALSE(known_across(ground, group).has_value());
}

class ReadingOnTheBench : public testing::Test {
 protected:
  ReadingView reads(const std::string& item, RecordReading reading) {
    reading.item = item;
    return apply_ok(*workshop_, number_, reading).readings.back();
  }
  std::unique_ptr<Workshop> workshop_ = open_shipped();
  std::int64_t number_ = start_on(*workshop_, "stereo-receiver");
};

RecordReading esr_of(double value) {
  RecordReading reading;
  reading.value = value;
  reading.limit = 0.5;
  reading.limit_source = "datasheet";
  return reading;
}

TEST_F(ReadingOnTheBench, ALowOneOnASharedRailIsMaskedWithoutBeingAsked) {
  const ReadingView view = reads("reservoirs", esr_of(0.1));
  EXPECT_EQ(view.verdict, "masked") << view.sentence;
  EXPECT_THAT(view.caveats, Contains(HasSubstr("by the description of the set")));
  RecordReading alone = esr_of(0.1);
  alone.across = Across::nothing;
  const ReadingView told = reads("main-decoupling", alone);
  EXPECT_NE(told.verdict, "masked");
  EXPECT_THAT(told.caveats, Not(Contains(HasSubstr("by the description of the set"))));
}

TEST_F(ReadingOnTheBench, TheShopsMeterSettlesTestVoltsAndLeads) {
  const auto touched = [](const ReadingView& view, const char* words) {
    return testing::Matches(Contains(HasSubstr(words)))(view.caveats);
  };
  RecordReading reading = esr_of(0.3);
  EXPECT_TRUE(touched(reads("main-decoupling", reading), "leads are a good share"));
  EXPECT_TRUE(touched(reads("main-decoupling", reading), "may turn junctions on"));
  reading.meter = "four-wire-esr-meter";
  EXPECT_FALSE(touched(reads("main-decoupling", reading), "leads are a good share"));
  EXPECT_FALSE(touched(reads("main-decoupling", reading), "may turn junctions on"));
  reading.meter = "component-bridge-100k";
  EXPECT_TRUE(touched(reads("main-decoupling", reading), "may turn junctions on"));
}

TEST_F(ReadingOnTheBench, AMeterNobodyKnowsIsTold) {
  RecordReading reading = esr_of(2.0);
  reading.meter = "grandfathers-bridge";
  EXPECT_THAT(reads("main-decoupling", reading).caveats,
              Contains(HasSubstr("is not in the shop's list")));
  reading.meter = "leakage-tester";
  EXPECT_THAT(reads("main-decoupling", reading).caveats, Contains(HasSubstr("does not show esr")));
}

TEST_F(ReadingOnTheBench, AReadingWithoutAFrequencyWasTakenAtTheMeters) {
  RecordReading reading = esr_of(2.0);
  reading.meter = "component-bridge-1k";
  reading.limit.reset();
  const ReadingView at_meter = reads("main-decoupling", reading);
  reading.meter.clear();
  reading.frequency = quantities::hertz(1e3);
  const ReadingView typed = reads("main-decoupling", reading);
  EXPECT_EQ(at_meter.limit, typed.limit);
}

}  // namespace
}  // namespace dryout::casework
