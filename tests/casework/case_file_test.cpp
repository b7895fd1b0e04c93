// Case files come from elsewhere: they are read strictly, refused with the place, and never half
// taken in.
#include "casework/case_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/every_command.h"
#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::HasSubstr;

/// A full case with steps taken back and brought back.
std::string full_case() {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  for (const Command& command : every_command()) {
    apply_ok(*workshop, number, command);
  }
  (void)workshop->undo(number);
  (void)workshop->undo(number);
  (void)workshop->redo(number);
  (void)workshop->take_back(number, 3);
  return *workshop->export_case(number);
}

std::string complaint_about(const std::string& text) {
  const auto workshop = open_workshop();
  const auto number = workshop->import_case(text, "case.json");
  EXPECT_EQ(workshop->cases()->size(), number.ok() ? 1U : 0U) << "never half taken in";
  return number ? "" : quantities::describe(number.problems());
}

std::string with(std::string text, const std::string& what, const std::string& instead) {
  const auto found = text.find(what);
  EXPECT_NE(found, std::string::npos) << what;
  return found == std::string::npos ? text : text.replace(found, what.size(), instead);
}

TEST(CaseFile, ExportOfAnImportIsTheSameBytes) {
  const std::string text = full_case();
  const auto workshop = open_workshop();
  const auto number = workshop->import_case(text, "case.json");
  ASSERT_TRUE(number.ok()) << quantities::describe(number.problems());
  EXPECT_EQ(*workshop->export_case(*number), text);
}

TEST(CaseFile, AnImportedCaseLooksLikeItsOriginal) {
  const std::string text = full_case();
  const auto here = open_workshop();
  const auto there = open_workshop();
  const CaseView one = *here->view(*here->import_case(text, "a.json"));
  const CaseView two = *there->view(*there->import_case(text, "b.json"));
  EXPECT_EQ(one.leading.sentence, two.leading.sentence);
  ASSERT_EQ(one.log.size(), two.log.size());
  EXPECT_EQ(one.can_redo, two.can_redo);
  EXPECT_EQ(one.suspects.front().suspicion, two.suspects.front().suspicion);
}

TEST(CaseFile, EveryTruncationIsRefusedWithItsName) {
  const std::string text = full_case();
  for (std::size_t size = 0; size + 2 < text.size(); size += 7) {
    EXPECT_THAT(complaint_about(text.substr(0, size)), HasSubstr("case.json")) << size;
  }
}

TEST(CaseFile, SaysWhatIsWrongAndWhere) {
  const std::string text = full_case();
  EXPECT_THAT(complaint_about(with(text, "\"schema\": 1", "\"schema\": 2")),
              HasSubstr("newer version of this program"));
  EXPECT_THAT(complaint_about(with(text, "dryout-case", "recipe")), HasSubstr("no case file"));
  EXPECT_THAT(complaint_about(with(text, "\"hums\"", "\"hum\"")),
              testing::AllOf(HasSubstr("/journal/2"), HasSubstr("did you mean \"hums\"?")));
  EXPECT_THAT(complaint_about(with(text, "\"lantern\"", "\"lamp\"")),
              testing::AllOf(HasSubstr("/journal/0"), HasSubstr("unknown equipment")));
  EXPECT_THAT(complaint_about(with(text, "\"value\": 2.4", "\"value\": -2.4")),
              HasSubstr("this reading is not possible"));
  EXPECT_THAT(complaint_about(with(text, "\"value\": 2.4", "\"value\": \"2.4\"")),
              HasSubstr("/journal/8/command/value"));
  EXPECT_THAT(complaint_about(with(text, "\"value\": 2.4", "\"value\": 1e999")),
              HasSubstr("case.json"));
  EXPECT_THAT(complaint_about(with(text, "\"do\": \"heed\"", "\"do\": \"hack\"")),
              HasSubstr("unknown command"));
  EXPECT_THAT(complaint_about(with(text, "\"at\": ", "\"at\": -")), HasSubstr("/journal/0/at"));
  EXPECT_THAT(complaint_about(with(text, "\"undo\": ", "\"undo\": 10")), HasSubstr("/journal/19"));
  EXPECT_THAT(complaint_about(with(text, "\"journal\"", "\"diary\"")), HasSubstr("/diary"));
}

TEST(CaseFile, ACaseBeginsWithItsIntake) {
  const std::string head = R"({"format":"dryout-case","schema":1,"journal":[)";
  EXPECT_THAT(complaint_about(head + "]}"), HasSubstr("begins with its intake"));
  EXPECT_THAT(complaint_about(head + R"({"at":1,"command":{"do":"note","text":"x"}}]})"),
              HasSubstr("begins with its intake"));
  EXPECT_THAT(complaint_about(head + R"({"at":1,"undo":1}]})"),
              HasSubstr("begins with its intake"));
  EXPECT_THAT(complaint_about(head + R"({"at":1}]})"), HasSubstr("one of command, undo, redo"));
  EXPECT_THAT(complaint_about(head + R"({"at":1.5,"undo":1}]})"), HasSubstr("whole seconds"));
}

TEST(CaseFile, UndoAndRedoMustNameWhatTheyCould) {
  const std::string head =
      R"({"format":"dryout-case","schema":1,"journal":[{"at":1,"command":)"
      R"({"do":"take-in","equipment":"lantern"}},{"at":2,"command":{"do":"note","text":"x"}},)";
  EXPECT_EQ(complaint_about(head + R"({"at":3,"undo":2},{"at":4,"redo":2}]})"), "");
  EXPECT_THAT(complaint_about(head + R"({"at":3,"undo":1}]})"), HasSubstr("/journal/2"));
  EXPECT_THAT(complaint_about(head + R"({"at":3,"undo":3}]})"), HasSubstr("/journal/2"));
  EXPECT_THAT(complaint_about(head + R"({"at":3,"redo":2}]})"), HasSubstr("/journal/2"));
  EXPECT_THAT(complaint_about(head + R"({"at":3,"undo":2},{"at":4,"undo":2}]})"),
              HasSubstr("/journal/3"));
}

TEST(CaseFile, AnEndlessJournalIsRefused) {
  std::string text = R"({"format":"dryout-case","schema":1,"journal":[{"at":1,"command":)"
                     R"({"do":"take-in","equipment":"lantern"}})";
  for (int i = 0; i < 6000; ++i) {
    text += R"(,{"at":2,"command":{"do":"note","text":"x"}})";
  }
  EXPECT_THAT(complaint_about(text + "]}"), HasSubstr("too many entries"));
}

}  // namespace
}  // namespace dryout::casework
