// Every single call to the disk fails once, and once for good, in everything the store does. After
// each: the message names the file and what happened, the store opens again, what was acknowledged
// is there, and what was refused is not there by half.
#include "casestore/failing_disk.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <optional>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "casestore/migrations.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;
using quantities::Problems;
using quantities::Result;

constexpr Trouble troubles[] = {Trouble::read, Trouble::write,    Trouble::full,  Trouble::sync,
                                Trouble::open, Trouble::truncate, Trouble::remove};

/// What an operation said.
struct Said {
  bool acknowledged = false;
  Problems problems;
};

template <class T>
Said said(const Result<T>& result) {
  return result ? Said{true, {}} : Said{false, result.problems()};
}

/// Every journal in the store, so that two states can be told apart.
using Journals = std::vector<std::string>;

class FailingDiskTest : public testing::Test {
 protected:
  static CaseFacts facts(const std::string& name) {
    CaseFacts made;
    made.set_name = name;
    made.notes = std::string(300, 'n');
    return made;
  }

  /// A store with two cases of a few steps.
  void make_store(const std::string& path) const {
    auto store = CaseStore::open(path);
    ASSERT_TRUE(store.ok());
    for (const char* name : {"Tidelight", "Morgenstern"}) {
      const auto number = store->create_case(facts(name), {{10, "take-in", "{}"}});
      ASSERT_EQ(
          *store->append_event(*number, 1, {20, "add-note", "{\"text\":\"one\"}"}, facts(name)),
          Appended::written);
    }
  }

  /// With the disk healed: opens, is sound, and what it holds.
  Journals journals(const std::string& path) {
    disk_.heal();
    const auto store = CaseStore::open(path);
    EXPECT_TRUE(store.ok()) << where_ << quantities::describe(store.problems());
    Journals all;
    if (!store) {
      return all;
    }
    const auto sound = store->check_integrity();
    EXPECT_TRUE(sound.ok()) << where_ << quantities::describe(sound.problems());
    const std::vector<CaseRow> rows = *store->list();
    for (const CaseRow& row : rows) {
      std::string text = row.facts.set_name;
      const auto events = store->events(row.number);
      EXPECT_TRUE(events.ok()) << where_ << (events ? "" : quantities::describe(events.problems()));
      for (const EventRow& event : *events) {
        text += '|' + event.kind + event.body;
      }
      all.push_back(text);
    }
    return all;
  }

  void expect_told(const Said& answer) const {
    ASSERT_FALSE(answer.problems.empty()) << where_;
    const quantities::Problem& problem = answer.problems.front();
    EXPECT_NE(problem.place.file.find(folder_.path().string()), std::string::npos) << where_;
    EXPECT_FALSE(problem.message.empty()) << where_;
    EXPECT_FALSE(problem.found.empty()) << where_ << problem.message;
    EXPECT_FALSE(problem.accepted.empty()) << where_ << problem.message;
  }

  /// Fails one call after another of `work`, until it is through before its turn comes; of the
  /// later ones only some, unless DRYOUT_EVERY_CALL is set. `prepare` lays a fresh state out;
  /// `work` answers what it was told; `look` holds the state afterwards against that answer.
  void sweep(const std::function<void()>& prepare, const std::function<Said()>& work,
             const std::function<void(const Said&)>& look) {
    const bool every_call = std::getenv("DRYOUT_EVERY_CALL") != nullptr;
    for (const Trouble trouble : troubles) {
      for (const bool for_good : {false, true}) {
        for (int nth = 1; sweep_one(prepare, work, look, trouble, nth, for_good);
             nth += every_call ? 1 : 1 + nth / 12) {
          ASSERT_FALSE(HasFailure()) << where_;
          ASSERT_LT(nth, 5000) << "it never comes to an end: " << where_;
        }
      }
    }
    RecordProperty("calls_failed", failures_);
  }

