// What loads but leads nowhere is told as a warning.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "knowledge/cross_check.h"
#include "knowledge/fixture.h"
#include "temporary_folder.h"

namespace dryout::knowledge {
namespace {

using ::testing::HasSubstr;

class DeadEnds : public ::testing::Test {
 protected:
  /// The only warning there must be, as message, found, accepted.
  void expect_only(const std::string& message, const std::string& found,
                   const std::string& pointer) const {
    const auto warnings = dead_ends(knowledge_);
    ASSERT_EQ(warnings.size(), 1U) << quantities::describe(warnings);
    EXPECT_THAT(warnings[0].message, HasSubstr(message));
    EXPECT_EQ(warnings[0].found, found);
    EXPECT_EQ(warnings[0].place.pointer, pointer);
  }
  template <class Entries>
  static auto& copy_of_first(Entries& entries, const char* id) {
    entries.push_back(entries[0]);
    entries.back().id = id;
    entries.back().place.pointer = "/new";
    return entries.back();
  }

  KnowledgeBase knowledge_ = tests::fixture_knowledge();
};

TEST_F(DeadEnds, ALinkWhoseOpeningNeverComes) {
  Link& link = copy_of_first(knowledge_.links, "never");
  link.mode = "sound";
  expect_only("carries nothing", "never", "/new");
}

TEST_F(DeadEnds, ALinkThatIsAlwaysOutrun) {
  copy_of_first(knowledge_.links, "weaker").strength = 0.1;
  expect_only("carries nothing", "weaker", "/new");
}

TEST_F(DeadEnds, ASymptomThatNothingCauses) {
  Symptom& symptom = copy_of_first(knowledge_.symptoms, "never");
  symptom.shows[0].kinds = {"regulator"};  // nothing hums in a regulator
  expect_only("no fault of any equipment causes", "never", "/new");
}

TEST_F(DeadEnds, ASymptomOfOneEquipmentThatNothingThereCauses) {
  knowledge_.equipment.push_back(knowledge_.equipment[0]);
  Equipment& dull = knowledge_.equipment.back();
  dull.symptoms = {"hums", "distorts"};
  dull.groups.pop_back();                          // no coupling capacitors
  dull.blocks[2].kind = "mute";                    // no contact that distorts
  std::erase_if(knowledge_.symptoms.back().shows,  // and hum is no distortion
                [](const auto& shown) { return shown.phenomenon == "hum"; });
  dull.place.pointer = "/dull";
  expect_only("no fault of this equipment causes", "distorts", "/dull/symptoms/1");
}

TEST_F(DeadEnds, ACheckThatLooksWhereNothingIs) {
  CheckRule& check = copy_of_first(knowledge_.checks, "blind");
  check.sees = {{"residue", 0.9}};  // on rails, where no residue can be
  expect_only("sees nothing", "blind", "/new");
}

TEST_F(DeadEnds, AGroupThatNothingCanTellOf) {
  std::erase_if(knowledge_.checks, [](const CheckRule& check) { return check.id == "leakage"; });
  knowledge_.equipment[0].groups.push_back(knowledge_.equipment[0].groups[1]);
  PartGroup& silent = knowledge_.equipment[0].groups.back();
  silent.id = "silent";
  silent.role = "unheard-of";
  silent.technology = "film";
  silent.place.pointer = "/silent";
  expect_only("no symptom and no check", "silent", "/silent");
}

TEST_F(DeadEnds, AKindThatIsASlipOfTheHand) {
  knowledge_.checks[0].kinds.emplace_back("regulatd");
  expect_only("no equipment has this kind", "regulatd", "/checks/0/kinds/2");
  EXPECT_THAT(dead_ends(knowledge_)[0].accepted, HasSubstr("\"regulated\""));
}

TEST_F(DeadEnds, AreFewInTheFixture) { EXPECT_TRUE(dead_ends(knowledge_).empty()); }

TEST(UnreadFiles, AreToldByName) {
  namespace fs = std::filesystem;
  const dryout::tests::TemporaryFolder own;
  for (const char* file : {"rules/link/mine.json", "rules/links/deeper/mine.json",
                           "rules/links/mine.json", "rules/mine.json", "symptoms/mine.json",
                           "rules/roles/roles.schema.json", "rules/links/README.md"}) {
    fs::create_directories((own.path() / file).parent_path());
    std::ofstream(own.path() / file)
        << R"({"schema": 1, ")"
        << (std::string(file) == "symptoms/mine.json" ? "symptoms" : "links") << R"(": []})";
  }
  const auto report = lint({DRYOUT_SOURCE_DIR "/tests/knowledge/fixture", own.path().string()});
  EXPECT_EQ(quantities::describe(report.faults), "");
  std::vector<std::string> files;
  for (const auto& warning : report.warnings) files.push_back(warning.place.file);
  EXPECT_THAT(files, ::testing::ElementsAre(own.file("rules/link/mine.json"),
                                            own.file("rules/links/deeper/mine.json"),
                                            own.file("rules/mine.json")));
}

}  // namespace
}  // namespace dryout::knowledge
