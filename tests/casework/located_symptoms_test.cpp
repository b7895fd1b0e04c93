// A symptom told with a place: what is kept, what is refused, what it does to the suspects. Who is
// to blame is common practice (no source), see tests/vignettes/placed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/command_json.h"
#include "casework/shipped_bench.h"
#include "documents/parse.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the shipped bench
using ::testing::HasSubstr;

ReportSymptom hum_where(Seen seen, SymptomPlace where) {
  return {"hum-steady", seen, std::move(where)};
}

const SymptomView& symptom(const CaseView& view, const std::string& id) {
  for (const SymptomView& each : view.symptoms) {
    if (each.id == id) return each;
  }
  ADD_FAILURE() << id;
  return view.symptoms.front();
}

TEST(LocatedSymptoms, TheOtherChannelIsFineClearsTheCommonReservoirs) {
  const auto workshop = open_shipped();
  const auto number = start_on(*workshop, "power-amplifier");
  const CaseView plain = apply_ok(*workshop, number, hum_where(Seen::yes, {}));
  apply_ok(*workshop, number, hum_where(Seen::yes, {.channel = "left"}));
  const CaseView left = apply_ok(*workshop, number, hum_where(Seen::no, {.channel = "right"}));
  EXPECT_GT(suspect(plain, "group:reservoirs").blame.value(), 0.3);
  EXPECT_LT(suspect(left, "group:reservoirs").blame.value(), 0.1);
  EXPECT_GT(suspect(left, "group:left-decoupling").blame.value(),
            2.0 * suspect(plain, "group:left-decoupling").blame.value());
  const SymptomView& told = symptom(left, "hum-steady");
  EXPECT_EQ(told.seen, "yes");
  ASSERT_EQ(told.placed.size(), 2U);
  EXPECT_EQ(told.placed[0].words, "Left channel");
  EXPECT_EQ(told.placed[1].seen, "no");
}

TEST(LocatedSymptoms, WhatIsSaidOfAllPlacesTakesThoseOfOneBack) {
  const auto workshop = open_shipped();
  const auto number = start_on(*workshop, "power-amplifier");
  const CaseView before = apply_ok(*workshop, number, AddNote{"nothing told"});
  apply_ok(*workshop, number, hum_where(Seen::yes, {.channel = "left"}));
  apply_ok(*workshop, number, hum_where(Seen::no, {.channel = "right"}));
  const CaseView unclear = apply_ok(*workshop, number, hum_where(Seen::unclear, {}));
  EXPECT_TRUE(symptom(unclear, "hum-steady").placed.empty());
  EXPECT_EQ(symptom(unclear, "hum-steady").seen, "");
  EXPECT_EQ(suspect(unclear, "group:reservoirs").suspicion.value(),
            suspect(before, "group:reservoirs").suspicion.value());
}

TEST(LocatedSymptoms, AreRefusedWhereTheEquipmentHasNoSuchPlace) {
  const auto workshop = open_shipped();
  const auto receiver = start_on(*workshop, "valve-am-receiver");
  EXPECT_THAT(refusal(*workshop, receiver, hum_where(Seen::yes, {.channel = "left"})),
              HasSubstr("band=long-wave, medium-wave"));
  EXPECT_THAT(refusal(*workshop, receiver, hum_where(Seen::yes, {.band = "fm"})),
              HasSubstr("long-wave, medium-wave"));
  EXPECT_THAT(refusal(*workshop, receiver, hum_where(Seen::yes, {.when = "minutes=0"})),
              HasSubstr("1 to 600"));
  EXPECT_THAT(refusal(*workshop, receiver, hum_where(Seen::yes, {.rate = "fast"})),
              HasSubstr("mains, twice"));
  const ReportSymptom weak{"weak-audio", Seen::yes, {.rate = "mains"}};
  EXPECT_THAT(refusal(*workshop, receiver, weak), HasSubstr("only a hum"));
  const auto supply = start_on(*workshop, "bench-supply");
  const ReportSymptom sags{"supply-sags", Seen::yes, {.follows = "not"}};
  EXPECT_THAT(refusal(*workshop, supply, sags), HasSubstr("no volume control"));
}

TEST(LocatedSymptoms, GoWithTheRepairOfWhatMadeThem) {
  const auto workshop = open_shipped();
  const auto number = start_on(*workshop, "power-amplifier");
  apply_ok(*workshop, number, hum_where(Seen::yes, {.channel = "left"}));
  apply_ok(*workshop, number, hum_where(Seen::no, {.channel = "right"}));
  apply_ok(*workshop, number, RecordRepair{"group:left-decoupling", "replaced", ""});
  const CaseView gone = apply_ok(*workshop, number, RetestSymptom{"hum-steady", false});
  EXPECT_GT(suspect(gone, "group:left-decoupling").blame.value(), 0.85);
  EXPECT_TRUE(gone.contradiction.empty());
}

TEST(LocatedSymptoms, AreKeptByTheJournalAndOldJournalsReadAsBefore) {
  const Command told = hum_where(Seen::yes, {.channel = "left",
                                             .band = "fm",
                                             .path = "receive",
                                             .source = "phono",
                                             .follows = "not",
                                             .rate = "twice",
                                             .when = "minutes=10"});
  quantities::Problems problems;
  const auto read = [&problems](const std::string& text) {
    const auto document = documents::parse(text, "case.json");
    EXPECT_TRUE(document.ok()) << text;
    return std::get<ReportSymptom>(command_from_json(documents::Reader(*document, problems)));
  };
  EXPECT_EQ(read(documents::to_line(to_json(told))).where, std::get<ReportSymptom>(told).where);
  // As a journal of before has it, and as one without a place is still written.
  const std::string old = R"({"do":"symptom","symptom":"hum-steady","seen":"yes"})";
  EXPECT_EQ(read(old).where, SymptomPlace{});
  EXPECT_EQ(documents::to_line(to_json(Command(ReportSymptom{"hum-steady", Seen::yes}))), old);
  EXPECT_TRUE(problems.empty()) << quantities::describe(problems);
}

TEST(LocatedSymptoms, SharesOfCapacitorOtherAndUnlistedAddUpToOne) {
  const auto workshop = open_shipped();
  for (const auto& equipment : {"stereo-receiver", "car-radio", "switch-mode-supply"}) {
    const auto number = start_on(*workshop, equipment);
    const CaseView view = apply_ok(*workshop, number, ReportSymptom{"dead-fuse-blown", Seen::yes});
    const Leading& leading = view.leading;
    EXPECT_NEAR(leading.capacitor.value() + leading.other.value() + leading.unlisted.value(), 1.0,
                1e-9);
    // One complaint: the share that is set (8 in 100), but for brothers that age together.
    EXPECT_NEAR(leading.unlisted.value(), 0.08, 0.02) << equipment;
  }
}

}  // namespace
}  // namespace dryout::casework
