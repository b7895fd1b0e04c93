// Stores that were cut short, or in which a bit has turned. Each gives either the cases as they
// were, or a sentence that says what is damaged; and the way on leads back to the cases.
#include <gtest/gtest.h>

#include <filesystem>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;

CaseFacts facts_named(const std::string& name) {
  CaseFacts facts;
  facts.equipment = "valve-receiver";
  facts.set_name = name;
  facts.complaint = "hums";
  facts.notes = "C12 read high";
  return facts;
}

/// The journal says all: its first event names the set.
std::optional<CaseFacts> facts_of_events(const std::vector<EventRow>& events) {
  return facts_named(events.front().body);
}

/// Which way a damaged file went.
enum class Outcome { as_it_was, said_at_once, said_when_asked, made_anew };

class DamagedStore : public testing::Test {
 protected:
  void SetUp() override {
    {
      auto store = CaseStore::open(path_);
      for (int i = 0; i < cases; ++i) {
        const std::string name = "Tidelight " + std::to_string(i);
        const auto number = store->create_case(facts_named(name), {{i, "take-in", name}});
        ASSERT_TRUE(store
                        ->append_event(*number, 1, {i + 100, "record-reading", "value 2.4"},
                                       facts_named(name))
                        .ok());
      }
      ASSERT_TRUE(store->backup(backup_).ok());
      sound_ = contents(*store).value();
    }
    bytes_ = read_file(path_);
  }

  /// All that a person sees, in one text; nothing where the store refuses any of it.
  static std::optional<std::string> contents(const CaseStore& store) {
    std::string all;
    const auto rows = store.list();
    if (!rows) {
      return {};
    }
    for (const CaseRow& row : *rows) {
      const auto events = store.events(row.number);
      if (!events) {
        return {};
      }
      all += std::to_string(row.number) + row.facts.set_name + row.facts.complaint +
             row.facts.equipment + std::to_string(row.changed_at) + (row.facts.closed ? "c" : "o");
      for (const EventRow& event : *events) {
        all += '|' + std::to_string(event.at) + event.kind + event.body;
      }
    }
    return all;
  }

  void expect_clear(const quantities::Problems& problems) const {
    ASSERT_FALSE(problems.empty());
    EXPECT_EQ(problems.front().place.file, path_) << quantities::describe(problems);
    EXPECT_FALSE(problems.front().message.empty());
    EXPECT_FALSE(problems.front().accepted.empty()) << quantities::describe(problems);
  }

  Outcome look_at(const std::string& damaged) {
    for (const char* suffix : {"", "-wal", "-shm"}) {
      fs::remove(path_ + suffix);
    }
    write_file(path_, damaged);
    auto store = CaseStore::open(path_);
    if (!store) {
      expect_clear(store.problems());
      return Outcome::said_at_once;
    }
    const auto found = contents(*store);
    const auto checked = store->check_integrity();
    if (!checked) {
      expect_clear(checked.problems());
      return Outcome::said_when_asked;
    }
    if (found == sound_) {
      return Outcome::as_it_was;
    }
    const auto rebuilt = store->rebuild_facts(facts_of_events, 1);
    EXPECT_TRUE(rebuilt.ok()) << quantities::describe(rebuilt.problems());
    EXPECT_EQ(contents(*store), sound_) << "a wrong answer that nothing noticed";
    return Outcome::made_anew;
  }

  /// However bad it is, the backup comes back and the damaged file is kept.
  void expect_way_on(const std::string& damaged) {
    const auto kept = CaseStore::restore(backup_, path_);
    ASSERT_TRUE(kept.ok()) << quantities::describe(kept.problems());
    const auto store = CaseStore::open(path_);
    EXPECT_EQ(contents(*store), sound_);
    EXPECT_EQ(fs::exists(*kept), !damaged.empty() || !kept->empty());
    fs::remove(*kept);
  }

  static constexpr int cases = 12;
  dryout::tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  std::string backup_ = folder_.file("backup.db");
  std::string bytes_;
  std::string sound_;
};

TEST_F(DamagedStore, CutShortAnywhereItSaysSoAndTheBackupComesBack) {
  constexpr std::size_t step = 3001;  // now inside a page, now near its edge
  for (std::size_t size = 1; size < bytes_.size(); size += step) {
    SCOPED_TRACE("cut to " + std::to_string(size));
    const std::string damaged = bytes_.substr(0, size);
    EXPECT_NE(look_at(damaged), Outcome::as_it_was);
    expect_way_on(damaged);
  }
}

