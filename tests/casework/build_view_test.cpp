#include "casework/build_view.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class BuildView : public testing::Test {
 protected:
  CaseView does(const Command& command) { return apply_ok(*workshop_, number_, command); }
  CaseView heeded(const std::string& check, const std::string& place, Seen bad) {
    does(AcknowledgeCautions{check, place});
    return does(RecordOutcome{check, place, bad, ""});
  }

  std::unique_ptr<Workshop> workshop_ = open_workshop();
  std::int64_t number_ = start_lantern(*workshop_);
};

TEST_F(BuildView, ClaimsNothingBeforeAnythingIsReported) {
  const CaseView view = *workshop_->view(number_);
  EXPECT_THAT(view.leading.sentence, HasSubstr("Nothing is known to be wrong yet"));
  EXPECT_FALSE(view.leading.settled);
  EXPECT_EQ(view.leading.capacitor.value(), 0.0);
  for (const SuspectView& each : view.suspects) {
    EXPECT_EQ(each.suspicion, each.unsound);
    EXPECT_NEAR(each.weight.value, 0.0, 1e-9) << each.item;
    EXPECT_THAT(each.evidence, IsEmpty());
  }
}

TEST_F(BuildView, ASymptomRaisesWhatCanShowItAndLeavesTheRest) {
  const CaseView before = *workshop_->view(number_);
  const CaseView after = does(ReportSymptom{"hums", Seen::yes});
  const auto& reservoirs = suspect(after, "group:reservoirs");
  EXPECT_GT(reservoirs.unsound, suspect(before, "group:reservoirs").unsound);
  EXPECT_GT(reservoirs.weight.value, 0.0);
  EXPECT_EQ(after.suspects.front().item, "group:reservoirs");
  EXPECT_EQ(suspect(after, "group:coupling").suspicion.value(), 0.0) << "it cannot hum";
  ASSERT_THAT(reservoirs.evidence, Not(IsEmpty()));
  EXPECT_EQ(reservoirs.evidence.front().text, "Hum with the volume down: reported");
  EXPECT_THAT(reservoirs.paths, Not(IsEmpty()));
  EXPECT_GT(after.leading.capacitor.value(), 0.5);
  EXPECT_NEAR(after.leading.capacitor.value() + after.leading.other.value() +
                  after.leading.unlisted.value(),
              1.0, 1e-12);
}

TEST_F(BuildView, SuspectsBlocksAndBoardsAgree) {
  const CaseView view = does(ReportSymptom{"hums", Seen::yes});
  for (std::size_t i = 1; i < view.suspects.size(); ++i) {
    EXPECT_GE(view.suspects[i - 1].suspicion, view.suspects[i].suspicion);
  }
  ASSERT_EQ(view.blocks.size(), 2U);
  EXPECT_GE(view.blocks[0].suspicion, suspect(view, "group:reservoirs").suspicion);
  EXPECT_GE(view.boards[0].suspicion, view.blocks[0].suspicion);
  EXPECT_EQ(view.blocks[1].fed_by, std::vector<std::string>{"+38 V rail"});
  for (const SuspectView& each : view.suspects) {
    double sum = 0.0;
    for (const StateShare& share : each.states) {
      sum += share.probability.value();
    }
    EXPECT_NEAR(sum, 1.0, 1e-9) << each.item;
  }
}

TEST_F(BuildView, SaysWhenItIsProbablyNoCapacitor) {
  does(ReportSymptom{"silent", Seen::yes});
  const CaseView view = *workshop_->view(number_);
  EXPECT_THAT(view.leading.sentence, HasSubstr("Probably not a capacitor"));
  EXPECT_THAT(view.leading.sentence, HasSubstr("Dirty contact"));
}

TEST_F(BuildView, OutcomesOfTheSameCheckTakeEachOthersPlace) {
  does(ReportSymptom{"hums", Seen::yes});
  const double bad = heeded("ripple-on-rail", "raw", Seen::yes).suspects.front().unsound.value();
  const CaseView good = does(RecordOutcome{"ripple-on-rail", "raw", Seen::no, ""});
  EXPECT_LT(suspect(good, "group:reservoirs").unsound.value(), bad);
  const CaseView unclear = does(RecordOutcome{"ripple-on-rail", "raw", Seen::unclear, ""});
  EXPECT_EQ(next_check(unclear, "ripple-on-rail", "raw"), nullptr) << "it is set aside";
  ASSERT_EQ(unclear.declined.size(), 1U);
  EXPECT_EQ(unclear.declined.front().check, "ripple-on-rail");
  const CaseView again = does(ReconsiderCheck{"ripple-on-rail", "raw"});
  EXPECT_NE(next_check(again, "ripple-on-rail", "raw"), nullptr) << "and can be called back";
  EXPECT_EQ(next_check(good, "ripple-on-rail", "raw"), nullptr);
}