  bool sweep_one(const std::function<void()>& prepare, const std::function<Said()>& work,
                 const std::function<void(const Said&)>& look, Trouble trouble, int nth,
                 bool for_good) {
    where_ = std::string(word_of(trouble)) + ' ' + std::to_string(nth) +
             (for_good ? ", and all later ones: " : ": ");
    fs::remove_all(folder_.path());
    fs::create_directory(folder_.path());
    prepare();
    disk_.fail(trouble, nth, for_good);
    const Said answer = work();
    disk_.heal();
    const bool struck = disk_.has_failed();
    failures_ += struck ? 1 : 0;
    if (!answer.acknowledged) {
      EXPECT_TRUE(struck) << where_ << quantities::describe(answer.problems);
      expect_told(answer);
    }
    look(answer);
    return struck;
  }

  dryout::tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string backup_ = folder_.file("backup.db");
  FailingDisk disk_;
  std::string where_;
  int failures_ = 0;
};

TEST_F(FailingDiskTest, AStoreIsMadeOrCanBeMadeAfterwards) {
  sweep([] {}, [&] { return said(CaseStore::open(path_)); },
        [&](const Said&) { EXPECT_EQ(journals(path_), Journals{}) << where_; });
}

TEST_F(FailingDiskTest, AnEventIsWrittenOrNot) {
  Journals before;
  sweep(
      [&] {
        make_store(path_);
        before = journals(path_);
      },
      [&] {
        auto store = CaseStore::open(path_);
        if (!store) {
          return said(store);
        }
        return said(store->append_event(1, 2, {30, "add-note", std::string(9000, 'x')},
                                        facts("Tidelight at length")));
      },
      [&](const Said& answer) {
        const Journals after = journals(path_);
        EXPECT_EQ(after != before, answer.acknowledged) << where_;
        EXPECT_EQ(after.size(), 2U) << where_;
      });
}

TEST_F(FailingDiskTest, TheStoreThatWasRefusedOnceGoesOn) {
  sweep([&] { make_store(path_); },
        [&] {
          auto store = CaseStore::open(path_);
          if (!store) {
            return said(store);
          }
          const Said first =
              said(store->append_event(1, 2, {30, "add-note", "{}"}, facts("Tidelight")));
          if (!first.acknowledged) {
            disk_.heal();
            const auto seen = store->newest_event(1);
            EXPECT_EQ(seen ? *seen : -1, 2) << where_ << "what was refused is not there";
            EXPECT_TRUE(store->append_event(1, 2, {31, "add-note", "{}"}, facts("Tidelight")).ok())
                << where_;
          }
          return first;
        },
        [&](const Said&) { EXPECT_EQ(journals(path_).size(), 2U) << where_; });
}

TEST_F(FailingDiskTest, CasesFromAnotherBenchComeAllOrNone) {
  const std::vector<NewCase> fresh{{"aa", facts("Larkfield"), {{1, "take-in", "{}"}}},
                                   {"bb", facts("Tarnbeck"), {{2, "take-in", "{}"}}}};
  sweep([&] { make_store(path_); },
        [&] {
          auto store = CaseStore::open(path_);
          return store ? said(store->create_cases(fresh)) : said(store);
        },
        [&](const Said& answer) {
          EXPECT_EQ(journals(path_).size(), answer.acknowledged ? 4U : 2U) << where_;
        });
}

TEST_F(FailingDiskTest, ABackupThatExistsIsWhole) {
  Journals before;
  sweep(
      [&] {
        make_store(path_);
        before = journals(path_);
      },
      [&] {
        const auto store = CaseStore::open(path_);
        return store ? said(store->backup(backup_)) : said(store);
      },
      [&](const Said& answer) {
        EXPECT_EQ(fs::exists(backup_), answer.acknowledged) << where_;
        EXPECT_EQ(unfinished_in(folder_.path()), 0) << where_;
        if (answer.acknowledged) {
          EXPECT_EQ(journals(backup_), before) << where_;
        }
        EXPECT_EQ(journals(path_), before) << where_;
      });
}

