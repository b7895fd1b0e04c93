#include "knowledge/load.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "knowledge/fixture.h"
#include "temporary_folder.h"

namespace dryout::knowledge {
namespace {

using tests::fixture;
namespace fs = std::filesystem;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;

/// A technician's own tree beside the fixture.
class OwnTree : public ::testing::Test {
 protected:
  std::string write(const std::string& file, const std::string& text) const {
    const fs::path path = own_.path() / file;
    fs::create_directories(path.parent_path());
    std::ofstream(path) << text;
    return path.string();
  }
  [[nodiscard]] std::vector<std::string> trees() const { return {fixture, own_.path().string()}; }

  dryout::tests::TemporaryFolder own_;
};

constexpr const char* own_reservoir = R"({"schema": 1, "roles": [
  {"id": "reservoir", "title": "My reservoir", "because": "Mine run hotter than the book says.",
   "source": {"kind": "memory", "document": "IEC 60384-4"}, "technology": "film",
   "measure": "Feel."}]})";

TEST(Load, KeepsWhereEveryEntryStands) {
  const auto knowledge = load({fixture});
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  const Link* second = find(knowledge->links, "open-diode-ripples");
  ASSERT_NE(second, nullptr);
  EXPECT_EQ(second->place.file, fixture + "/rules/links/links.json");
  EXPECT_EQ(second->place.pointer, "/links/1");
  EXPECT_EQ(second->place.line, 12);
  const PartGroup& coupling = find(knowledge->equipment, "lantern")->groups[1];
  EXPECT_EQ(coupling.place.pointer, "/equipment/0/groups/1");
}

TEST(Load, ReadsUnitsAndDefaults) {
  const auto knowledge = load({fixture});
  ASSERT_TRUE(knowledge.ok());
  const PartGroup& reservoirs = find(knowledge->equipment, "lantern")->groups[0];
  EXPECT_DOUBLE_EQ(reservoirs.capacitance.si(), 4700e-6);
  EXPECT_DOUBLE_EQ(reservoirs.rated.si(), 50.0);
  EXPECT_DOUBLE_EQ(find(knowledge->causes, "open-diode")->remedy.si(), 600.0);
  EXPECT_DOUBLE_EQ(find(knowledge->symptoms, "distorts")->shows[0].strength, 1.0);
  EXPECT_EQ(find(knowledge->equipment, "lantern")->groups[1].warmth, "warm");
  EXPECT_EQ(technology_of(*knowledge, find(knowledge->equipment, "lantern")->groups[1]), "film");
}

TEST_F(OwnTree, ReplacesTheWholeEntryOfTheSameId) {
  write("rules/roles/own.json", own_reservoir);
  const auto knowledge = load(trees());
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  EXPECT_EQ(knowledge->roles.size(), 2U);
  const Role* role = find(knowledge->roles, "reservoir");
  EXPECT_EQ(role->title, "My reservoir");
  EXPECT_TRUE(role->stress.empty());  // nothing of the shipped entry is left
  EXPECT_EQ(role->source.kind, Source::Kind::memory);
  EXPECT_EQ(knowledge->roles[0].id, "reservoir");  // and it stands where that one stood
}

TEST_F(OwnTree, AddsEntriesAndMayReferToShippedOnes) {
  write("symptoms/own.json", R"({"schema": 1, "symptoms": [
    {"id": "rough", "title": "Rough", "because": "It sounds as if the needle were dirty.",
     "source": "judgement", "family": "audio", "owner_words": ["rough"], "quick_test": "Listen.",
     "discriminates": "It is there at once.", "shows": [{"phenomenon": "distorted"}],
     "leak": 0.01, "cautions": ["mains"]}]})");
  const auto knowledge = load(trees());
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  EXPECT_EQ(knowledge->symptoms.size(), 3U);
}

TEST_F(OwnTree, ReplacesAgeingAsAWhole) {
  write("rules/ageing.json", R"({"schema": 1, "ageing": {"levels": ["young", "old"],
    "steps": [{"age_years_max": 500, "weights": [0.1, 0.9]}], "source": "judgement",
    "warmth_factor": {"cool": 1, "warm": 1, "hot": 1}}})");
  const auto knowledge = load(trees());
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  EXPECT_EQ(knowledge->ageing.levels[0], "young");
  EXPECT_EQ(knowledge->ageing.steps.size(), 1U);
}

