#include "knowledge/describe_set.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "documents/parse.h"
#include "knowledge/chain.h"
#include "knowledge/equipment_json.h"
#include "knowledge/fixture.h"
#include "knowledge/load.h"
#include "temporary_folder.h"

namespace dryout::knowledge {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using tests::shipped_knowledge;

PartsList list_of(const std::string& text) {
  const auto table = documents::parse_table(text, "parts.csv");
  EXPECT_TRUE(table.ok());
  auto list = read_parts_list(*table, shipped_knowledge());
  EXPECT_TRUE(list.ok()) << quantities::describe(list.problems());
  return *std::move(list);
}

DescribedSet described(const std::string& text, SetWish wish = {}) {
  wish.id = "my-set";
  auto set = describe_set(shipped_knowledge(), list_of(text), wish);
  EXPECT_TRUE(set.ok()) << quantities::describe(set.problems());
  return set ? *std::move(set) : DescribedSet{};
}

const PartGroup* group_with(const DescribedSet& set, const std::string& reference) {
  for (const PartGroup& group : set.equipment.groups) {
    for (const std::string& known : group.references) {
      if (known == reference) return &group;
    }
  }
  return nullptr;
}

int parts_in(const Equipment& equipment) {
  int parts = 0;
  for (const PartGroup& group : equipment.groups) parts += group.count;
  return parts;
}

const char* const receiver_list =
    "Ref,Value,Volts,Technology,Board,Block,Role\n"
    "\"C801,C802\",10000u,50,electrolytic,Supply and protection board,rectifier,reservoir\n"
    "C803,4700u,50,electrolytic,Supply and protection board,rectifier,reservoir\n"
    "C701,22u,35,electrolytic,,Left output stage,bootstrap\n"
    "C900,1u,16,electrolytic,,,warp drive\n"
    "C901,3n3,,ceramic,,,\n";

TEST(DescribedSet, TakesGroupsFromTheListAndTheRestFromTheArchitecture) {
  const DescribedSet set = described(receiver_list, {"", "My set", "stereo-receiver"});
  ASSERT_NE(group_with(set, "C801"), nullptr);
  const PartGroup& reservoirs = *group_with(set, "C801");
  EXPECT_EQ(reservoirs.role, "reservoir");
  EXPECT_EQ(reservoirs.count, 2);
  EXPECT_EQ(reservoirs.rail, "plus");  // lent by the look-alike
  EXPECT_EQ(reservoirs.cohort, "reservoirs");
  EXPECT_NE(group_with(set, "C803"), group_with(set, "C801"));
  EXPECT_EQ(set.equipment.title, "My set");
  EXPECT_EQ(set.equipment.hazards, find(shipped_knowledge().equipment, "stereo-receiver")->hazards);
  EXPECT_FALSE(set.kept_groups.empty());
}

TEST(DescribedSet, KeepsWhatFindsNoPlaceAndSaysWhy) {
  const DescribedSet set = described(receiver_list, {"", "", "stereo-receiver"});
  ASSERT_EQ(set.equipment.unplaced.size(), 2U);
  EXPECT_EQ(set.equipment.unplaced[0].reference, "C900");
  EXPECT_THAT(set.equipment.unplaced[0].missing, HasSubstr("unknown role \"warp drive\""));
  EXPECT_EQ(set.equipment.unplaced[1].reference, "C901");
}

TEST(DescribedSet, WhereTheBoardIsUnknownALookAlikeElsewhereIsNoPlace) {
  const DescribedSet set = described(
      "Ref,Value,Volts,Technology,Board,Block,Role\n"
      "C801,10000u,50,electrolytic,,,reservoir\n"
      "C802,10000u,50,electrolytic,Attic,,reservoir\n",
      {"", "", "stereo-receiver"});
  EXPECT_NE(group_with(set, "C801"), nullptr);
  ASSERT_EQ(set.equipment.unplaced.size(), 1U);
  EXPECT_EQ(set.equipment.unplaced[0].reference, "C802");
  EXPECT_THAT(set.equipment.unplaced[0].missing, HasSubstr("unknown board \"Attic\""));
}

TEST(DescribedSet, WithOnlyWhatIsListedHasNothingElse) {
  SetWish wish{"", "", "stereo-receiver"};
  wish.only_listed = true;
  const DescribedSet set = described(receiver_list, wish);
  EXPECT_TRUE(set.kept_groups.empty());
  EXPECT_EQ(set.equipment.groups.size(), 3U);
}

TEST(DescribedSet, FindsItsArchitectureByItself) {
  EXPECT_EQ(described(receiver_list).like.id, "stereo-receiver");
}

/// A list written down from an architecture's own groups finds that architecture again, and every
/// part its place.
TEST(DescribedSet, EveryArchitectureIsTheNearestToItsOwnList) {
  int found = 0;
  for (const Equipment& equipment : shipped_knowledge().equipment) {
    std::string text = "Ref,Qty,Value,Volts,Technology,Block,Role\n";
    for (const PartGroup& group : equipment.groups) {
      const std::string uF = std::to_string(quantities::in_microfarads(group.capacitance));
      text +=
          "," + std::to_string(group.count) + "," + (group.capacitance.si() > 0 ? uF + "uF" : "") +
          "," + (group.rated.si() > 0 ? std::to_string(group.rated.si()) : "") + "," +
          technology_of(shipped_knowledge(), group) + "," + group.block + "," + group.role + "\n";
    }
    const std::vector<Nearness> nearest = nearest_equipment(shipped_knowledge(), list_of(text));
    EXPECT_DOUBLE_EQ(nearest.front().fit, [&] {
      for (const Nearness& near : nearest) {
        if (near.id == equipment.id) return near.fit;
      }
      return -1.0;
    }()) << equipment.id;
    found += nearest.front().id == equipment.id ? 1 : 0;
    const DescribedSet set = described(text, {"", "", equipment.id});
    // Groups that differ in nothing but their name become one; no part is lost.
    EXPECT_LE(set.equipment.groups.size(), equipment.groups.size()) << equipment.id;
    EXPECT_EQ(parts_in(set.equipment), parts_in(equipment)) << equipment.id;
    EXPECT_TRUE(set.equipment.unplaced.empty()) << equipment.id;
  }
  EXPECT_GE(found, static_cast<int>(shipped_knowledge().equipment.size()) - 2);
}

TEST(DescribedSet, RefusesAnIdAndAnArchitectureThatCannotBe) {
  const PartsList list = list_of(receiver_list);
  EXPECT_FALSE(describe_set(shipped_knowledge(), list, {"My Set", "", "stereo-receiver"}).ok());
  EXPECT_FALSE(describe_set(shipped_knowledge(), list, {"../../x", "", "stereo-receiver"}).ok());
  const auto unknown = describe_set(shipped_knowledge(), list, {"my-set", "", "stereo-reciever"});
  ASSERT_FALSE(unknown.ok());
  EXPECT_THAT(unknown.problems().front().accepted, HasSubstr("stereo-receiver"));
}

TEST(DescribedSet, LoadsOverTheShippedTreeAndLintTellsWhatIsMissing) {
  const tests::TemporaryFolder own;
  const DescribedSet set = described(receiver_list, {"", "My set", "stereo-receiver"});
  std::filesystem::create_directories(own.path() / "rules/equipment");
  std::ofstream(own.path() / "rules/equipment/my-set.json")
      << documents::to_text(to_json(set.equipment));
  const LintReport report = lint({DRYOUT_SOURCE_DIR, own.path().string()});
  EXPECT_EQ(quantities::describe(report.faults), "");
  int missing = 0;
  for (const auto& warning : report.warnings) {
    missing += warning.message.rfind("missing: ", 0) == 0 && warning.place.line > 0 ? 1 : 0;
  }
  EXPECT_EQ(missing, 2);
  const auto loaded = load({DRYOUT_SOURCE_DIR, own.path().string()});
  ASSERT_TRUE(loaded.ok());
  const Equipment* read = find(loaded->equipment, "my-set");
  ASSERT_NE(read, nullptr);
  EXPECT_EQ(documents::to_text(to_json(*read)), documents::to_text(to_json(set.equipment)));
  EXPECT_FALSE(chain(*loaded, *read).consequences.empty());
}

TEST(EquipmentJson, ReadsBackAsWritten) {
  for (const Equipment& equipment : shipped_knowledge().equipment) {
    const tests::TemporaryFolder own;
    std::filesystem::create_directories(own.path() / "rules/equipment");
    const std::string text = documents::to_text(to_json(equipment));
    std::ofstream(own.path() / "rules/equipment/x.json") << text;
    const auto loaded = load({DRYOUT_SOURCE_DIR, own.path().string()});
    ASSERT_TRUE(loaded.ok()) << quantities::describe(loaded.problems());
    EXPECT_EQ(documents::to_text(to_json(*find(loaded->equipment, equipment.id))), text)
        << equipment.id;
  }
}

/// What the loader makes of an equipment that was written beside the shipped tree.
Equipment read_back(const Equipment& equipment) {
  const tests::TemporaryFolder own;
  std::filesystem::create_directories(own.path() / "rules/equipment");
  std::ofstream(own.path() / "rules/equipment/x.json") << documents::to_text(to_json(equipment));
  const auto loaded = load({DRYOUT_SOURCE_DIR, own.path().string()});
  EXPECT_TRUE(loaded.ok()) << quantities::describe(loaded.problems());
  return loaded ? *find(loaded->equipment, equipment.id) : Equipment{};
}

TEST(EquipmentJson, KeepsWhereEverythingIsFrom) {
  Equipment equipment = *find(shipped_knowledge().equipment, "stereo-receiver");
  equipment.source = {Source::Kind::published, "Handbook of sets, third edition, page 12"};
  EXPECT_EQ(read_back(equipment).source.text, equipment.source.text);
  equipment.source = {Source::Kind::memory, "A course, years ago"};
  const Equipment remembered = read_back(equipment);
  EXPECT_EQ(remembered.source.kind, Source::Kind::memory);
  EXPECT_EQ(remembered.source.text, equipment.source.text);
  equipment.source = {Source::Kind::common_practice, ""};
  EXPECT_EQ(read_back(equipment).source.kind, Source::Kind::common_practice);
}

TEST(EquipmentJson, KeepsTheErasOfItsParts) {
  Equipment equipment = *find(shipped_knowledge().equipment, "stereo-receiver");
  EraVariant era;
  era.id = "early";
  era.title = "Early years";
  era.year_from = equipment.year_from;
  era.year_to = equipment.year_from + 2;
  era.technologies = {"wet-aluminium"};
  era.odds = {{"dried", 2.5}};
  era.because = "The first batches dried early.";
  era.source.kind = Source::Kind::judgement;
  equipment.eras = {era};
  const Equipment back = read_back(equipment);
  ASSERT_EQ(back.eras.size(), 1U);
  EXPECT_EQ(back.eras.front().odds, era.odds);
  EXPECT_EQ(back.eras.front().technologies, era.technologies);
  EXPECT_EQ(back.eras.front().year_to, era.year_to);
}

// The list alone says where it is: the rail is the block's if it has but one, and of the parts that
// wear out those of one technology on one board age together.
TEST(DescribedSet, APartUnlikeAnyOfTheArchitectureIsWhatTheListSays) {
  const DescribedSet set = described(
      "Ref,Value,Volts,Technology,Board,Block,Role\n"
      "C950,100u,25,electrolytic,,rectifier,audio-coupling\n",
      {"", "", "stereo-receiver"});
  ASSERT_NE(group_with(set, "C950"), nullptr);
  const PartGroup& unlike = *group_with(set, "C950");
  EXPECT_EQ(unlike.role, "audio-coupling");
  EXPECT_EQ(unlike.rail, "") << "of three rails that the block makes none is guessed";
  EXPECT_THAT(unlike.title, HasSubstr(find(shipped_knowledge().roles, "audio-coupling")->title));
  EXPECT_THAT(unlike.title, HasSubstr("100"));
  EXPECT_FALSE(unlike.cohort.empty());
  EXPECT_EQ(set.equipment.title, "my-set") << "nobody gave a title";
}

TEST(DescribedSet, AListOfWhichNothingFindsAPlaceIsRefusedWithTheFirstPart) {
  const auto set = describe_set(shipped_knowledge(),
                                list_of("Ref,Value,Volts,Technology,Board,Block,Role\n"
                                        "C900,1u,16,electrolytic,,,warp drive\n"),
                                {"my-set", "", "stereo-receiver"});
  ASSERT_FALSE(set.ok());
  EXPECT_THAT(quantities::describe(set.problems()), HasSubstr("C900"));
  EXPECT_THAT(quantities::describe(set.problems()), HasSubstr("parts.csv"));
}

// Makers print CX and CY, or X and Y alone, at parts across and from the mains (common practice, no
// source); X is also a crystal (IEEE 315: Y; both in use, from memory).
TEST(DescribeSet, PartsOfTheMainsAreNotLostByTheirLetters) {
  const PartsList list = list_of(
      "Ref,Value,Volts,Technology,Block,Role\n"
      "CX1,220n,275,mains-film,entry,mains-x\n"
      "CY2,2n2,250,ceramic,entry,mains-y\n"
      "X3,100n,275,mains-film,entry,mains-x\n"
      "Y4,4n7,250,ceramic,entry,mains-y\n"
      "X5,470n X2,275,,entry,\n"
      "X6,4.433619 MHz,,,oscillator,\n"
      "X7,455 kHz,,ceramic resonator,if,\n");
  EXPECT_EQ(list.capacitor_count(), 5);
  EXPECT_EQ(list.others.at("X"), 2);
}

}  // namespace
}  // namespace dryout::knowledge
