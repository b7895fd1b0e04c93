// Two benches that share cases: nothing is doubled, nothing is lost, and where they went on
// differently both are kept and said so.
#include "casework/case_exchange.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <set>

#include "casework/invented_bench.h"
#include "casework/workshop.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

class CaseExchangeTest : public testing::Test {
 protected:
  CaseExchangeTest() : number_(start_lantern(*here_)) {
    apply_ok(*here_, number_, ReportSymptom{"hums"});
  }
  static std::vector<Arrival> arrivals(Workshop& at, const std::string& text) {
    const auto report = at.import_cases(text, "cases.json");
    EXPECT_TRUE(report.ok()) << (report ? "" : quantities::describe(report.problems()));
    std::vector<Arrival> arrivals;
    for (const ArrivedCase& each : report->cases) {
      arrivals.push_back(each.arrival);
    }
    return arrivals;
  }
  void hand_over() { EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::added)); }
  std::string text() const { return *here_->export_case(number_); }
  static std::size_t cases_at(const Workshop& workshop) { return workshop.cases()->size(); }

  std::unique_ptr<Workshop> here_ = open_workshop();
  std::unique_ptr<Workshop> there_ = open_workshop();
  std::int64_t number_ = 0;
};

TEST_F(CaseExchangeTest, TwiceTakenInIsOnceThere) {
  hand_over();
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::known));
  EXPECT_EQ(cases_at(*there_), 1U);
  EXPECT_THAT(arrivals(*here_, text()), ElementsAre(Arrival::known)) << "back where it came from";
  EXPECT_EQ(*there_->export_case(1), text());
}

TEST_F(CaseExchangeTest, AFileOfManyIsTakenInCaseByCase) {
  for (int i = 0; i < 450; ++i) (void)start_lantern(*here_);
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("all.json");
  std::ofstream(path) << *here_->export_all();
  EXPECT_TRUE(read_back(path, path, 451).ok());
  EXPECT_FALSE(read_back(path, path, 450).ok());
  const auto report = there_->import_many(path);
  ASSERT_TRUE(report.ok()) << quantities::describe(report.problems());
  EXPECT_EQ(report->counts[static_cast<std::size_t>(Arrival::added)], 451U);
  EXPECT_EQ(*there_->export_all(), *here_->export_all());
  std::string all = *here_->export_all();
  const std::size_t last = all.rfind("\"take-in\"");
  all.replace(last, 9, "\"take-out\"");
  std::ofstream(path) << all;
  const auto empty = open_workshop();
  const auto refused = empty->import_many(path);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(cases_at(*empty), 0U) << "all are looked at before any is written";
  EXPECT_THAT(refused.problems().front().place.pointer, HasSubstr("/cases/450"));
  EXPECT_GT(refused.problems().front().place.line, 1000);
}

TEST_F(CaseExchangeTest, WhatWentOnElsewhereIsAddedAtTheEnd) {
  hand_over();
  apply_ok(*here_, number_, AddNote{"second look"});
  (void)here_->undo(number_);
  (void)there_->view(1);  // what it has read so far must not hide what comes
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::extended));
  EXPECT_EQ(*there_->export_case(1), text());
  EXPECT_TRUE(there_->view(1)->can_redo);
  EXPECT_EQ(cases_at(*there_), 1U);
}

TEST_F(CaseExchangeTest, AnOlderCopyChangesNothing) {
  const std::string older = text();
  apply_ok(*here_, number_, AddNote{"second look"});
  const std::string newer = text();
  const auto report = here_->import_cases(older, "cases.json");
  EXPECT_EQ(report->cases.front().arrival, Arrival::known);
  EXPECT_THAT(report->cases.front().sentence, HasSubstr("1 step longer: it stays"));
  EXPECT_EQ(text(), newer);
}

/// What one bench closes and the other, too, takes a person to bring together.
CloseCase closing(const std::string& summary) { return CloseCase{"", summary}; }

TEST_F(CaseExchangeTest, AConflictKeepsBothAndSaysSo) {
  hand_over();
  apply_ok(*here_, number_, closing("here: a dry joint"));
  apply_ok(*there_, 1, closing("there: a dry capacitor"));
  const auto report = there_->import_cases(text(), "cases.json");
  ASSERT_TRUE(report.ok()) << quantities::describe(report.problems());
  EXPECT_EQ(report->cases.front().arrival, Arrival::kept_both);
  EXPECT_EQ(report->cases.front().number, 2);
  EXPECT_EQ(report->cases.front().set_name, "Lantern 40");
  EXPECT_EQ(report->cases.front().sentence,
            "case 1 and this one part after 2 steps: both are kept, this one as case 2");
  EXPECT_THAT(there_->view(1)->log.back().text, HasSubstr("there: a dry capacitor"));
  EXPECT_THAT(there_->view(2)->log.back().text, HasSubstr("here: a dry joint"));
}

