// What is saved of stores and case files that are damaged: every sound step, wherever the damage
// lies, and nothing that is not sound.
#include "casework/rescue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "casework/case_file.h"
#include "casework/invented_bench.h"
#include "casework/plain_log.h"
#include "casework/workshop.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

namespace fs = std::filesystem;
using namespace tests;  // NOLINT: the invented bench
using casestore::read_file;
using casestore::write_file;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class RescueTest : public testing::Test {
 protected:
  static constexpr int cases = 6;
  static constexpr int notes = 30;

  /// Notes of some length, so that the journals lie over several pages, one of them over a page by
  /// itself.
  void SetUp() override {
    const auto workshop = open_workshop(path_);
    for (int i = 0; i < cases; ++i) {
      const auto number = start_lantern(*workshop);
      for (int note = 0; note < notes; ++note) {
        apply_ok(*workshop, number, AddNote{text_of(i, note)});
      }
    }
    whole_ = *workshop->export_all();
  }
  static std::string text_of(int number, int note) {
    const std::size_t length = note == 7 ? 9000 : 100;
    return "note " + std::to_string(note) + " of " + std::to_string(number) + ' ' +
           std::string(length, 'n');
  }
  static int steps_in(const Rescue& rescue) {
    int steps = 0;
    for (const RescuedCase& each : rescue.cases) {
      steps += each.steps;
    }
    return steps;
  }
  static constexpr int all_steps = cases * (notes + 1);

  /// Whatever is saved is as it was written.
  void expect_true_steps(const Rescue& rescue) const {
    const auto sound = read_cases_text(whole_, "whole");
    for (const RescuedCase& each : rescue.cases) {
      const auto saved = read_cases_text(each.text, "saved");
      if (each.text.empty()) {
        continue;
      }
      ASSERT_TRUE(saved.ok()) << quantities::describe(saved.problems());
      const Journal& original = (*sound)[static_cast<std::size_t>(each.number - 1)].journal;
      for (const Entry& entry : saved->front().journal) {
        const auto same = [&](const Entry& other) {
          const auto a = to_event(entry);
          const auto b = to_event(other);
          return a.kind == b.kind && a.body == b.body && a.at == b.at;
        };
        const bool from_list =  // lists bear no seals, and what is taken from one is said
            to_event(entry).kind == "take-in" &&
            std::any_of(rescue.lost.begin(), rescue.lost.end(), [&](const std::string& line) {
              return line.find("case " + std::to_string(each.number) + ", step 1: ") == 0;
            });
        EXPECT_TRUE(from_list || std::any_of(original.begin(), original.end(), same))
            << "case " << each.number << ": a step that nobody wrote";
      }
    }
  }

  dryout::tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string whole_;
};

TEST_F(RescueTest, OfASoundStoreEverythingIsSavedAndIsTheSame) {
  const auto saved = rescue(path_);
  ASSERT_TRUE(saved.ok());
  EXPECT_THAT(saved->lost, IsEmpty());
  EXPECT_EQ(steps_in(*saved), all_steps);
  const auto sound = read_cases_text(whole_, "whole");
  for (std::size_t i = 0; i < saved->cases.size(); ++i) {
    EXPECT_EQ(saved->cases[i].text, case_text((*sound)[i]));
  }
  const auto elsewhere = open_workshop();
  EXPECT_TRUE(elsewhere->import_case(saved->cases.front().text, "saved").ok());
}

/// The log alone has the steps; the store's own file nothing of them yet.
TEST_F(RescueTest, StepsThatStandInTheLogAloneAreSaved) {
  const auto workshop = open_workshop(path_);
  apply_ok(*workshop, 1, AddNote{"only in the log"});
  const std::string copy = folder_.file("copy.db");
  write_file(copy, read_file(path_));
  write_file(copy + "-wal", read_file(path_ + "-wal"));
  EXPECT_THAT(rescue(copy)->cases.front().text, HasSubstr("only in the log"));
  write_file(copy, "");  // and where the store itself is gone
  EXPECT_THAT(rescue(copy)->cases.front().text, HasSubstr("only in the log"));
}

TEST_F(RescueTest, WithAnyPageWipedTheOthersAreSaved) {
  const std::string bytes = read_file(path_);
  constexpr std::size_t page = 4096;
  int worst = all_steps;
  for (std::size_t at = 0; at < bytes.size(); at += page) {
    std::string damaged = bytes;
    damaged.replace(at, page, page, '\0');
    write_file(path_, damaged);
    const auto saved = rescue(path_);
    ASSERT_TRUE(saved.ok()) << at;
    const int steps = steps_in(*saved);
    worst = std::min(worst, steps);
    EXPECT_GE(steps, all_steps - 40) << "one page holds no more than some 30 steps: " << at / page;
    if (steps < all_steps) {
      EXPECT_THAT(saved->lost, testing::Not(IsEmpty())) << at / page;
    }
    expect_true_steps(*saved);
  }
  EXPECT_LT(worst, all_steps) << "the sweep must hit something";
}

