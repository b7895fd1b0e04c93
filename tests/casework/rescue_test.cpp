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
#include "casework/missing_cases.h"
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

/// Notes 1 to 3 are steps 2 to 4, and step 5 takes step 3 back.
class RescuedText : public testing::Test {
 protected:
  void SetUp() override {
    const auto workshop = open_workshop();
    const auto number = start_lantern(*workshop);
    for (const char* note : {"first", "second"}) {
      apply_ok(*workshop, number, AddNote{note});
    }
    ASSERT_TRUE(workshop->undo(number).ok());  // of step 3
    apply_ok(*workshop, number, AddNote{"third"});
    text_ = *workshop->export_case(number);
  }
  [[nodiscard]] Rescue saved_of(const std::string& text) {
    write_file(folder_.file("case.json"), text);
    return *rescue(folder_.file("case.json"));
  }
  [[nodiscard]] std::string with(const std::string& what, const std::string& instead,
                                 std::size_t from = 0) const {
    std::string other = text_;
    const std::size_t at = other.find(what, from);
    EXPECT_NE(at, std::string::npos) << what;
    return other.replace(at, what.size(), instead);
  }
  [[nodiscard]] std::string unchained(std::string text) const {
    const std::size_t at = text.find("\"chain\"");
    return text.erase(at, text.find('\n', at) - at);
  }
  /// Where the entry of a note begins.
  [[nodiscard]] std::size_t entry_of_note(const std::string& note) const {
    return text_.rfind("\"at\"", text_.find(note));
  }

  dryout::tests::TemporaryFolder folder_;
  std::string text_;
};

TEST_F(RescuedText, ADamagedStepKeepsItsNumberWhateverOfItIsDamaged) {
  const std::size_t entry = entry_of_note("first");
  const std::size_t brace = text_.rfind('{', entry);
  std::vector<std::string> damaged = {
      with("\"at\"", "\"ax\"", entry), with("\"at\": 1", "\"at\": x", entry),
      with("\"command\"", "\"comxand\"", entry), with("\"do\"", "\"d\"\"", entry)};
  damaged.push_back(text_);
  damaged.back()[brace] = '(';
  for (const std::string& text : damaged) {
    const Rescue saved = saved_of(unchained(text));
    ASSERT_THAT(saved.cases, SizeIs(1)) << text;
    EXPECT_THAT(saved.lost, Contains(HasSubstr("step 2: damaged"))) << text;
    const auto read = read_cases_text(saved.cases[0].text, "saved");
    ASSERT_TRUE(read.ok()) << text;
    ASSERT_THAT(read->front().journal, SizeIs(4)) << text;
    const auto* undo = std::get_if<Undo>(&read->front().journal[2].act);
    ASSERT_NE(undo, nullptr) << text;
    EXPECT_EQ(undo->of, 2) << "of \"second\", which is now the second step: " << text;
  }
}

// Nothing says how many steps lay there: what takes back a step by its number could hit another.
TEST_F(RescuedText, WhereTheCountIsUnsureNothingIsTakenBack) {
  const std::size_t brace = text_.rfind('{', entry_of_note("first"));
  const std::size_t wiped = text_.find("first") - brace;
  std::string text = text_;
  text.replace(brace, wiped, wiped, '?');
  const Rescue saved = saved_of(unchained(text));
  ASSERT_THAT(saved.cases, SizeIs(1));
  const auto read = read_cases_text(saved.cases[0].text, "saved");
  ASSERT_TRUE(read.ok());
  for (const auto& entry : read->front().journal) {
    EXPECT_TRUE(std::holds_alternative<Command>(entry.act));
  }
  EXPECT_GE(saved.lost.size(), 2U) << "the wiped step, and what took one back";
}

TEST_F(RescuedText, WhatTakesBackADamagedStepIsLostToo) {
  const Rescue saved = saved_of(unchained(with("\"at\"", "\"ax\"", entry_of_note("second"))));
  EXPECT_THAT(saved.lost,
              ElementsAre(HasSubstr("step 3: damaged"), HasSubstr("step 4: takes back")));
  EXPECT_EQ(saved.cases[0].steps, 3);
}

TEST_F(RescuedText, ABlockThatIsGoneMakesNoStepOfAnother) {
  std::string text = unchained(text_);
  const std::size_t begin = text.find("first");
  const std::size_t end = text.find("second");
  text.replace(begin, end - begin, end - begin, '\0');
  const Rescue saved = saved_of(text);
  EXPECT_THAT(saved.lost, Contains(HasSubstr("cannot be told")));
  EXPECT_THAT(saved.cases[0].text, testing::Not(HasSubstr("undo")));
}

TEST_F(RescuedText, AChainThatIsNotThatOfItsStepsIsSaidAndNotMadeAnew) {
  const std::size_t last = text_.rfind('{', entry_of_note("third"));
  std::string cut_last = text_;
  const std::size_t comma = text_.rfind(',', last);
  cut_last.erase(comma, text_.rfind(']') - comma);
  for (const std::string& text : {with("second", "decond"), cut_last}) {
    ASSERT_FALSE(read_cases_text(text, "case.json").ok()) << "import refuses it";
    const Rescue saved = saved_of(text);
    EXPECT_THAT(saved.lost, ElementsAre(HasSubstr("not those that were written"))) << text;
    EXPECT_FALSE(saved.cases[0].chained);
    EXPECT_THAT(saved.cases[0].text, testing::Not(HasSubstr("\"chain\"")));
    EXPECT_TRUE(read_cases_text(saved.cases[0].text, "saved").ok());
  }
  const Rescue whole = saved_of(text_);
  EXPECT_THAT(whole.lost, IsEmpty());
  EXPECT_EQ(whole.cases[0].text, text_);
  const Rescue without = saved_of(unchained(text_));
  EXPECT_THAT(without.lost, IsEmpty());
  EXPECT_EQ(without.cases[0].text.find("\"chain\""), std::string::npos);
}

TEST_F(RescueTest, WhatTheCheckSaysOfTheRecordsTheRescueSaysToo) {
  const std::string bytes = read_file(path_);
  for (const char* sql :
       {"DELETE FROM event WHERE bench_case = 2 AND sequence >= 6; UPDATE case_head SET steps = 5 "
        "WHERE bench_case = 2",
        "PRAGMA foreign_keys = OFF; DELETE FROM event WHERE bench_case = 2; DELETE FROM case_head "
        "WHERE bench_case = 2; DELETE FROM bench_case WHERE number = 2",
        "DELETE FROM case_head WHERE bench_case = 2",
        "UPDATE case_head SET digest = zeroblob(32) WHERE bench_case = 2"}) {
    write_file(path_, bytes);
    {
      const auto database = casestore::Database::open(path_);
      ASSERT_TRUE((*database)->run(sql).ok()) << sql;
      ASSERT_TRUE((*database)->run("VACUUM").ok());
    }
    EXPECT_FALSE(open_workshop(path_)->check_integrity().ok()) << sql;
    const auto saved = rescue(path_);
    ASSERT_TRUE(saved.ok());
    EXPECT_THAT(saved->lost, testing::Not(IsEmpty())) << sql;
    LeftOut left_out;
    (void)open_workshop(path_)->export_all(&left_out);
    EXPECT_FALSE(left_out.empty() && missing_cases(path_).empty()) << sql;
  }
}

}  // namespace
}  // namespace dryout::casework