TEST_F(CaseExchangeTest, WhereBothOnlyAddedTheyAreBroughtTogether) {
  hand_over();
  apply_ok(*here_, number_, AddNote{"here: the back is off"});
  apply_ok(*here_, number_, AddNote{"here: dust blown out"});
  apply_ok(*there_, 1, AddNote{"there: the owner called"});
  const auto report = there_->import_cases(text(), "cases.json");
  ASSERT_TRUE(report.ok()) << quantities::describe(report.problems());
  EXPECT_EQ(report->cases.front().arrival, Arrival::merged);
  EXPECT_EQ(report->cases.front().sentence,
            "case 1 and this one both went on after 2 steps and only added to it: 2 steps of the "
            "other bench added");
  EXPECT_EQ(cases_at(*there_), 1U);
  const auto log = there_->view(1)->log;
  ASSERT_THAT(log, SizeIs(5));
  EXPECT_EQ(log[2].text, "Note: there: the owner called");
  EXPECT_EQ(log[4].text, "Note: here: dust blown out");
  EXPECT_TRUE(there_->check_integrity().ok());
  // Again, and the other way round: in the end both have every step, and nobody has two cases.
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::known));
  EXPECT_THAT(arrivals(*here_, *there_->export_case(1)), ElementsAre(Arrival::merged));
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::known));
  EXPECT_THAT(here_->view(number_)->log, SizeIs(5));
}

TEST_F(CaseExchangeTest, WhereBothToldAnotherThingOfOneSymptomNobodyGuesses) {
  hand_over();
  const std::string symptom = here_->view(number_)->symptoms.front().id;
  apply_ok(*here_, number_, ReportSymptom{symptom, Seen::yes});
  apply_ok(*there_, 1, ReportSymptom{symptom, Seen::no});
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::kept_both));
}

TEST_F(CaseExchangeTest, WhereOneSideTookAStepBackNobodyGuesses) {
  hand_over();
  apply_ok(*here_, number_, AddNote{"here"});
  apply_ok(*there_, 1, AddNote{"there"});
  ASSERT_TRUE(there_->undo(1).ok());
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::kept_both));
}

TEST_F(CaseExchangeTest, TwoReadingsOfTheSameSecondAreTwoSteps) {
  const Clock stopped = [] { return std::int64_t{1'772'700'000}; };
  const auto here = std::move(*Workshop::open(":memory:", invented_knowledge(), stopped));
  const auto there = std::move(*Workshop::open(":memory:", invented_knowledge(), stopped));
  const auto number = start_lantern(*here);
  EXPECT_THAT(arrivals(*there, *here->export_case(number)), ElementsAre(Arrival::added));
  apply_ok(*here, number, AddNote{"C12 reads 2.4 ohm"});
  apply_ok(*there, 1, AddNote{"C12 reads 6.4 ohm"});
  EXPECT_THAT(arrivals(*there, *here->export_case(number)), ElementsAre(Arrival::merged));
  const auto log = there->view(1)->log;
  EXPECT_EQ(log[log.size() - 2].text, "Note: C12 reads 6.4 ohm");
  EXPECT_EQ(log.back().text, "Note: C12 reads 2.4 ohm");
}

TEST_F(CaseExchangeTest, AConflictTakenInAgainMakesNoThirdCase) {
  hand_over();
  apply_ok(*here_, number_, closing("here"));
  apply_ok(*there_, 1, closing("there"));
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::kept_both));
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::known));
  apply_ok(*here_, number_, ReopenCase{"and on"});
  EXPECT_THAT(arrivals(*there_, text()), ElementsAre(Arrival::extended)) << "its own branch";
  EXPECT_EQ(cases_at(*there_), 2U);
  // Everything back: here nothing of it is new but the other bench's own branch.
  EXPECT_THAT(arrivals(*here_, *there_->export_all()),
              ElementsAre(Arrival::kept_both, Arrival::known));
  EXPECT_THAT(arrivals(*here_, *there_->export_all()), ElementsAre(Arrival::known, Arrival::known));
  EXPECT_EQ(cases_at(*here_), 2U);
}

TEST_F(CaseExchangeTest, ThreeBenchesMakeThreeBranches) {
  const auto third = open_workshop();
  hand_over();
  EXPECT_THAT(arrivals(*third, text()), ElementsAre(Arrival::added));
  apply_ok(*here_, number_, closing("one"));
  apply_ok(*there_, 1, closing("two"));
  apply_ok(*third, 1, closing("three"));
  EXPECT_THAT(arrivals(*here_, *there_->export_case(1)), ElementsAre(Arrival::kept_both));
  EXPECT_THAT(arrivals(*here_, *third->export_case(1)), ElementsAre(Arrival::kept_both));
  EXPECT_THAT(arrivals(*here_, *third->export_case(1)), ElementsAre(Arrival::known));
  EXPECT_EQ(cases_at(*here_), 3U);
}

