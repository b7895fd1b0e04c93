// The most that stands on a rail: 1.414 times what alternates behind it, at mains a tenth high
// (capacitor-input rectifier without load, textbook; EN 50160, from memory).
#include "knowledge/rail_peak.h"

#include <gtest/gtest.h>

#include <cmath>

#include "knowledge/fixture.h"
#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {
namespace {

const Equipment& shipped(const char* id) { return *find(tests::shipped_knowledge().equipment, id); }

const PartGroup& group_of(const Equipment& equipment, const char* id) {
  return *find(equipment.groups, id);
}

TEST(RailPeak, IsThatOfTheWindingOrTheMainsBehindIt) {
  const Equipment& guitar = shipped("valve-guitar-amplifier");
  for (const char* rail : {"ht-a", "ht-b", "ht-c", "ht-d"}) {
    EXPECT_NEAR(unloaded_peak(guitar, rail).si(), 513.4, 0.5) << "330 V x 1.414 x 1.1";
  }
  EXPECT_EQ(unloaded_peak(guitar, "bias").si(), 0.0);
  EXPECT_EQ(unloaded_peak(guitar, "no-such-rail").si(), 0.0);
  EXPECT_NEAR(unloaded_peak(shipped("valve-series-receiver"), "ht").si(), 357.8, 0.5) << "230 V";
  EXPECT_NEAR(unloaded_peak(shipped("hf-linear-amplifier"), "plate").si(), 3111.0, 1.0)
      << "2500 V of 1000 V a.c.: a doubler";
  EXPECT_NEAR(mains_peak(guitar).si(), 357.8, 0.5);
  EXPECT_EQ(mains_peak(shipped("car-radio")).si(), 0.0);
}

TEST(RailPeak, OfWhatFeedsAGridIsThatOfThePlateBefore) {
  const Equipment& guitar = shipped("valve-guitar-amplifier");
  const HighTensionAt coupling = high_tension_at(guitar, group_of(guitar, "grid-couplings"));
  EXPECT_NEAR(coupling.peak.si(), 513.4, 0.5);
  EXPECT_DOUBLE_EQ(coupling.bias.si(), 50.0);
  const Equipment& battery = shipped("car-radio");
  EXPECT_EQ(high_tension_at(battery, group_of(battery, "tone-parts")).peak.si(), 0.0);
}

TEST(RailPeak, IsNeverBelowWhatTheDrawingSays) {
  for (const Equipment& equipment : tests::shipped_knowledge().equipment) {
    for (const Rail& rail : equipment.rails) {
      const double peak = unloaded_peak(equipment, rail.id).si();
      EXPECT_TRUE(peak == 0.0 || peak >= rail.volts) << equipment.id << ' ' << rail.id;
      EXPECT_LE(peak, 3.0 * std::abs(rail.volts)) << equipment.id << ' ' << rail.id;
    }
  }
}

}  // namespace
}  // namespace dryout::knowledge