TEST_F(DamagedStore, WithOneBitTurnedAnywhereNoCaseReadsWrongUnnoticed) {
  constexpr std::size_t header = 100;
  int noticed = 0;
  int harmless = 0;
  for (std::size_t at = 0; at < bytes_.size(); at += at < header ? 3 : 157) {
    SCOPED_TRACE("bit turned in byte " + std::to_string(at));
    std::string damaged = bytes_;
    damaged[at] = static_cast<char>(damaged[at] ^ (1 << (at % 8)));
    (look_at(damaged) == Outcome::as_it_was ? harmless : noticed) += 1;
    if (at % 40 == 0) {
      expect_way_on(damaged);
    }
  }
  EXPECT_GT(noticed, 50) << "the sweep must hit something";
  EXPECT_GT(harmless, 50) << "most of a file is empty space";
}

TEST_F(DamagedStore, AReadingThatTurnedIntoAnotherIsRefusedByItsSeal) {
  const std::size_t at = bytes_.find("value 2.4");
  ASSERT_NE(at, std::string::npos);
  std::string damaged = bytes_;
  damaged[at + 6] = '6';
  EXPECT_EQ(look_at(damaged), Outcome::said_when_asked);
  const auto store = CaseStore::open(path_);
  int refused = 0;
  for (int number = 1; number <= cases; ++number) {
    const auto events = store->events(number);
    if (!events) {
      ++refused;
      const std::string said = quantities::describe(events.problems());
      EXPECT_NE(said.find("case " + std::to_string(number) + ", step 2"), std::string::npos)
          << said;
      EXPECT_NE(said.find("dryout case restore"), std::string::npos) << said;
    }
  }
  EXPECT_EQ(refused, 1) << "the other cases can be worked on";
}

TEST_F(DamagedStore, AListThatTurnedIsMadeAnewFromTheJournals) {
  {
    const auto database = Database::open(path_);
    ASSERT_TRUE((*database)
                    ->run("UPDATE bench_case SET set_name = 'Tidelighu 3', closed = 1, "
                          "changed_at = 5 WHERE number = 4")
                    .ok());
  }
  auto store = CaseStore::open(path_);
  const auto checked = store->check_integrity();
  ASSERT_FALSE(checked.ok());
  EXPECT_NE(quantities::describe(checked.problems()).find("dryout case check --rebuild"),
            std::string::npos);
  ASSERT_TRUE(store->rebuild_facts(facts_of_events, 1).ok());
  EXPECT_TRUE(store->check_integrity().ok());
  EXPECT_EQ(contents(*store), sound_);
}

/// Events in the write-ahead log alone, the log then cut: what is left is whole, from the start.
TEST_F(DamagedStore, ATornLogKeepsWhatComesBeforeTheTear) {
  const std::string copy = folder_.file("torn.db");
  std::string log;
  {
    auto store = CaseStore::open(path_);
    for (int seen = 2; seen < 20; ++seen) {
      ASSERT_TRUE(store->append_event(1, seen, {200, "add-note", "step"}, facts_named("x")).ok());
    }
    log = read_file(path_ + "-wal");  // as a pulled plug would leave it
    bytes_ = read_file(path_);
  }
  std::size_t longest = 0;
  constexpr std::size_t parts = 40;
  for (std::size_t part = 0; part <= parts; ++part) {
    const std::size_t size = log.size() * part / parts;
    for (const char* suffix : {"", "-wal", "-shm"}) {
      fs::remove(copy + suffix);
    }
    write_file(copy, bytes_);
    write_file(copy + "-wal", log.substr(0, size));
    const auto store = CaseStore::open(copy);
    ASSERT_TRUE(store.ok()) << size << quantities::describe(store.problems());
    EXPECT_TRUE(store->check_integrity().ok()) << size;
    const auto events = store->events(1);
    ASSERT_TRUE(events.ok()) << size;
    EXPECT_GE(events->size(), longest) << size;
    longest = events->size();
  }
  EXPECT_EQ(longest, 20U);
}

}  // namespace
}  // namespace dryout::casestore
