#include "casestore/case_store.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

CaseStore open_ok(const std::string& path) {
  auto store = CaseStore::open(path);
  EXPECT_TRUE(store.ok()) << (store.ok() ? "" : quantities::describe(store.problems()));
  return std::move(*store);
}

CaseFacts facts_of(const std::string& set_name, const std::string& complaint = "hums") {
  CaseFacts facts;
  facts.equipment = "valve-receiver";
  facts.set_name = set_name;
  facts.owner = "Widow Ågren";
  facts.complaint = complaint;
  return facts;
}

std::int64_t start(CaseStore& store, const CaseFacts& facts, std::int64_t at = 1000) {
  auto number = store.create_case(facts, {{at, "take-in", "{}"}});
  EXPECT_TRUE(number.ok()) << (number ? "" : quantities::describe(number.problems()));
  return *number;
}

std::vector<std::int64_t> numbers(const std::vector<CaseRow>& rows) {
  std::vector<std::int64_t> result;
  for (const CaseRow& row : rows) {
    result.push_back(row.number);
  }
  return result;
}

class CaseStoreTest : public testing::Test {
 protected:
  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
};

TEST_F(CaseStoreTest, KeepsEventsInOrderAcrossOpenings) {
  std::int64_t number = 0;
  {
    CaseStore store = open_ok(path_);
    number = start(store, facts_of("Morgenstern 52"));
    ASSERT_EQ(*store.append_event(number, 1, {1010, "add-note", R"({"text":"Ω"})"},
                                  facts_of("Morgenstern 52")),
              Appended::written);
  }
  const CaseStore store = open_ok(path_);
  const auto events = store.events(number);
  ASSERT_TRUE(events.ok());
  ASSERT_THAT(*events, SizeIs(2));
  EXPECT_EQ((*events)[1].sequence, 2);
  EXPECT_EQ((*events)[1].at, 1010);
  EXPECT_EQ((*events)[1].kind, "add-note");
  EXPECT_EQ((*events)[1].body, R"({"text":"Ω"})");
  EXPECT_THAT(*store.events(number, 1), SizeIs(1));
}

TEST_F(CaseStoreTest, TellsAWriterWhoHasNotSeenTheNewestEvent) {
  CaseStore here = open_ok(path_);
  CaseStore there = open_ok(path_);
  const auto number = start(here, facts_of("a"));
  ASSERT_EQ(*there.append_event(number, 1, {2, "there", "{}"}, facts_of("a")), Appended::written);
  EXPECT_EQ(*here.append_event(number, 1, {3, "here", "{}"}, facts_of("b")), Appended::overtaken);
  EXPECT_THAT(*here.events(number), SizeIs(2));
  EXPECT_EQ(here.list()->front().facts.set_name, "a") << "a refused event must not leave its facts";
  EXPECT_EQ(*here.append_event(number, 2, {3, "here", "{}"}, facts_of("b")), Appended::written);
}

TEST_F(CaseStoreTest, RefusesACaseThatIsNotThere) {
  CaseStore store = open_ok(path_);
  EXPECT_THAT(quantities::describe(store.events(7).problems()), HasSubstr("no such case; found 7"));
  EXPECT_FALSE(store.append_event(7, 1, {1, "x", "{}"}, {}).ok());
}

TEST_F(CaseStoreTest, ListsTheLastChangedFirst) {
  CaseStore store = open_ok(path_);
  const auto first = start(store, facts_of("first"), 10);
  const auto second = start(store, facts_of("second"), 20);
  EXPECT_THAT(numbers(*store.list()), ElementsAre(second, first));
  CaseFacts closed = facts_of("first");
  closed.closed = true;
  closed.cause = "group:reservoirs";
  closed.year_built = 1952;
  ASSERT_TRUE(store.append_event(first, 1, {30, "close-case", "{}"}, closed).ok());
  const auto rows = *store.list();
  EXPECT_THAT(numbers(rows), ElementsAre(first, second));
  EXPECT_EQ(rows.front().facts, closed);
  EXPECT_EQ(rows.front().opened_at, 10);
  EXPECT_EQ(rows.front().changed_at, 30);
}

TEST_F(CaseStoreTest, FindsWordsByTheirBeginningInEveryField) {
  CaseStore store = open_ok(path_);
  CaseFacts facts = facts_of("Morgenstern 52", "loud hum after warming up");
  const auto number = start(store, facts);
  start(store, facts_of("Tidelight", "no sound"));
  for (const char* words : {"morgen", "warm hum", "52 loud", "\"hum\" (warming)"}) {
    EXPECT_THAT(numbers(*store.search(words)), ElementsAre(number)) << words;
  }
  EXPECT_THAT(*store.search("AGREN"), SizeIs(2)) << "accents and case do not matter";
  EXPECT_THAT(*store.search("hum sound"), IsEmpty()) << "every word must occur";
}

TEST_F(CaseStoreTest, SearchFollowsChangedNotes) {
  CaseStore store = open_ok(path_);
  CaseFacts facts = facts_of("x");
  const auto number = start(store, facts);
  facts.notes = "C12 was bulged";
  ASSERT_TRUE(store.append_event(number, 1, {2, "add-note", "{}"}, facts).ok());
  EXPECT_THAT(numbers(*store.search("c12 bulg")), ElementsAre(number));
  facts.notes = "";
  ASSERT_TRUE(store.append_event(number, 2, {3, "undo", "{}"}, facts).ok());
  EXPECT_THAT(*store.search("bulged"), IsEmpty());
}

TEST_F(CaseStoreTest, NothingTypedIntoASearchIsASyntaxError) {
  CaseStore store = open_ok(path_);
  start(store, facts_of("x"));
  for (const char* words : {"", " ", "\"", "AND", "NEAR(", "set_name:x*", "-",
                            "'; DROP TABLE event", "\xff\xfe", "*", "…", "a\"b"}) {
    EXPECT_TRUE(store.search(words).ok()) << words;
  }
}

TEST_F(CaseStoreTest, TheFilesAreForTheirUserAlone) {
  CaseStore store = open_ok(path_);
  start(store, facts_of("x"));
  for (const char* suffix : {"", "-wal", "-shm"}) {
    struct stat status {};
    ASSERT_EQ(stat((path_ + suffix).c_str(), &status), 0) << suffix;
    EXPECT_EQ(status.st_mode & 0777U, 0600U) << suffix;
  }
}

TEST_F(CaseStoreTest, ABackupIsAStoreWithTheSameCases) {
  CaseStore store = open_ok(path_);
  const auto number = start(store, facts_of("kept"));
  const std::string copy = folder_.file("copy.db");
  ASSERT_TRUE(store.backup(copy).ok());
  start(store, facts_of("later"));
  CaseStore restored = open_ok(copy);
  EXPECT_THAT(numbers(*restored.list()), ElementsAre(number));
  EXPECT_THAT(numbers(*restored.search("kept")), ElementsAre(number));
  EXPECT_TRUE(restored.check_integrity().ok());
  EXPECT_THAT(quantities::describe(store.backup(copy).problems()), HasSubstr("never overwrites"));
}

TEST_F(CaseStoreTest, ASoundStorePassesTheIntegrityCheck) {
  CaseStore store = open_ok(path_);
  start(store, facts_of("x"));
  EXPECT_TRUE(store.check_integrity().ok());
}

}  // namespace
}  // namespace dryout::casestore
