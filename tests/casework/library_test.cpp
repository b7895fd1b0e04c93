#include "casework/library.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

const std::vector<LibraryEntry>& library() {
  static const std::vector<LibraryEntry> all =
      library_of(tests::shipped_knowledge(), tests::shipped_readings());
  return all;
}

const LibraryEntry& entry(Shelf shelf, const std::string& id) {
  static const LibraryEntry nothing;
  for (const LibraryEntry& each : library()) {
    if (each.shelf == shelf && each.id == id) return each;
  }
  ADD_FAILURE() << "no entry " << id;
  return nothing;
}

TEST(Library, HoldsEveryEntryOnce) {
  const knowledge::KnowledgeBase& knowledge = tests::shipped_knowledge();
  const auto of = [](Shelf shelf) {
    return static_cast<std::size_t>(count_sources(library(), shelf).all());
  };
  EXPECT_EQ(of(Shelf::equipment), knowledge.equipment.size());
  EXPECT_EQ(of(Shelf::symptoms), knowledge.symptoms.size());
  EXPECT_EQ(of(Shelf::checks), knowledge.checks.size());
  EXPECT_EQ(of(Shelf::rules), knowledge.links.size());
  EXPECT_EQ(of(Shelf::limits), tests::shipped_readings().limits.rows.size());
  EXPECT_EQ(of(Shelf::caveats), tests::shipped_readings().caveats.size());
  std::set<std::string> seen;
  for (const LibraryEntry& each : library()) {
    EXPECT_TRUE(seen.insert(std::to_string(static_cast<int>(each.shelf)) + each.id).second)
        << each.id;
    EXPECT_FALSE(each.title.empty()) << each.id;
  }
}

TEST(Library, SaysWhatTouchesARole) {
  const LibraryEntry& reservoir = entry(Shelf::roles, "reservoir");
  EXPECT_THAT(reservoir.touched_by, Contains(HasSubstr("equipment stereo-receiver: ")));
  EXPECT_THAT(reservoir.touched_by, Contains(HasSubstr("rule ")));
  EXPECT_THAT(reservoir.touched_by, Contains(HasSubstr("check ")));
}

TEST(Library, SaysWhichRulesASymptomRestsOn) {
  int with_rules = 0;
  for (const LibraryEntry& each : library()) {
    if (each.shelf != Shelf::symptoms) continue;
    for (const std::string& line : each.touched_by) {
      if (line.rfind("rule ", 0) == 0) {
        ++with_rules;
        break;
      }
    }
  }
  // A symptom that no rule brings about could never be explained.
  EXPECT_EQ(with_rules, count_sources(library(), Shelf::symptoms).all());
}

TEST(Library, IsSearchedByEveryWordWhateverTheCase) {
  const LibraryEntry& reservoir = entry(Shelf::roles, "reservoir");
  EXPECT_TRUE(matches(reservoir, ""));
  EXPECT_TRUE(matches(reservoir, "RESERVOIR rectifier"));
  EXPECT_FALSE(matches(reservoir, "reservoir banjo"));
}

TEST(Library, EveryKindOfSourceHasAWordOfItsOwn) {
  std::set<std::string_view> words;
  for (const LibraryEntry& each : library()) {
    words.insert(word_of_source(each.kind));
  }
  // rules/README.md: what is published, what is remembered, what everybody does, what was judged.
  EXPECT_EQ(words, (std::set<std::string_view>{"published", "from memory", "common practice",
                                               "judgement"}));
}

TEST(Library, ReadmeStatesTheCountsOfSources) {
  std::ifstream stream(DRYOUT_SOURCE_DIR "/rules/README.md");
  std::ostringstream text;
  text << stream.rdbuf();
  EXPECT_NE(text.str().find(source_table(library())), std::string::npos)
      << "rules/README.md should hold this table:\n"
      << source_table(library());
}

}  // namespace
}  // namespace dryout::casework