TEST_F(BuildView, ChecksSayWhyWhatToOpenAndWhatHurts) {
  const CaseView view = does(ReportSymptom{"hums", Seen::yes});
  const CheckView* ripple = next_check(view, "ripple-on-rail", "raw");
  ASSERT_NE(ripple, nullptr);
  EXPECT_THAT(ripple->reason, testing::AllOf(HasSubstr("reservoirs ("), HasSubstr("3 min"),
                                             HasSubstr("first: lid off")));
  EXPECT_TRUE(ripple->dangerous);
  EXPECT_FALSE(ripple->acknowledged);
  ASSERT_THAT(ripple->cautions, Not(IsEmpty()));
  EXPECT_EQ(ripple->cautions.front().danger, "mains");
  EXPECT_EQ(ripple->opens, std::vector<std::string>{"lid"});
  const CheckView* esr = next_check(view, "esr-in-circuit", "reservoirs");
  ASSERT_NE(esr, nullptr);
  EXPECT_EQ(esr->opens, (std::vector<std::string>{"lid", "shield"})) << "the solder side";
  EXPECT_EQ(esr->access_effort.si(), 360.0);
  EXPECT_TRUE(esr->dangerous) << "the block makes 300 V, and charge stays";
  ASSERT_THAT(esr->cautions, Not(IsEmpty()));
  EXPECT_EQ(esr->cautions.front().danger, "stored-charge");
  const CheckView* life = next_check(view, "sign-of-life", "power");
  ASSERT_NE(life, nullptr);
  EXPECT_FALSE(life->dangerous);
  EXPECT_TRUE(life->acknowledged);
}

TEST_F(BuildView, WhatIsOpenCostsNothingMore) {
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView view = does(OpenAccess{"shield"});
  EXPECT_TRUE(view.access[0].open) << "the lid came off before the shield";
  EXPECT_EQ(view.boards[0].access_effort.si(), 0.0);
  EXPECT_THAT(next_check(view, "esr-in-circuit", "reservoirs")->opens, IsEmpty());
}

TEST_F(BuildView, DeclinedChecksStandApart) {
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView view = does(DeclineCheck{"ripple-on-rail", "raw", "no scope here"});
  EXPECT_EQ(next_check(view, "ripple-on-rail", "raw"), nullptr);
  ASSERT_EQ(view.declined.size(), 1U);
  EXPECT_EQ(view.declined[0].reason, "Left out: no scope here");
  EXPECT_THAT(does(ReconsiderCheck{"ripple-on-rail", "raw"}).declined, IsEmpty());
}

TEST_F(BuildView, TheTechnicianOutweighsTheFiguresButNotForEver) {
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView cleared = does(JudgeSuspect{"group:reservoirs", JudgeSuspect::Verdict::cleared});
  EXPECT_LT(suspect(cleared, "group:reservoirs").unsound.value(), 0.05);
  EXPECT_EQ(suspect(cleared, "group:reservoirs").judged, "cleared");
  const CaseView at_fault = does(JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::at_fault});
  EXPECT_GT(suspect(at_fault, "group:reservoirs").unsound.value(), 0.95);
  EXPECT_EQ(suspect(at_fault, "group:reservoirs").judged, "at-fault") << "one id, two spellings";
  const CaseView open = does(JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::open});
  EXPECT_EQ(suspect(open, "group:reservoirs").judged, "");
}

TEST_F(BuildView, EvidenceThatCannotAllBeTrueIsNamedAndLeftOut) {
  const CaseView alone = does(ReportSymptom{"silent", Seen::yes});
  // "silent" has no leak and a silent power stage always shows in "sign-of-life".
  const CaseView view = does(RecordOutcome{"sign-of-life", "power", Seen::no, ""});
  EXPECT_THAT(view.contradiction,
              testing::AllOf(HasSubstr("No sound at all: reported (step 2)"),
                             HasSubstr("Sign of life, Power stage: looked good (step 3)"),
                             HasSubstr("take its step back")));
  EXPECT_FALSE(view.leading.settled);
  EXPECT_EQ(view.log.size(), 3U) << "the command is kept";
  const CaseView resolved = does(RecordOutcome{"sign-of-life", "power", Seen::unclear, ""});
  EXPECT_EQ(resolved.contradiction, "");
  EXPECT_EQ(resolved.suspects.front().suspicion, alone.suspects.front().suspicion);
}

TEST_F(BuildView, WhatIsGoneAfterTheRepairSettlesTheCase) {
  const CaseView before = does(ReportSymptom{"hums", Seen::yes});
  const CaseView untried = does(RecordRepair{"group:reservoirs", "replaced", "2 x 4700 µF"});
  EXPECT_EQ(untried.leading.sentence,
            "Mended: Reservoirs. Try the set again before anything else is mended.");
  const CaseView gone = does(RetestSymptom{"hums", false});
  EXPECT_TRUE(gone.leading.settled);
  EXPECT_EQ(gone.leading.sentence, "Gone after the repair: Reservoirs.");
  EXPECT_GT(suspect(gone, "group:reservoirs").suspicion,
            suspect(before, "group:reservoirs").suspicion);
  EXPECT_EQ(suspect(gone, "group:reservoirs").mended, "replaced");
  EXPECT_EQ(gone.contradiction, "");
}

