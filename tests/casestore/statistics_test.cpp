// Facts for statistics: written with the event they follow from, counted at once, and never out of
// step with what they were counted from.
#include "casestore/statistics.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "casestore/case_store.h"
#include "casestore/database.h"
#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

ReadingFact reading(int event, double value, Standing standing = Standing::sound) {
  return {.event = event,
          .technology = "wet-aluminium",
          .kind = "esr",
          .role = "reservoir",
          .capacitance = quantities::microfarads(47),
          .rated = quantities::volts(63),
          .value = value,
          .limit = std::nullopt,
          .age = 34,
          .standing = standing,
          .alone = true};
}

CaseFacts closed_with(const std::string& subject) {
  CaseFacts facts;
  facts.equipment = "valve-receiver";
  facts.closed = true;
  facts.statistics.closed = {"radio", subject, 2026, 60};
  return facts;
}

class Statistics : public testing::Test {
 protected:
  Statistics() : store_(std::move(*CaseStore::open(path_))) {}
  std::int64_t add(const CaseFacts& facts) {
    const auto number = store_.create_case(facts, {{1, "take-in", "{}"}});
    EXPECT_TRUE(number.ok());
    return number ? *number : 0;
  }
  std::int64_t counted(const ReadingQuery& query) const {
    std::int64_t sum = 0;
    const auto counts = store_.reading_counts(query);
    EXPECT_TRUE(counts.ok());
    for (const ReadingCount& count : *counts) {
      sum += count.readings;
    }
    return sum;
  }

  tests::TemporaryFolder folder_;
  std::string path_ = folder_.file("cases.db");
  CaseStore store_;
};

TEST_F(Statistics, WhatIsWrittenIsReadBack) {
  CaseFacts facts = closed_with("role:reservoir");
  facts.statistics.readings = {reading(2, 0.4), reading(5, 2.0, Standing::bad)};
  facts.statistics.readings[1].limit = 1.5;
  facts.statistics.readings[1].age.reset();
  const auto number = add(facts);
  EXPECT_EQ(*store_.statistics(number), facts.statistics);
  EXPECT_EQ(*store_.statistics(number + 1), CaseStatistics{});
}

TEST_F(Statistics, CausesAreCountedByFamilyEquipmentAndSubject) {
  add(closed_with("role:reservoir"));
  add(closed_with("role:reservoir"));
  add(closed_with(""));
  CaseFacts other = closed_with("cause:dry-joint");
  other.equipment = "bench-supply";
  other.statistics.closed->family = "bench";
  add(other);
  EXPECT_THAT(*store_.cause_counts("", ""), SizeIs(3));
  const auto radios = *store_.cause_counts("radio", "");
  ASSERT_THAT(radios, SizeIs(2));
  EXPECT_EQ(radios[0].subject, "");
  EXPECT_EQ(radios[1].cases, 2);
  EXPECT_THAT(*store_.cause_counts("", "bench-supply"), SizeIs(1));
  EXPECT_THAT(*store_.cause_counts("radio", "bench-supply"), IsEmpty());
}

TEST_F(Statistics, AReadingTakenBackIsNoLongerCounted) {
  CaseFacts facts;
  const auto number = add(facts);
  facts.statistics.readings = {reading(2, 0.4)};
  ASSERT_TRUE(store_.append_event(number, 1, {2, "measure", "{}"}, facts).ok());
  EXPECT_EQ(counted({"wet-aluminium", "esr", "", {}, {}}), 1);
  facts.statistics.readings.clear();
  ASSERT_TRUE(store_.append_event(number, 2, {3, "undo", "{}"}, facts).ok());
  EXPECT_EQ(counted({"wet-aluminium", "esr", "", {}, {}}), 0);
  EXPECT_THAT(*store_.sound_counts(), IsEmpty());
  EXPECT_TRUE(store_.check_integrity().ok());
}

TEST_F(Statistics, AnOvertakenWriterCountsNothing) {
  CaseFacts facts;
  const auto number = add(facts);
  facts.statistics.readings = {reading(2, 0.4)};
  EXPECT_EQ(*store_.append_event(number, 7, {2, "measure", "{}"}, facts), Appended::overtaken);
  EXPECT_EQ(counted({}), 0);
}

TEST_F(Statistics, AQueryNarrowsByWhatItSays) {
  CaseFacts facts;
  facts.statistics.readings = {reading(2, 0.4), reading(3, 0.5), reading(4, 0.6)};
  facts.statistics.readings[1].capacitance = quantities::microfarads(100);
  facts.statistics.readings[2].role = "decoupling";
  add(facts);
  EXPECT_EQ(counted({}), 3);
  EXPECT_EQ(counted({"", "", "reservoir", {}, {}}), 2);
  EXPECT_EQ(counted({"", "", "", quantities::Farad(47.01e-6), {}}), 2) << "typed with rounding";
  EXPECT_EQ(counted({"", "", "", quantities::microfarads(48), {}}), 0);
  EXPECT_EQ(counted({"", "", "", {}, quantities::volts(63)}), 3);
  EXPECT_EQ(counted({"film", "", "", {}, {}}), 0);
}

