// Stores as every released version left them (released/*.sql) open with this one, nothing lost.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "casestore/file_bytes.h"
#include "casestore/identity.h"
#include "casestore/migrations.h"
#include "casestore/seal.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

class ReleasedVersion : public testing::TestWithParam<int> {
 protected:
  static std::string sql_of(int version) {
    return read_file(DRYOUT_SOURCE_DIR "/tests/casestore/released/version_" +
                     std::to_string(version) + ".sql");
  }
  void SetUp() override {
    write_file(path_, "");
    const auto database = Database::open(path_);
    const auto made = (*database)->run(sql_of(GetParam()));
    ASSERT_TRUE(made.ok()) << quantities::describe(made.problems());
  }

  dryout::tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
};

TEST_P(ReleasedVersion, OpensWithEverythingThatWasInIt) {
  auto store = CaseStore::open(path_);
  ASSERT_TRUE(store.ok()) << quantities::describe(store.problems());
  ASSERT_THAT(*store->list(), SizeIs(2));
  const auto events = store->events(1);
  ASSERT_TRUE(events.ok()) << quantities::describe(events.problems());
  ASSERT_THAT(*events, SizeIs(3));
  EXPECT_EQ((*events)[1].at, 1772614900);
  EXPECT_THAT((*events)[0].body, HasSubstr("Widow Ågren"));
  EXPECT_EQ((*events)[2].body, R"({"of":2})");
  EXPECT_THAT(*store->search("morgen agren"), SizeIs(1));
  EXPECT_THAT(*store->identity(1), SizeIs(32));
  EXPECT_NE(*store->identity(1), *store->identity(7));
  const auto sound = store->check_integrity();
  EXPECT_TRUE(sound.ok()) << quantities::describe(sound.problems());
  EXPECT_EQ(*store->append_event(1, 3, {1772616000, "add-note", "{}"}, {}), Appended::written);
}

TEST_P(ReleasedVersion, IsKeptBesideItselfAsItWas) {
  ASSERT_TRUE(CaseStore::open(path_).ok());
  const std::string version = std::to_string(GetParam());
  const auto kept = Database::open(path_ + ".version-" + version + ".backup");
  ASSERT_TRUE(kept.ok());
  EXPECT_EQ(*(*kept)->number("PRAGMA user_version"), GetParam());
  EXPECT_EQ(*(*kept)->number("SELECT count(*) FROM event"), 4);
}

TEST_P(ReleasedVersion, HasTheTablesThatTheStepsOfTodayWouldMake) {
  const std::string fresh = folder_.file("fresh.db");
  write_file(fresh, "");
  const auto made = Database::open(fresh);
  ASSERT_TRUE(offer_identities(**made).ok());
  ASSERT_TRUE(offer_seals(**made).ok());
  for (int step = 0; step < GetParam(); ++step) {
    ASSERT_TRUE((*made)->run(migrations()[static_cast<std::size_t>(step)]).ok()) << step;
  }
  const auto tables = [](const Database& database) {
    auto schema = Statement::prepare(
        database, "SELECT type, name, sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name");
    std::string all;
    EXPECT_TRUE(schema
                    ->for_each_row([&] {
                      all += schema->text(0) + ' ' + schema->text(1) + ' ' + schema->text(2);
                    })
                    .ok());
    return all;
  };
  const auto released = Database::open(path_);
  EXPECT_EQ(tables(**released), tables(**made)) << "a step that was released was edited";
}

INSTANTIATE_TEST_SUITE_P(Stores, ReleasedVersion, testing::Range(1, 7));

TEST(ReleasedVersions, AreAllKept) {
  for (int version = 1; version < static_cast<int>(migrations().size()); ++version) {
    EXPECT_TRUE(std::filesystem::exists(DRYOUT_SOURCE_DIR "/tests/casestore/released/version_" +
                                        std::to_string(version) + ".sql"))
        << "keep a store of version " << version << " before the next step is released";
  }
}

}  // namespace
}  // namespace dryout::casestore