TEST_F(RescueTest, CutShortAnywhereItSavesWhatIsLeft) {
  const std::string bytes = read_file(path_);
  int before = -1;
  for (std::size_t part = 1; part <= 20; ++part) {
    write_file(path_, bytes.substr(0, bytes.size() * part / 20 - 1));
    const auto saved = rescue(path_);
    ASSERT_TRUE(saved.ok());
    EXPECT_GE(steps_in(*saved), before);
    before = steps_in(*saved);
    expect_true_steps(*saved);
  }
  EXPECT_GT(before, all_steps * 9 / 10);
}

TEST_F(RescueTest, WithBytesTurnedEverywhereNothingFalseIsSaved) {
  const std::string bytes = read_file(path_);
  for (std::size_t start = 0; start < 40; ++start) {
    std::string damaged = bytes;
    for (std::size_t at = start * 97; at < damaged.size(); at += 4001) {
      damaged[at] = static_cast<char>(damaged[at] ^ (1 << (at % 8)));
    }
    write_file(path_, damaged);
    const auto saved = rescue(path_);
    ASSERT_TRUE(saved.ok());
    EXPECT_GT(steps_in(*saved), 0);
    expect_true_steps(*saved);
  }
}

TEST_F(RescueTest, ALostIntakeIsTakenFromTheListAndSaidSo) {
  {
    const auto database = casestore::Database::open(path_);
    ASSERT_TRUE((*database)->run("DELETE FROM event WHERE bench_case = 2 AND sequence = 1").ok());
    ASSERT_TRUE((*database)->run("VACUUM").ok());
  }
  const auto saved = rescue(path_);
  EXPECT_THAT(saved->lost, ElementsAre(HasSubstr("case 2, step 1")));
  EXPECT_THAT(saved->lost.front(), HasSubstr("taken from the list of cases"));
  EXPECT_EQ(saved->cases[1].set_name, "Lantern 40");
  EXPECT_TRUE(open_workshop()->import_case(saved->cases[1].text, "saved").ok());
}

TEST_F(RescueTest, WhatTakesBackALostStepGoesWithIt) {
  const auto workshop = open_workshop(path_);
  ASSERT_TRUE(workshop->undo(1).ok());
  {
    const auto database = casestore::Database::open(path_);
    ASSERT_TRUE((*database)->run("DELETE FROM event WHERE bench_case = 1 AND sequence = 31").ok());
  }
  LeftOut left_out;
  const auto text = open_workshop(path_)->export_case(1, &left_out);
  ASSERT_TRUE(text.ok());
  EXPECT_THAT(left_out, ElementsAre(HasSubstr("step 31"), HasSubstr("step 31, which is gone")));
  EXPECT_TRUE(open_workshop()->import_case(*text, "saved").ok());
}

TEST_F(RescueTest, OfACaseFileThatIsCutShortTheWholeEntriesAreSaved) {
  const std::string one = *open_workshop(path_)->export_case(1);
  for (std::size_t part = 2; part <= 10; ++part) {
    const std::string cut = folder_.file("case.json");
    write_file(cut, one.substr(0, one.size() * part / 10 - 3));
    const auto saved = rescue(cut);
    ASSERT_TRUE(saved.ok());
    ASSERT_THAT(saved->cases, SizeIs(1)) << part;
    EXPECT_GT(saved->cases.front().steps, 0) << part;
    expect_true_steps(*saved);
  }
}

TEST_F(RescueTest, OfAFileOfManyCasesEachIsSavedByItself) {
  std::string text = whole_;
  const std::size_t at = text.find("note 3 of 2");
  text.replace(text.rfind("\"command\"", at), 1, "\xff");
  write_file(folder_.file("cases.json"), text);
  const auto saved = rescue(folder_.file("cases.json"));
  ASSERT_THAT(saved->cases, SizeIs(cases));
  EXPECT_EQ(steps_in(*saved), all_steps - 1);
  EXPECT_THAT(saved->lost, ElementsAre(HasSubstr("case 3, step 5")));
}

TEST_F(RescueTest, WhatIsNoStoreHasNoCases) {
  write_file(folder_.file("letter.txt"), "Dear Sir,\n" + std::string(20'000, 'x'));
  EXPECT_THAT(rescue(folder_.file("letter.txt"))->cases, IsEmpty());
  EXPECT_FALSE(rescue(folder_.file("missing")).ok());
}

TEST_F(RescueTest, APlainLogNeedsNoRules) {
  const auto log = plain_log(path_, 1);
  ASSERT_TRUE(log.ok()) << quantities::describe(log.problems());
  ASSERT_THAT(log->lines, SizeIs(notes + 1));
  EXPECT_EQ(log->lines.front().kind, "take-in");
  EXPECT_THAT(log->lines.front().text, HasSubstr("equipment lantern"));
  EXPECT_THAT(log->lines[1].text, HasSubstr("text note 0 of 0"));
  EXPECT_FALSE(plain_log(path_, 99).ok());
  write_file(path_, read_file(path_).substr(0, 30'000));  // no longer opens
  EXPECT_TRUE(plain_log(path_, 1).ok());
}

}  // namespace
}  // namespace dryout::casework