TEST_F(CaseExchangeTest, WhatAFileBroughtIsToldInAWord) {
  hand_over();
  const auto again = there_->import_cases(text(), "cases.json");
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(told(*again), again->cases.front().sentence + '.');
  (void)start_lantern(*here_);
  (void)start_lantern(*here_);
  const auto all = there_->import_cases(*here_->export_all(), "all.json");
  ASSERT_TRUE(all.ok());
  EXPECT_EQ(told(*all), "2 new, 1 here already.");
  EXPECT_EQ(told(ImportReport{}), "No case.");
}

TEST_F(CaseExchangeTest, EveryWayOfArrivingHasAWordOfItsOwn) {
  const std::set<std::string_view> words{word_of(Arrival::added), word_of(Arrival::known),
                                         word_of(Arrival::extended), word_of(Arrival::merged),
                                         word_of(Arrival::kept_both)};
  EXPECT_EQ(words,
            (std::set<std::string_view>{"added", "known", "extended", "merged", "kept-both"}));
}

TEST_F(CaseExchangeTest, AFileIsReadByTheWayThatWasGivenAndRefusedWithoutOne) {
  const auto without = there_->import_file("cases.json");
  ASSERT_FALSE(without.ok());
  EXPECT_THAT(quantities::describe(without.problems()), HasSubstr("no way to reach files"));
  OwnFiles files;
  files.read = [&](const std::string& path) -> quantities::Result<std::string> {
    if (path == "cases.json") {
      return text();
    }
    return quantities::Problem{"no such file", {path, 0, {}}, "", ""};
  };
  there_->give_files(files);
  const auto report = there_->import_file("cases.json");
  ASSERT_TRUE(report.ok()) << quantities::describe(report.problems());
  ASSERT_THAT(report->cases, SizeIs(1));
  EXPECT_EQ(report->cases.front().arrival, Arrival::added);
  const auto missing = there_->import_file("elsewhere.json");
  ASSERT_FALSE(missing.ok());
  EXPECT_THAT(quantities::describe(missing.problems()), HasSubstr("elsewhere.json"));
}

TEST_F(CaseExchangeTest, AllCasesGoInOneFile) {
  for (int i = 0; i < 5; ++i) {
    (void)start_lantern(*here_);
  }
  const std::string all = *here_->export_all();
  EXPECT_THAT(arrivals(*there_, all), SizeIs(6));
  EXPECT_EQ(*there_->export_all(), all);
  EXPECT_THAT(arrivals(*there_, all), testing::Each(Arrival::known));
  EXPECT_TRUE(there_->check_integrity().ok());
}

TEST_F(CaseExchangeTest, OneBadCaseRefusesTheWholeFile) {
  (void)start_lantern(*here_);
  std::string all = *here_->export_all();
  const auto last = all.rfind("\"lantern\"");
  all.replace(last, 9, "\"lamp\"");
  const auto chain = all.rfind("\"chain\"");  // as in a file of an earlier version
  all.erase(chain, all.find(',', chain) + 1 - chain);
  const auto report = there_->import_cases(all, "cases.json");
  ASSERT_FALSE(report.ok());
  EXPECT_THAT(quantities::describe(report.problems()),
              testing::AllOf(HasSubstr("cases.json"), HasSubstr("/cases/1/journal/0")));
  EXPECT_EQ(cases_at(*there_), 0U);
}

TEST_F(CaseExchangeTest, AFileFromBeforeIdentitiesIsStillOneCase) {
  std::string old = text();
  const auto from = old.find("\"identity\"");
  old.erase(from, old.find("\"journal\"") - from);
  EXPECT_THAT(arrivals(*there_, old), ElementsAre(Arrival::added));
  EXPECT_THAT(arrivals(*there_, old), ElementsAre(Arrival::known));
}

TEST_F(CaseExchangeTest, AnIdentityIsAPlainId) {
  std::string text = this->text();
  const auto from = text.find("\"identity\": \"") + 13;
  text.replace(from, 4, "';--");
  EXPECT_FALSE(there_->import_cases(text, "cases.json").ok());
  EXPECT_EQ(cases_at(*there_), 0U);
}

TEST_F(CaseExchangeTest, ImportOfOneCaseWantsOneCase) {
  (void)start_lantern(*here_);
  const auto refused = there_->import_case(*here_->export_all(), "cases.json");
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()), HasSubstr("not one case"));
}

}  // namespace
}  // namespace dryout::casework
