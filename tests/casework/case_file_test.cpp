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
using testing::AllOf;
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

/// As files of earlier versions are, and those that somebody wrote by hand.
std::string without_chains(std::string text) {
  constexpr std::string_view member = "\"chain\":";
  for (std::size_t at = text.find(member); at != std::string::npos; at = text.find(member, at)) {
    text.erase(at, text.find(',', at) + 1 - at);
  }
  return text;
}

std::string complaint_about(const std::string& chained) {
  const std::string text = without_chains(chained);
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

TEST(CaseFile, StepsThatAreNotThoseExportedAreRefused) {
  const std::string text = full_case();
  const std::vector<std::pair<std::string, std::string>> forgeries = {
      {"\"value\": 2.4", "\"value\": 2.5"}, {"\"undo\": 3", "\"undo\": 4"}};
  for (const auto& [what, instead] : forgeries) {
    if (text.find(what) == std::string::npos) continue;
    const auto refused = open_workshop()->import_case(with(text, what, instead), "case.json");
    ASSERT_FALSE(refused.ok()) << what;
    EXPECT_THAT(quantities::describe(refused.problems()),
                AllOf(HasSubstr("case.json"), HasSubstr("not those that were written")));
  }
  const std::size_t last = text.rfind(",\n    {");
  ASSERT_NE(last, std::string::npos);
  std::string shorter = text.substr(0, last) + "\n  ]\n}\n";
  EXPECT_FALSE(open_workshop()->import_case(shorter, "case.json").ok()) << "a step cut off";
  const auto workshop = open_workshop();
  const auto plain = workshop->import_cases(without_chains(shorter), "case.json");
  ASSERT_TRUE(plain.ok()) << quantities::describe(plain.problems());
  EXPECT_EQ(plain->unchained, 1U);
  EXPECT_THAT(told(*plain), HasSubstr("without a chain"));
  EXPECT_EQ(open_workshop()->import_cases(text, "case.json")->unchained, 0U);
}

TEST(CaseFile, AsManyStepsAsThereAre) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  std::string text = without_chains(*workshop->export_case(number));
  std::string notes;
  for (int i = 0; i < 5'001; ++i) {
    notes += ",{\"at\": 1772600000, \"command\": {\"do\": \"note\", \"text\": \"n\"}}";
  }
  text.insert(text.rfind(']'), notes);
  const auto taken = open_workshop();
  const auto there = taken->import_case(text, "long.json");
  ASSERT_TRUE(there.ok()) << quantities::describe(there.problems());
  const std::string again = *taken->export_case(*there);
  EXPECT_TRUE(open_workshop()->import_case(again, "again.json").ok());
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

TEST(CaseFile, ALongJournalIsRead) {
  std::string text = R"({"format":"dryout-case","schema":1,"journal":[{"at":1,"command":)"
                     R"({"do":"take-in","equipment":"lantern"}})";
  for (int i = 0; i < 6000; ++i) {
    text += R"(,{"at":2,"command":{"do":"note","text":"x"}})";
  }
  EXPECT_THAT(complaint_about(text + "]}"), testing::IsEmpty());
}

}  // namespace
}  // namespace dryout::casework
