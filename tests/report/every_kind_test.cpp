// The owner's report on every kind of equipment that the knowledge ships: it warns of what is in
// the set, and of nothing else. Extra-low voltage ends at 60 V d.c. (ES1 of IEC 62368-1, from
// memory).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "casework/workshop.h"
#include "knowledge/load.h"
#include "report/owner_report.h"

namespace dryout::report {
namespace {

std::string owner_warning(const casework::CaseView& view) {
  const Document document = owner_report(view, {}, {});
  std::string text;
  for (const Block& block : document.blocks) {
    if (const auto* warning = std::get_if<Warning>(&block)) text += warning->text;
  }
  return text;
}

bool has_rail(const knowledge::Equipment& equipment, bool (*fits)(const knowledge::Rail&)) {
  return std::any_of(equipment.rails.begin(), equipment.rails.end(), fits);
}
bool is_mains(const knowledge::Rail& rail) { return rail.kind == "mains"; }
bool is_dangerous(const knowledge::Rail& rail) {
  return rail.kind != "mains" && std::abs(rail.volts) > 60.0;
}

TEST(OwnerReportOfEveryKind, SpeaksOfHighVoltageWhereThereIsSomeAndNowhereElse) {
  const auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(knowledge.ok());
  const auto workshop =
      casework::Workshop::open(":memory:", *knowledge, [] { return std::int64_t{1772000000}; });
  ASSERT_TRUE(workshop.ok());
  int low = 0;
  int high = 0;
  for (const knowledge::Equipment& equipment : knowledge->equipment) {
    casework::TakeIn intake;
    intake.equipment = equipment.id;
    const auto number = (*workshop)->start(intake);
    ASSERT_TRUE(number.ok()) << equipment.id;
    const auto view = (*workshop)->view(*number);
    ASSERT_TRUE(view.ok()) << equipment.id;
    const std::string warning = owner_warning(*view);
    const bool dangerous = has_rail(equipment, is_dangerous);
    (dangerous ? high : low) += 1;
    EXPECT_EQ(warning.find("High voltage inside can kill") != std::string::npos, dangerous)
        << equipment.id << ": " << warning;
    EXPECT_EQ(warning.find("Mains voltage is present") != std::string::npos,
              has_rail(equipment, is_mains))
        << equipment.id << ": " << warning;
    if (!dangerous && !has_rail(equipment, is_mains)) {
      for (const char* word : {"kill", "igh tension", "valve", "mains", "plug"}) {
        EXPECT_THAT(warning, ::testing::Not(::testing::HasSubstr(word))) << equipment.id;
      }
    }
  }
  EXPECT_GT(low, 5);
  EXPECT_GT(high, 5);
}

}  // namespace
}  // namespace dryout::report
