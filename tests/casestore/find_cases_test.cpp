// Questions to the search index: by field, by equipment, and with bounds on what comes back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casestore/case_store.h"

namespace dryout::casestore {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// A query that says these things and nothing else.
struct Ask : CaseQuery {
  Ask& in(std::string CaseQuery::*field, const std::string& value) {
    this->*field = value;
    return *this;
  }
  Ask& closed() {
    closed_only = true;
    return *this;
  }
  Ask& newest() {
    newest_first = true;
    return *this;
  }
  Ask& at_most(int cases) {
    most = cases;
    return *this;
  }
};

class FindCases : public testing::Test {
 protected:
  FindCases() : store_(std::move(*CaseStore::open(std::string(in_memory)))) {}
  std::int64_t add(const CaseFacts& facts, std::int64_t at = 1) {
    return *store_.create_case(facts, {{at, "take-in", "{}"}});
  }
  std::vector<std::int64_t> found(const CaseQuery& query) const {
    std::vector<std::int64_t> numbers;
    const auto found = store_.find(query);
    EXPECT_TRUE(found.ok());
    for (const CaseRow& row : found->rows) {
      numbers.push_back(row.number);
    }
    return numbers;
  }
  CaseStore store_;
};

CaseFacts lark() {
  CaseFacts facts;
  facts.equipment = "valve-am-receiver";
  facts.set_name = "Larkfield 40";
  facts.symptoms = "Steady hum hum-steady";
  facts.parts = "C12 Reservoirs";
  facts.causes = "cause:dry-joint@if\nDry joint";
  facts.notes = "the owner hums too";
  return facts;
}

TEST_F(FindCases, AFieldIsSearchedAlone) {
  const auto number = add(lark());
  CaseFacts talk;
  talk.notes = "hum, C12, dry joint and Larkfield are only spoken of";
  add(talk);
  EXPECT_THAT(found(Ask().in(&CaseQuery::symptom, "hum")), ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::part, "c12")), ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::cause, "dry jo")), ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::set_name, "lark")), ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::words, "hum")), SizeIs(2));
  EXPECT_THAT(found(Ask().in(&CaseQuery::words, "owner").in(&CaseQuery::symptom, "hum")),
              ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::symptom, "owner")), IsEmpty());
}

TEST_F(FindCases, EquipmentIsTheIdItselfAndNotItsWords) {
  const auto number = add(lark());
  CaseFacts longer = lark();
  longer.equipment = "valve-am-receiver-portable";
  add(longer);
  EXPECT_THAT(found(Ask().in(&CaseQuery::equipment, "valve-am-receiver")), ElementsAre(number));
  EXPECT_THAT(
      found(Ask().in(&CaseQuery::words, "lark").in(&CaseQuery::equipment, "valve-am-receiver")),
      ElementsAre(number));
  EXPECT_THAT(found(Ask().in(&CaseQuery::equipment, "valve")), IsEmpty());
}

TEST_F(FindCases, ClosedOnesNewestFirst) {
  CaseFacts closed = lark();
  closed.closed = true;
  const auto first = add(closed, 10);
  add(lark(), 20);
  const auto last = add(closed, 30);
  EXPECT_THAT(found(Ask().in(&CaseQuery::equipment, "valve-am-receiver").closed()),
              ElementsAre(last, first));
  EXPECT_THAT(found(Ask().in(&CaseQuery::set_name, "larkfield").closed().newest()),
              ElementsAre(last, first));
}

TEST_F(FindCases, SaysWhenThereIsMore) {
  for (int i = 0; i < 5; ++i) {
    add(lark());
  }
  EXPECT_TRUE(store_.find(Ask().in(&CaseQuery::words, "lark").at_most(4))->more);
  EXPECT_THAT(store_.find(Ask().in(&CaseQuery::words, "lark").at_most(4))->rows, SizeIs(4));
  EXPECT_FALSE(store_.find(Ask().in(&CaseQuery::words, "lark").at_most(5))->more);
}

TEST_F(FindCases, WhereTooManyMatchTheNewestComeFirst) {
  std::vector<NewCase> many(2'500, NewCase{"", lark(), {{1, "take-in", "{}"}}});
  const auto numbers = store_.create_cases(many);
  ASSERT_TRUE(numbers.ok());
  const auto found = store_.find(Ask().in(&CaseQuery::words, "lark").at_most(3));
  EXPECT_TRUE(found->newest_first);
  EXPECT_EQ(found->rows.front().number, numbers->back());
}

TEST_F(FindCases, NothingSaidFindsNothing) {
  add(lark());
  EXPECT_THAT(found(Ask()), IsEmpty());
  EXPECT_THAT(found(Ask().in(&CaseQuery::words, " \"*").in(&CaseQuery::symptom, "()")), IsEmpty());
}

TEST_F(FindCases, AnIdentityNamesOneCase) {
  const auto number = add(lark());
  const auto other = add(lark());
  const std::string identity = *store_.identity(number);
  EXPECT_THAT(identity, testing::MatchesRegex("[0-9a-f]+"));
  EXPECT_THAT(identity, SizeIs(32));
  EXPECT_NE(identity, *store_.identity(other));
  EXPECT_EQ(*store_.find_identity(identity), number);
  EXPECT_EQ(*store_.find_identity("nobody"), std::nullopt);
  EXPECT_FALSE(store_.identity(99).ok());
  const auto taken = store_.create_cases(
      {{"fresh", lark(), {{1, "take-in", "{}"}}}, {identity, lark(), {{1, "take-in", "{}"}}}});
  EXPECT_FALSE(taken.ok());
  EXPECT_EQ(*store_.find_identity("fresh"), std::nullopt) << "all or nothing";
}

}  // namespace
}  // namespace dryout::casestore
