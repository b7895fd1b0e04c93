#include "casework/command_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "casework/every_command.h"
#include "casework/words.h"
#include "documents/parse.h"

namespace dryout::casework {
namespace {

using testing::HasSubstr;

struct Read {
  Command command;
  quantities::Problems problems;
};

Read read(const std::string& text) {
  Read result;
  const auto document = documents::parse(text, "case.json");
  EXPECT_TRUE(document.ok()) << text;
  const documents::Reader reader(*document, result.problems);
  result.command = command_from_json(reader);
  return result;
}

TEST(CommandJson, EveryAlternativeHasASpellingThatReadsBack) {
  std::set<std::size_t> walked;
  for (const Command& command : tests::every_command()) {
    const std::string text = documents::to_line(to_json(command));
    const Read back = read(text);
    EXPECT_TRUE(back.problems.empty()) << text << quantities::describe(back.problems);
    EXPECT_EQ(back.command.index(), command.index()) << text;
    EXPECT_EQ(documents::to_line(to_json(back.command)), text);
    walked.insert(command.index());
  }
  EXPECT_EQ(walked.size(), std::variant_size_v<Command>);
}

TEST(CommandJson, ReadsThePlainerVerbsAndWritesThoseThatReleasedVersionsRead) {
  for (const PlainerVerb& verb : plainer_verbs()) {
    EXPECT_EQ(written_verb(verb.plain), verb.written);
    for (const Command& command : tests::every_command()) {
      documents::Value value = to_json(command);
      if (word_of(command) == verb.written) {
        value.set("do", std::string_view(verb.plain));
        const Read back = read(documents::to_line(value));
        EXPECT_TRUE(back.problems.empty()) << quantities::describe(back.problems);
        EXPECT_EQ(documents::to_line(to_json(back.command)), documents::to_line(to_json(command)));
      }
    }
  }
}

TEST(CommandJson, VerbsAreDistinct) {
  const auto words = command_words();
  EXPECT_EQ(std::set<std::string_view>(words.begin(), words.end()).size(),
            std::variant_size_v<Command>);
}

TEST(CommandJson, KeepsEveryMemberOfAReading) {
  const Command command = tests::every_command()[6];
  const auto back = std::get<RecordReading>(read(documents::to_line(to_json(command))).command);
  EXPECT_EQ(back.item, "C12");
  EXPECT_EQ(back.value, 2.4);
  EXPECT_EQ(back.frequency.si(), 1e5);
  EXPECT_EQ(back.temperature.degrees(), 21.5);
  EXPECT_EQ(back.across, Across::ceramic);
  EXPECT_EQ(back.limit, 0.35);
  EXPECT_EQ(back.limit_source, "datasheet");
  EXPECT_EQ(back.lead_zero, 0.05);
  EXPECT_EQ(back.meter, "bench");
  EXPECT_EQ(back.remark, "twice");
  EXPECT_TRUE(back.in_circuit);
}

TEST(CommandJson, LeavesOutWhatIsEmpty) {
  EXPECT_EQ(documents::to_line(to_json(CloseCase{})), R"({"do":"finish"})");
}

struct Wrong {
  const char *text, *complaint;
};

class CommandJsonRefuses : public testing::TestWithParam<Wrong> {};

TEST_P(CommandJsonRefuses, WithTheReason) {
  EXPECT_THAT(quantities::describe(read(GetParam().text).problems),
              HasSubstr(GetParam().complaint));
}

INSTANTIATE_TEST_SUITE_P(
    All, CommandJsonRefuses,
    testing::Values(
        Wrong{"[]", "accepted: an object"}, Wrong{"{}", "\"do\" is missing"},
        Wrong{R"({"do":"symptm"})", "did you mean \"symptom\"?"}, Wrong{R"({"do":7})", "/do"},
        Wrong{R"({"do":"symptom","symptom":"hums","sen":"yes"})", "did you mean \"seen\"?"},
        Wrong{R"({"do":"symptom","symptom":"hums","seen":"maybe"})", "yes, no, unclear"},
        Wrong{R"({"do":"symptom","symptom":["hums"],"seen":"yes"})", "/symptom"},
        Wrong{R"({"do":"symptom","seen":"yes"})", "\"symptom\" is missing"},
        Wrong{R"({"do":"note"})", "\"text\" is missing"},
        Wrong{R"({"do":"take-in","year_built":1980.5})", "/year_built"},
        Wrong{R"({"do":"retest","symptom":"hums","still_there":"no"})", "/still_there"},
        Wrong{R"({"do":"note","text":"x","sudo":true})", "unknown key"}));

}  // namespace
}  // namespace dryout::casework
