// Questions to all cases, on the invented bench.
#include "casework/shop_memory.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/case_facts.h"
#include "casework/invented_bench.h"
#include "casework/shipped_bench.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

constexpr const char* diode = "cause:open-diode@supply";

RecordReading esr(const std::string& item, double value) {
  RecordReading reading;
  reading.item = item;
  reading.value = value;
  reading.in_circuit = false;
  return reading;
}

/// A lantern that hums, C1 of its reservoirs read and named, closed with a cause.
std::int64_t close_lantern(Workshop& workshop, const std::string& cause, double value) {
  const auto number = start_lantern(workshop);
  apply_ok(workshop, number, ReportSymptom{"hums"});
  apply_ok(workshop, number, NamePart{"C1", "reservoirs", {}, {}, "", "Elkhart"});
  apply_ok(workshop, number, esr("C1", value));
  if (!cause.empty()) {
    apply_ok(workshop, number, RecordRepair{cause, "replaced", "1N4007"});
  }
  apply_ok(workshop, number, CloseCase{cause, "ran an hour on the bench"});
  return number;
}

class ShopMemoryTest : public testing::Test {
 protected:
  std::unique_ptr<Workshop> workshop_ = open_workshop();
};

TEST_F(ShopMemoryTest, FindsCasesByWhatTheyWereAbout) {
  const auto number = close_lantern(*workshop_, diode, 0.02);
  (void)start_lantern(*workshop_);
  const auto found = [&](ShopSearch search) {
    std::vector<std::int64_t> numbers;
    const auto view = workshop_->shop().find(search);
    EXPECT_TRUE(view.ok());
    for (const CaseSummary& each : view->cases) {
      numbers.push_back(each.number);
    }
    return numbers;
  };
  ShopSearch search;
  search.symptom = "hum volume";
  EXPECT_THAT(found(search), ElementsAre(number));
  search = {};
  search.part = "c1 elk";
  EXPECT_THAT(found(search), ElementsAre(number));
  search.part = "reservoirs";
  EXPECT_THAT(found(search), ElementsAre(number));
  search = {};
  search.cause = "open diode";
  EXPECT_THAT(found(search), ElementsAre(number));
  search = {};
  search.words = "hour bench";
  EXPECT_THAT(found(search), ElementsAre(number));
  search = {};
  search.equipment = "lantern";
  EXPECT_THAT(found(search), SizeIs(2));
  search.equipment = "lanterm";
  const auto refused = workshop_->shop().find(search);
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()), HasSubstr("did you mean \"lantern\"?"));
}

TEST_F(ShopMemoryTest, CountsCausesByFamily) {
  for (int i = 0; i < 3; ++i) {
    close_lantern(*workshop_, diode, 0.02);
  }
  close_lantern(*workshop_, "C1", 4.0);
  close_lantern(*workshop_, "", 0.02);
  const auto views = workshop_->shop().causes("", "");
  ASSERT_THAT(*views, SizeIs(1));
  const CausesView& audio = views->front();
  EXPECT_EQ(audio.family, "audio");
  EXPECT_EQ(audio.closed, 5);
  EXPECT_EQ(audio.without_cause, 1);
  ASSERT_THAT(audio.causes, SizeIs(2));
  EXPECT_EQ(audio.causes[0].title, "Open diode");
  EXPECT_EQ(audio.causes[0].cases, 3);
  EXPECT_DOUBLE_EQ(audio.causes[0].share.value(), 0.75);
  EXPECT_LT(audio.causes[0].least.value(), 0.5) << "three of four prove little";
  EXPECT_EQ(audio.causes[1].subject, "role:reservoir");
  EXPECT_THAT(*workshop_->shop().causes("radio", ""), IsEmpty());
  EXPECT_EQ(workshop_->shop().causes("", "lantern")->front().title, "Lantern amplifier");
}

TEST_F(ShopMemoryTest, ReadingsComeByAgeAndHowThePartTurnedOut) {
  for (const double value : {0.02, 0.03, 0.04}) {
    close_lantern(*workshop_, diode, value);
  }
  close_lantern(*workshop_, "C1", 4.0);
  const auto view = workshop_->shop().readings({"wet-aluminium", "esr", "", {}, {}});
  ASSERT_TRUE(view.ok()) << quantities::describe(view.problems());
  ASSERT_THAT(view->ages, SizeIs(6)) << "all ages and the forties; all, sound, bad";
  EXPECT_EQ(view->ages[0].age, "all ages");
  EXPECT_EQ(view->ages[0].readings, 4);
  EXPECT_EQ(view->ages[1].standing, "sound");
  EXPECT_EQ(view->ages[1].readings, 3);
  EXPECT_NEAR(view->ages[1].p50, 0.03, 0.03 * 0.03);
  EXPECT_EQ(view->ages[2].standing, "bad");
  EXPECT_NEAR(view->ages[2].p50, 4.0, 4.0 * 0.03);
  EXPECT_EQ(view->ages[3].age, "40 to 49 years");
  EXPECT_FALSE(workshop_->shop().readings({"wet", "esr", "", {}, {}}).ok());
  EXPECT_FALSE(workshop_->shop().readings({"film", "colour", "", {}, {}}).ok());
}

