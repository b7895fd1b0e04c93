// The tree in rules/ and symptoms/ as it is shipped.
#include <gtest/gtest.h>

#include <set>

#include "knowledge/chain.h"
#include "knowledge/fixture.h"
#include "knowledge/load.h"

namespace dryout::knowledge {
namespace {

using tests::shipped_knowledge;
const std::vector<std::string> tree{DRYOUT_SOURCE_DIR};

TEST(ShippedTree, HasNoFaultsAndNoDeadEnds) {
  const LintReport report = lint(tree);
  EXPECT_EQ(quantities::describe(report.faults), "");
  EXPECT_EQ(quantities::describe(report.warnings), "");
}

TEST(ShippedTree, IsAsBroadAsItPromises) {
  std::size_t live = 0;
  for (const Caution& caution : shipped_knowledge().cautions)
    live += caution.danger == "none" ? 0U : 1U;
  EXPECT_GE(shipped_knowledge().equipment.size(), 42U);
  EXPECT_GE(shipped_knowledge().symptoms.size(), 100U);
  EXPECT_GE(shipped_knowledge().roles.size(), 35U);
  EXPECT_GE(shipped_knowledge().checks.size(), 60U);
  EXPECT_GE(shipped_knowledge().causes.size(), 30U);
  EXPECT_GE(live, 5U);
}

TEST(ShippedTree, LetsEveryEquipmentShowSymptomsAndOtherCauses) {
  for (const Equipment& equipment : shipped_knowledge().equipment) {
    std::set<std::size_t> groups;
    std::set<std::size_t> causes;
    const Chained chained = chain(shipped_knowledge(), equipment);
    for (const Consequence& consequence : chained.consequences) {
      const FaultSite& site = chained.sites[consequence.site];
      (site.kind == FaultSite::Kind::group ? groups : causes)
          .insert(site.kind == FaultSite::Kind::group ? site.group : site.cause);
    }
    EXPECT_EQ(groups.size(), equipment.groups.size()) << equipment.id;
    EXPECT_GE(causes.size(), 3U) << equipment.id << ": can it be anything but a capacitor?";
  }
}

TEST(ShippedTree, WarnsOfWhateverCanHurtInAnEquipment) {
  for (const Equipment& equipment : shipped_knowledge().equipment) {
    std::set<std::string> dangers;
    for (const std::string& id : equipment.hazards) {
      dangers.insert(find(shipped_knowledge().cautions, id)->danger);
    }
    for (const Rail& rail : equipment.rails) {
      if (rail.kind == "mains" || rail.kind == "primary") {
        EXPECT_TRUE(dangers.contains("mains")) << equipment.id << ", rail " << rail.id;
      }
      if (rail.kind == "high-tension" || rail.kind == "extra-high-tension") {
        EXPECT_TRUE(dangers.contains("high-tension")) << equipment.id << ", rail " << rail.id;
      }
    }
  }
}

TEST(ShippedTree, SaysOfEveryPublishedSourceWhereToLook) {
  std::size_t published = 0;
  for (const Link& link : shipped_knowledge().links) {
    if (link.source.kind != Source::Kind::published) continue;
    ++published;
    EXPECT_NE(link.source.text.find(", "), std::string::npos) << link.id;
  }
  EXPECT_GT(published, 0U);
}

}  // namespace
}  // namespace dryout::knowledge