TEST_F(Statistics, AnyOrderOfWritingGivesTheSameCounts) {
  std::mt19937 random(7);  // NOLINT: a fixed seed, so that a failure can be repeated
  std::vector<CaseFacts> facts(20);
  std::vector<std::int64_t> numbers;
  for (const CaseFacts& each : facts) {
    numbers.push_back(add(each));
  }
  std::vector<int> seen(facts.size(), 1);
  for (int round = 0; round < 200; ++round) {
    const std::size_t i = random() % facts.size();
    auto& readings = facts[i].statistics.readings;
    if (random() % 3 == 0 && !readings.empty()) {
      readings.pop_back();
    } else {
      const double value = std::pow(10.0, static_cast<double>(random() % 300) / 100.0 - 1.5);
      readings.push_back(reading(seen[i] + 1, value, static_cast<Standing>(random() % 3)));
    }
    ASSERT_EQ(*store_.append_event(numbers[i], seen[i], {2, "measure", "{}"}, facts[i]),
              Appended::written);
    ++seen[i];
  }
  std::size_t expected = 0;
  for (const CaseFacts& each : facts) {
    expected += each.statistics.readings.size();
  }
  EXPECT_EQ(counted({}), static_cast<std::int64_t>(expected));
  EXPECT_TRUE(store_.check_integrity().ok());
}

TEST_F(Statistics, RebuildingMakesTheSameFactsAnew) {
  CaseFacts facts = closed_with("role:reservoir");
  facts.set_name = "Morgenstern";
  facts.statistics.readings = {reading(2, 0.4)};
  const auto number = add(facts);
  {
    const auto database = Database::open(path_);
    ASSERT_TRUE((*database)->run("DELETE FROM reading; DELETE FROM closed_case").ok());
  }
  EXPECT_EQ(*store_.facts_version(), 0);
  const auto done = store_.rebuild_facts(
      [&](const std::vector<EventRow>& events) {
        EXPECT_THAT(events, SizeIs(1));
        return std::optional(facts);
      },
      3);
  ASSERT_TRUE(done.ok()) << quantities::describe(done.problems());
  EXPECT_EQ(*store_.statistics(number), facts.statistics);
  EXPECT_EQ(counted({}), 1);
  EXPECT_EQ(*store_.facts_version(), 3);
  EXPECT_TRUE(store_.check_integrity().ok());
}

/// A store in which something of the counting is damaged, and two cases that were read.
class DamagedCounts : public Statistics {
 protected:
  DamagedCounts() {
    facts_.statistics.readings = {reading(2, 0.4)};
    add(facts_);
    facts_.statistics.readings = {reading(2, 7.0)};
    second_ = add(facts_);
  }
  void damage(const std::string& sql) const {
    const auto database = Database::open(path_);
    ASSERT_TRUE((*database)->run(sql).ok());
  }
  std::string complaint() const {
    const auto sound = store_.check_integrity();
    return sound ? "" : quantities::describe(sound.problems());
  }
  /// The journals know what was read.
  void expect_rebuilt() {
    const auto done = store_.rebuild_facts(
        [&](const std::vector<EventRow>& events) {
          EXPECT_THAT(events, SizeIs(1));
          facts_.statistics.readings = {reading(2, ++rebuilt_ == 1 ? 0.4 : 7.0)};
          return std::optional(facts_);
        },
        1);
    ASSERT_TRUE(done.ok()) << quantities::describe(done.problems());
    EXPECT_EQ(complaint(), "");
    EXPECT_EQ(counted({}), 2);
    EXPECT_EQ(*store_.statistics(second_), facts_.statistics);
    EXPECT_THAT(*store_.sound_counts(), SizeIs(2));
  }

  CaseFacts facts_;
  std::int64_t second_ = 0;
  int rebuilt_ = 0;
};

TEST_F(DamagedCounts, ACountThatIsWrongIsNamedByPartType) {
  damage("UPDATE reading_count SET readings = 5 WHERE capacitance > 0 AND rated > 0 AND bin > 0");
  EXPECT_THAT(complaint(),
              testing::AllOf(HasSubstr("wet-aluminium, esr, 47"), HasSubstr("5 counted, 1 there"),
                             HasSubstr(path_), HasSubstr("dryout case check --rebuild")));
  expect_rebuilt();
}

TEST_F(DamagedCounts, TwoThatMakeUpForEachOtherAreBothNoticed) {
  damage("UPDATE reading_count SET readings = 2 - 2 * (bin > 0)");
  EXPECT_THAT(complaint(), HasSubstr("and 9 more such counts"));
  expect_rebuilt();  // taking a reading out of a count of 0 must not stand in the way
}

TEST_F(DamagedCounts, ACountOfSoundPartsIsHeldAgainstThemToo) {
  damage("UPDATE sound_count SET readings = 3 WHERE bin > 0");
  EXPECT_THAT(complaint(), HasSubstr("63 V: 3 counted, 1 there"));
  expect_rebuilt();
}

TEST_F(DamagedCounts, AReadingThatIsNotCountedNamesItsCase) {
  damage("UPDATE reading SET role = 'coupling' WHERE bench_case = 2");
  EXPECT_THAT(complaint(), HasSubstr("look at case " + std::to_string(second_)));
}

TEST_F(DamagedCounts, AReadingUnderAnotherSizeNamesItsCaseAndStep) {
  for (const char* turned : {"bin = 12", "value = 0.07", "value = -1.0"}) {
    damage("UPDATE reading SET " + std::string(turned) + " WHERE bench_case = 2");
    EXPECT_THAT(complaint(), HasSubstr("case 2, step 2")) << turned;
    rebuilt_ = 0;
    expect_rebuilt();
  }
}

TEST(ReadingBins, KeepAValueWithinThreePercent) {
  for (double value = 1e-9; value < 1e9; value *= 1.01) {
    EXPECT_LT(std::abs(std::log(middle_of_bin(bin_of(value)) / value)), 0.03) << value;
  }
}

}  // namespace
}  // namespace dryout::casestore