TEST_F(FailingDiskTest, ABackupComesBackWholeOrNotAtAll) {
  Journals early;
  Journals late;
  sweep(
      [&] {
        make_store(path_);
        early = journals(path_);
        auto store = CaseStore::open(path_);
        ASSERT_TRUE(store->backup(backup_).ok());
        ASSERT_TRUE(store->create_case(facts("late"), {{9, "take-in", "{}"}}).ok());
        late = early;
        late.push_back("late|take-in{}");
      },
      [&] { return said(CaseStore::restore(backup_, path_)); },
      [&](const Said& answer) {
        EXPECT_EQ(journals(path_), answer.acknowledged ? early : late) << where_;
        EXPECT_EQ(journals(backup_), early) << where_;
        EXPECT_EQ(unfinished_in(folder_.path()), 0) << where_;
      });
}

/// A sound store is replaced where it stands, never moved away: whoever has it open would go on
/// writing to a file that nobody opens again.
TEST_F(FailingDiskTest, WhoHasTheStoreOpenGoesOnWhetherTheBackupComesBackOrNot) {
  std::optional<CaseStore> other;
  sweep(
      [&] {
        make_store(path_);
        other = std::move(*CaseStore::open(path_));
        ASSERT_TRUE(other->backup(backup_).ok());
        ASSERT_TRUE(other->create_case(facts("late"), {{9, "take-in", "{}"}}).ok());
      },
      [&] { return said(CaseStore::restore(backup_, path_)); },
      [&](const Said& answer) {
        const auto number = other->create_case(facts("next"), {{10, "take-in", "{}"}});
        EXPECT_TRUE(number.ok()) << where_
                                 << (number ? "" : quantities::describe(number.problems()));
        other.reset();
        EXPECT_EQ(journals(path_).size(), answer.acknowledged ? 3U : 4U) << where_;
      });
}

TEST_F(FailingDiskTest, ARuinIsStillThereWhenTheBackupDoesNotComeBack) {
  const std::string ruin(8000, 'r');
  sweep(
      [&] {
        make_store(folder_.file("other.db"));
        ASSERT_TRUE(CaseStore::open(folder_.file("other.db"))->backup(backup_).ok());
        std::ofstream(path_) << ruin;
      },
      [&] { return said(CaseStore::restore(backup_, path_)); },
      [&](const Said& answer) {
        const std::string kept = answer.acknowledged ? path_ + ".before-restore" : path_;
        std::string found(ruin.size(), ' ');
        std::ifstream(kept).read(found.data(), static_cast<std::streamsize>(found.size()));
        EXPECT_EQ(found, ruin) << where_;
      });
}

TEST_F(FailingDiskTest, AnOlderStoreIsMigratedOrStaysAsItWas) {
  const auto make_old = [&] {
    std::ofstream(path_).close();
    const auto old = Database::open(path_);
    ASSERT_TRUE(
        (*old)
            ->run(migration_1() +
                  "INSERT INTO bench_case VALUES (1, 5, 5, 'e', 'Morgenstern', NULL, 'o', 'hums',"
                  "'', 0, ''); INSERT INTO event VALUES (1, 1, 5, 'take-in', '{}');"
                  "PRAGMA user_version = 1; PRAGMA application_id = " +
                  std::to_string(application_id))
            .ok());
  };
  const auto version = [&] {
    const auto database = Database::open(path_);
    return *(*database)->number("PRAGMA user_version");
  };
  sweep(
      make_old, [&] { return said(CaseStore::open(path_)); },
      [&](const Said& answer) {
        const auto newest = static_cast<std::int64_t>(migrations().size());
        EXPECT_EQ(version(), answer.acknowledged ? newest : 1) << where_;
        EXPECT_EQ(journals(path_), Journals{"Morgenstern|take-in{}"}) << where_;
        EXPECT_TRUE(fs::exists(path_ + ".version-1.backup")) << where_;
      });
}

}  // namespace
}  // namespace dryout::casestore