TEST_F(OwnTree, TellsAllFaultsOfAllFilesAtOnce) {
  write("rules/roles/a.json", R"({"schema": 1, "roles": [{"id": "x"}]})");
  write("rules/links/b.json", R"({"schema": 1, "links": 3})");
  write("rules/modes/c.json", "{");
  const auto faults = lint(trees()).faults;
  EXPECT_GE(faults.size(), 6U);  // four of the role's members, the list, the unfinished file
  for (const char* file : {"a.json", "b.json", "c.json"}) {
    EXPECT_THAT(faults, Contains(Field(&quantities::Problem::place,
                                       Field(&quantities::Place::file, HasSubstr(file)))));
  }
}

TEST_F(OwnTree, MayNotBreakWhatTheShippedOneRefersTo) {
  // A technology that fails in no way is lawful; one whose modes do not exist is not.
  write("rules/technologies/own.json", R"({"schema": 1, "technologies": [
    {"id": "film", "title": "Film", "because": "It never fails, says my catalogue.",
     "source": "judgement", "wears_out": false, "modes": {"melted": [0.1, 0.1]}}]})");
  const auto faults = lint(trees()).faults;
  ASSERT_EQ(faults.size(), 1U) << quantities::describe(faults);
  EXPECT_EQ(faults[0].found, "\"melted\"");
}

TEST(Load, RefusesAFolderWithoutKnowledge) {
  const dryout::tests::TemporaryFolder empty;
  const auto knowledge = load({fixture, empty.path().string()});
  ASSERT_FALSE(knowledge.ok());
  EXPECT_EQ(knowledge.problems()[0].place.file, empty.path().string());
  EXPECT_FALSE(load({empty.file("nowhere")}).ok());
}

TEST(Load, RefusesATreeThatHasNoAgeing) {
  const dryout::tests::TemporaryFolder bare;
  fs::create_directories(bare.path() / "rules");
  const auto faults = lint({bare.path().string()}).faults;
  ASSERT_EQ(faults.size(), 1U) << quantities::describe(faults);
  EXPECT_THAT(faults[0].accepted, HasSubstr("rules/ageing.json"));
}

// --- Files from a hostile world -------------------------------------------------------------

struct Hostile {
  const char* name;
  std::string text;
};

class HostileFile : public OwnTree, public ::testing::WithParamInterface<Hostile> {};

TEST_P(HostileFile, IsRefusedByNameAndNothingElseHappens) {
  const std::string file = write("rules/links/hostile.json", GetParam().text);
  const auto faults = lint(trees()).faults;
  ASSERT_FALSE(faults.empty());
  EXPECT_EQ(faults[0].place.file, file);
  EXPECT_LT(quantities::describe(faults).size(), 100'000U);  // it cannot flood the screen
}

std::string repeated(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

INSTANTIATE_TEST_SUITE_P(
    Files, HostileFile,
    ::testing::Values(
        Hostile{"empty", ""}, Hostile{"only_null", "null"}, Hostile{"a_list", "[]"},
        Hostile{"deep", repeated("[", 100'000)},
        Hostile{"deep_objects", repeated(R"({"links":)", 50'000)},
        Hostile{"not_a_number", R"({"schema": 1, "links": [{"id": "x", "strength": NaN}]})"},
        Hostile{"infinite", R"({"schema": 1, "links": [{"id": "x", "strength": 1e999}]})"},
        Hostile{"key_twice", R"({"schema": 1, "schema": 1, "links": []})"},
        Hostile{"not_utf8", "{\"schema\": 1, \"links\": [\"\xff\xfe\"]}"},
        Hostile{"numbers_for_objects", R"({"schema": 1, "links": [1, "two", null, [], true]})"},
        Hostile{"objects_for_texts",
                R"({"schema": 1, "links": [{"id": {}, "because": [], "source": 7, "when": "now",
                    "then": 4, "strength": "strong"}]})"},
        Hostile{"long_id",
                R"({"schema": 1, "links": [{"id": ")" + repeated("x", 1'000'000) + R"("}]})"},
        Hostile{"control_characters", R"({"schema": 1, "links": [{"id": "\u0000\u001b[2J"}]})"},
        Hostile{"schema_as_text", R"({"schema": "1", "links": []})"},
        Hostile{"two_values", R"({"schema": 1, "links": []} {})"}),
    [](const auto& row) { return row.param.name; });

TEST_F(OwnTree, MayHoldAFolderThatIsNamedLikeAFile) {
  fs::create_directories(own_.path() / "rules/links/folder.json");
  EXPECT_EQ(lint(trees()).faults.size(), 1U);
}

}  // namespace
}  // namespace dryout::knowledge