TEST_F(ShopMemoryTest, TellsWhatThisKindOfSetHadLastTime) {
  close_lantern(*workshop_, diode, 0.02);
  const auto newest = close_lantern(*workshop_, "C1", 4.0);
  (void)start_lantern(*workshop_);
  for (const std::string asked : {"lantern", "Lantern 4", "LANT"}) {
    const auto view = workshop_->shop().last_time(asked);
    ASSERT_TRUE(view.ok());
    ASSERT_THAT(view->cases, SizeIs(2)) << asked << ": the open one tells nothing yet";
    const LastTimeCase& last = view->cases.front();
    EXPECT_EQ(last.number, newest);
    EXPECT_EQ(last.cause, "C1 Reservoirs");
    EXPECT_EQ(last.summary, "ran an hour on the bench");
    EXPECT_THAT(last.symptoms, ElementsAre("Hum with the volume down"));
    EXPECT_THAT(last.repairs, ElementsAre("C1 Reservoirs: replaced, 1N4007"));
  }
  EXPECT_THAT(workshop_->shop().last_time("lantern")->causes, SizeIs(2));
  EXPECT_THAT(workshop_->shop().last_time("tidelight")->cases, IsEmpty());
}

TEST_F(ShopMemoryTest, TellsWhatSetsLikeTheOneOnTheBenchHadLastTime) {
  const auto first = close_lantern(*workshop_, diode, 0.02);
  const auto other = workshop_->start({"lantern", "Quayside", 1979, "", "hums too"});
  apply_ok(*workshop_, *other, ReportSymptom{"hums"});
  apply_ok(*workshop_, *other, CloseCase{"", "sent back"});
  const auto silent = workshop_->start({"lantern", "Quayside", 1979, "", "quiet"});
  apply_ok(*workshop_, *silent, CloseCase{"", ""});
  const auto here = start_lantern(*workshop_);
  const auto numbers = [&] {
    std::vector<std::int64_t> found;
    const auto view = workshop_->shop().last_time_like(here);
    EXPECT_TRUE(view.ok());
    for (const LastTimeCase& each : view->cases) {
      found.push_back(each.number);
    }
    return found;
  };
  EXPECT_THAT(numbers(), ElementsAre(first)) << "its name; itself and open ones do not count";
  apply_ok(*workshop_, here, ReportSymptom{"hums"});
  EXPECT_THAT(numbers(), ElementsAre(first, *other)) << "then its kind with the same symptom";
  EXPECT_FALSE(workshop_->shop().last_time_like(4711).ok());
}

TEST_F(ShopMemoryTest, WhatItCountsIsWhatTheJournalSays) {
  const auto number = close_lantern(*workshop_, "C1", 4.0);
  EXPECT_EQ(workshop_->shop().causes("", "")->front().closed, 1);
  ASSERT_TRUE(workshop_->undo(number).ok());  // not closed after all
  EXPECT_THAT(*workshop_->shop().causes("", ""), IsEmpty());
  const auto view = workshop_->shop().readings({"wet-aluminium", "esr", "", {}, {}});
  EXPECT_THAT(view->ages, SizeIs(2)) << "read, but nobody knows yet how it turned out";
}

/// As a store of an earlier version comes: no facts, and nobody knows by which rules they were
/// made.
void forget_facts(const std::string& path) {
  auto store = casestore::CaseStore::open(path);
  ASSERT_TRUE(store.ok());
  ASSERT_TRUE(
      store->rebuild_facts([](const auto&) { return std::optional(casestore::CaseFacts{}); }, 0)
          .ok());
  ASSERT_EQ(*store->statistics(2), casestore::CaseStatistics{});
}

TEST(ShopMemoryRebuilt, GivesTheSameFactsAsWritingDid) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  const auto facts = [&] {
    std::vector<casestore::CaseStatistics> all;
    const auto store = casestore::CaseStore::open(path);
    for (int number = 1; number <= 3; ++number) {
      all.push_back(*store->statistics(number));
    }
    return all;
  };
  {
    const auto workshop = open_workshop(path);
    for (const double value : {0.02, 0.05, 4.0}) {
      close_lantern(*workshop, value > 1.0 ? "C1" : diode, value);
    }
    (void)workshop->undo(1);
  }
  const auto written = facts();
  EXPECT_FALSE(written[0].closed);
  EXPECT_TRUE(written[2].closed);
  EXPECT_EQ(written[2].readings.front().standing, casestore::Standing::bad);
  forget_facts(path);
  const auto workshop = open_workshop(path);
  EXPECT_EQ(facts(), written);
  EXPECT_THAT(*workshop->search("elkhart"), SizeIs(3)) << "the search index too";
  EXPECT_TRUE(workshop->check_integrity().ok());
}