TEST_F(BuildView, WhatStaysAfterTheRepairSpeaksForTheOthers) {
  const CaseView before = does(ReportSymptom{"hums", Seen::yes});
  does(RecordRepair{"group:reservoirs", "replaced", ""});
  const CaseView still = does(RetestSymptom{"hums", true});
  EXPECT_EQ(still.contradiction, "");
  EXPECT_FALSE(still.leading.settled);
  EXPECT_GT(suspect(still, "cause:open-diode@supply").suspicion,
            suspect(before, "cause:open-diode@supply").suspicion);
  EXPECT_LT(suspect(still, "group:reservoirs").unsound,
            suspect(before, "group:reservoirs").unsound);
}

TEST_F(BuildView, AfterARepairOnlyWhatLookedBadIsToBeCheckedAgain) {
  does(ReportSymptom{"hums", Seen::yes});
  heeded("ripple-on-rail", "raw", Seen::no);
  const CaseView good = does(RecordRepair{"group:reservoirs", "replaced", ""});
  EXPECT_EQ(next_check(good, "ripple-on-rail", "raw"), nullptr);
  heeded("ripple-on-rail", "raw", Seen::yes);
  const CaseView bad = does(RecordRepair{"cause:open-diode@supply", "replaced", ""});
  EXPECT_NE(next_check(bad, "ripple-on-rail", "raw"), nullptr);
}

TEST_F(BuildView, ASymptomStillThereAfterRepairsIsOnePieceOfEvidence) {
  does(ReportSymptom{"hums", Seen::yes});
  does(RecordRepair{"group:reservoirs", "replaced", ""});
  const CaseView once = does(RetestSymptom{"hums", true});
  ASSERT_EQ(suspect(once, "cause:open-diode@supply").evidence.size(), 1U);
  EXPECT_THAT(suspect(once, "cause:open-diode@supply").evidence.front().text,
              HasSubstr("still there after the repair"));
}

TEST_F(BuildView, AReadingOfANamedPartConvictsItAndItsBrothersKnow) {
  const CaseView before = does(
      NamePart{"C12", "reservoirs", quantities::microfarads(4700), quantities::volts(50), "", ""});
  RecordReading reading;
  reading.item = "C12";
  reading.value = 2.4;
  reading.limit = 0.1;
  reading.limit_source = "datasheet";
  const CaseView bad = does(reading);
  ASSERT_EQ(bad.readings.size(), 1U);
  EXPECT_EQ(bad.readings[0].item, "part:C12");
  EXPECT_EQ(bad.readings[0].verdict, "over-limit");
  EXPECT_EQ(bad.readings[0].shown, "2.4 Ω");
  EXPECT_THAT(bad.readings[0].sentence, Not(IsEmpty()));
  EXPECT_GT(suspect(bad, "part:C12").unsound.value(), 0.95);
  EXPECT_GT(suspect(bad, "group:reservoirs").unsound.value(),
            suspect(before, "group:reservoirs").unsound.value())
      << "one cohort: a bad brother raises the rest";
}

TEST_F(BuildView, AReadingOfANewPartIsNoEvidenceOnTheOld) {
  does(NamePart{"C12", "reservoirs", quantities::microfarads(4700), {}, "", ""});
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView before = does(RecordRepair{"part:C12", "replaced", ""});
  RecordReading reading;
  reading.item = "C12";
  reading.value = 0.02;
  reading.limit = 0.1;
  reading.limit_source = "datasheet";
  const CaseView after = does(reading);
  EXPECT_TRUE(after.readings[0].after_repair);
  EXPECT_EQ(suspect(after, "part:C12").unsound, suspect(before, "part:C12").unsound);
}

TEST_F(BuildView, AClosedCaseSaysItsCause) {
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView closed = does(CloseCase{"group:reservoirs", "dried out"});
  EXPECT_TRUE(closed.closed);
  EXPECT_EQ(closed.leading.sentence, "Closed: Reservoirs.");
  EXPECT_EQ(workshop_->cases()->front().cause, "group:reservoirs");
}

TEST_F(BuildView, TheLogIsWorded) {
  does(ReportSymptom{"hums", Seen::yes});
  const CaseView view = heeded("ripple-on-rail", "raw", Seen::yes);
  std::vector<std::string> lines;
  for (const LogLine& line : view.log) {
    lines.push_back(line.text);
  }
  EXPECT_THAT(lines, testing::ElementsAre("Taken in: Lantern 40, built 1981, of Frau Abel: it hums",
                                          "Hum with the volume down: there",
                                          "Cautions heeded: Ripple on a rail, +38 V rail",
                                          "Ripple on a rail, +38 V rail: looked bad"));
  EXPECT_THAT(view.log[0].when, testing::MatchesRegex("2026-03-04 ..:.."));
}

}  // namespace
}  // namespace dryout::casework
