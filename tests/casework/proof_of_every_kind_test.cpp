// The steps that prove a repair, on every kind of equipment that the knowledge ships with all its
// capacitors renewed: each warns of what is in the set, and where a valve rectifies its limit is
// asked about. Extra-low voltage ends at 60 V d.c. (ES1 of IEC 62368-1, from memory); that the
// first capacitor has a maximum by the valve's own sheet: common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "casework/mending_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the benches
using ::testing::HasSubstr;
using ::testing::Not;

/// What fitting any of its capacitors asks to look at, whichever way is taken.
std::string advice_on(Workshop& workshop, std::int64_t number) {
  std::string advice;
  for (const OptionView& option : mending_ok(workshop, number).options) {
    for (const ShoppingRow& row : option.shopping) {
      for (const std::string& each : row.look_at) advice += each + '\n';
    }
  }
  return advice;
}

MendingView all_renewed(Workshop& workshop, std::int64_t number,
                        const knowledge::Equipment& equipment) {
  std::vector<Command> repairs;
  for (const knowledge::PartGroup& group : equipment.groups) {
    repairs.emplace_back(RecordRepair{"group:" + group.id, "replaced", ""});
  }
  EXPECT_TRUE(repairs.empty() || workshop.apply_all(number, repairs).ok()) << equipment.id;
  return mending_ok(workshop, number);
}

bool has_rail_kind(const knowledge::Equipment& equipment,
                   std::initializer_list<const char*> kinds) {
  return std::any_of(equipment.rails.begin(), equipment.rails.end(), [&](const auto& rail) {
    return std::find(kinds.begin(), kinds.end(), rail.kind) != kinds.end();
  });
}

bool is_harmless(const knowledge::Equipment& equipment) {
  return std::none_of(equipment.rails.begin(), equipment.rails.end(), [](const auto& rail) {
    return rail.kind == "mains" || std::abs(rail.volts) > 60.0;
  });
}

/// A reservoir that a rectifier of valves charges, found by the rails alone: the first high
/// tension.
bool charged_by_valve(const knowledge::Equipment& equipment) {
  return std::any_of(equipment.blocks.begin(), equipment.blocks.end(),
                     [](const auto& block) { return block.id == "rectifier-valve"; });
}

TEST(ProofOfEveryKind, WarnsOfWhatIsInTheSetAndAsksForTheRectifierValvesLimit) {
  const auto workshop = shipped_mending_workshop();
  int harmless = 0;
  int rectified_by_valve = 0;
  for (const knowledge::Equipment& equipment : shipped_knowledge().equipment) {
    const std::int64_t number = start_on(*workshop, equipment.id);
    const std::string advice = advice_on(*workshop, number);
    const MendingView mending = all_renewed(*workshop, number, equipment);
    std::string cautions;
    for (const ProofStep& step : mending.proof) {
      cautions += step.caution_title + ": " + step.caution + '\n';
    }
    const bool heated = has_rail_kind(equipment, {"heater", "filament", "series-heater"});
    EXPECT_EQ(cautions.find("alves and tubes") != std::string::npos, heated) << equipment.id;
    if (is_harmless(equipment)) {
      ++harmless;
      for (const char* word : {"alve", "igh tension", "kill", "Mains voltage", "Pull the plug"}) {
        EXPECT_THAT(cautions, Not(HasSubstr(word))) << equipment.id;
      }
    }
    const bool by_valve = charged_by_valve(equipment);
    rectified_by_valve += by_valve ? 1 : 0;
    EXPECT_EQ(has_step(mending, "first-capacitor"), by_valve) << equipment.id;
    EXPECT_EQ(advice.find("rectifier valve's maximum") != std::string::npos, by_valve)
        << equipment.id;
  }
  EXPECT_GE(harmless, 3);
  EXPECT_GE(rectified_by_valve, 5);
}

}  // namespace
}  // namespace dryout::casework