TEST_F(ShopMemoryTest, HistoryStaysOutOfTheFiguresUntilItIsSwitchedOn) {
  for (int i = 0; i < 30; ++i) {
    close_lantern(*workshop_, diode, 0.02);
  }
  const auto number = start_lantern(*workshop_);
  const CaseView before = apply_ok(*workshop_, number, ReportSymptom{"hums"});
  EXPECT_THAT(before.notices, IsEmpty());
  EXPECT_FALSE(workshop_->shop().learned("lantern", 2026)->on);

  ASSERT_TRUE(workshop_->use_shop_history(true).ok());
  const CaseView with = *workshop_->view(number);
  EXPECT_THAT(with.notices, Contains(HasSubstr("30 of this family")));
  EXPECT_GT(suspect(with, diode).suspicion, suspect(before, diode).suspicion);
  EXPECT_LT(suspect(with, "group:reservoirs").suspicion,
            suspect(before, "group:reservoirs").suspicion);

  ASSERT_TRUE(workshop_->use_shop_history(false).ok());
  const CaseView after = *workshop_->view(number);
  EXPECT_THAT(after.notices, IsEmpty());
  EXPECT_EQ(suspect(after, diode).suspicion, suspect(before, diode).suspicion);
}

// Where nobody typed a limit and the library knows the type by its tan delta alone, what sound
// parts of the type read here stands in for a fresh one, from three on, if it is switched on.
TEST_F(ShopMemoryTest, SoundPartsReadHereStandInForALimitOnceSwitchedOn) {
  const auto opened = Workshop::open(std::string(in_memory), invented_knowledge(), ticking_clock(),
                                     shipped_readings());
  ASSERT_TRUE(opened.ok());
  Workshop& workshop = **opened;
  const NamePart part{"C1", "reservoirs", quantities::microfarads(4.7), quantities::volts(63), "",
                      ""};
  for (const double value : {1.9, 2.0, 2.1, 2.0}) {
    const auto number = start_lantern(workshop);
    apply_ok(workshop, number, ReportSymptom{"hums"});
    apply_ok(workshop, number, part);
    apply_ok(workshop, number, esr("C1", value));
    apply_ok(workshop, number, CloseCase{diode, ""});
  }
  const auto number = start_lantern(workshop);
  apply_ok(workshop, number, part);
  const auto limit_of = [&](double value) {
    return apply_ok(workshop, number, esr("C1", value)).readings.back();
  };
  EXPECT_NE(limit_of(2.0).limit_source, "fresh-part");
  ASSERT_TRUE(workshop.use_shop_history(true).ok());
  const ReadingView held = limit_of(40.0);
  EXPECT_EQ(held.limit_source, "fresh-part");
  ASSERT_TRUE(held.limit.has_value());
  // Told and judged by is two and a half times what fresh parts read, here about 2 ohm.
  EXPECT_GT(*held.limit, 2.5 * 1.5);
  EXPECT_LT(*held.limit, 2.5 * 4.0);
  EXPECT_THAT(held.caveats, Contains(HasSubstr("its history is switched on")));
  EXPECT_EQ(held.verdict, "over-limit");
  // Of a part without its value nothing is known that could stand in.
  const auto unmarked = start_lantern(workshop);
  apply_ok(workshop, unmarked, NamePart{"C1", "reservoirs", {}, {}, "", ""});
  EXPECT_NE(apply_ok(workshop, unmarked, esr("C1", 40.0)).readings.back().limit_source,
            "fresh-part");
}

TEST_F(ShopMemoryTest, LearnedLaysEveryWeightOpen) {
  for (int i = 0; i < 4; ++i) {
    close_lantern(*workshop_, diode, 0.02);
  }
  ASSERT_TRUE(workshop_->use_shop_history(true).ok());
  const auto view = workshop_->shop().learned("lantern", 2026);
  ASSERT_TRUE(view.ok());
  EXPECT_TRUE(view->on);
  double prior = 0.0;
  double after = 0.0;
  for (const LearnedCauseView& cause : view->causes) {
    prior += cause.share.prior_count;
    after += cause.share.after;
  }
  EXPECT_NEAR(prior, knowledge_worth, 1e-9);
  EXPECT_NEAR(after, 1.0, 1e-9);
  EXPECT_EQ(view->causes.front().title, "Open diode");
  EXPECT_EQ(view->causes.front().share.cases, 4);
  ASSERT_THAT(view->typical, SizeIs(1));
  EXPECT_EQ(view->typical.front().readings, 4);
  EXPECT_EQ(view->typical.front().counted, 4.0);
  EXPECT_NE(view->typical.front().before, view->typical.front().after);
  EXPECT_THAT(view->bound, HasSubstr("two to one"));
  EXPECT_FALSE(workshop_->shop().learned("lamp", 2026).ok());
}

}  // namespace
}  // namespace dryout::casework
