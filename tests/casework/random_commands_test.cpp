// Long cases of random commands, sensible and senseless, on the invented bench and on every
// equipment that ships. Seeds are fixed and printed, so that a failure can be repeated.
#include "casework/random_commands.h"

#include <gtest/gtest.h>

#include <cmath>

#include "casework/invented_bench.h"
#include "knowledge/load.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

void expect_sane(const CaseView& view) {
  for (const SuspectView& each : view.suspects) {
    EXPECT_FALSE(std::isnan(each.weight.value)) << each.item;
    EXPECT_FALSE(std::isnan(each.suspicion.value())) << each.item;
  }
  EXPECT_FALSE(view.leading.sentence.empty());
  for (const CheckView& check : view.next) {
    EXPECT_FALSE(check.reason.empty());
  }
}

/// Plays `steps` random acts and gives the number that were accepted.
int play(Workshop& workshop, std::int64_t number, unsigned seed, int steps) {
  CaseView view = *workshop.view(number);
  CommandMaker maker(seed, view);
  int accepted = 0;
  for (int i = 0; i < steps; ++i) {
    const unsigned act = maker.upto(10);
    auto result = act == 0   ? workshop.undo(number)
                  : act == 1 ? workshop.redo(number)
                  : act == 2 ? workshop.take_back(number, static_cast<int>(maker.upto(30)))
                             : workshop.apply(number, maker.make());
    if (result) {
      ++accepted;
      view = std::move(*result);
      expect_sane(view);
    } else {
      EXPECT_FALSE(result.problems().front().message.empty());
    }
  }
  return accepted;
}

/// Exported, imported and exported again: the same bytes, and the same figures.
void expect_round_trip(const Workshop& workshop, std::int64_t number, Workshop& elsewhere) {
  const std::string text = *workshop.export_case(number);
  const auto copy = elsewhere.import_case(text, "copy.json");
  ASSERT_TRUE(copy.ok()) << quantities::describe(copy.problems());
  EXPECT_EQ(*elsewhere.export_case(*copy), text);
  const CaseView one = *workshop.view(number);
  const CaseView two = *elsewhere.view(*copy);
  EXPECT_EQ(one.leading.sentence, two.leading.sentence);
  ASSERT_EQ(one.suspects.size(), two.suspects.size());
  for (std::size_t i = 0; i < one.suspects.size(); ++i) {
    EXPECT_EQ(one.suspects[i].item, two.suspects[i].item);
    EXPECT_EQ(one.suspects[i].suspicion, two.suspects[i].suspicion);
  }
}

TEST(RandomCommands, NeverBreakACaseAndAlwaysGoRoundTheFile) {
  int accepted = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto workshop = open_workshop();
    const auto number = start_lantern(*workshop);
    accepted += play(*workshop, number, seed, 60);
    expect_round_trip(*workshop, number, *open_workshop());
  }
  EXPECT_GT(accepted, 12 * 20) << "most commands must be sensible for this to prove anything";
}

TEST(RandomCommands, OnEveryEquipmentThatShips) {
  const auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  auto readings = readings::load_reading_knowledge({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(readings.ok()) << quantities::describe(readings.problems());
  const auto open = [&] {
    return std::move(
        *Workshop::open(std::string(in_memory), *knowledge, ticking_clock(), *readings));
  };
  const auto workshop = open();
  const auto elsewhere = open();
  unsigned seed = 1000;
  for (const knowledge::Equipment& equipment : knowledge->equipment) {
    SCOPED_TRACE(equipment.id + ", seed " + std::to_string(++seed));
    const auto number = workshop->start({equipment.id, "a set", 1978, "", "does not work"});
    ASSERT_TRUE(number.ok()) << quantities::describe(number.problems());
    EXPECT_FALSE(workshop->view(*number)->next.empty());
    play(*workshop, *number, seed, 5);
    expect_round_trip(*workshop, *number, *elsewhere);
  }
}

}  // namespace
}  // namespace dryout::casework
