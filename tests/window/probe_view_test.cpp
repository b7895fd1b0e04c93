#include "window/probe_view.h"

#include <gtest/gtest.h>

#include "window/driver.h"

namespace dryout::window {
namespace {

using namespace casework;

TEST(ProbeView, RecordsTheOutcomeByOneKey) {
  Driver bench(desk_with(sample_case()));
  bench.type("b");
  EXPECT_EQ(bench.only<RecordOutcome>().bad, Seen::yes);
  bench.type("G");
  EXPECT_EQ(bench.only<RecordOutcome>().bad, Seen::no);
  bench.type("u");
  const auto unclear = bench.only<RecordOutcome>();
  EXPECT_EQ(unclear.bad, Seen::unclear);
  EXPECT_EQ(unclear.check, "esr-in-circuit");
  EXPECT_EQ(unclear.place, "reservoirs");
}

TEST(ProbeView, TakesAFigureTypedWithoutTouchingAnything) {
  Driver bench(desk_with(sample_case()));
  bench.type("4R7");
  bench.key(Key::enter);
  const auto reading = bench.only<RecordReading>();
  EXPECT_DOUBLE_EQ(reading.value, 4.7);
  EXPECT_EQ(reading.item, "reservoirs");
  EXPECT_EQ(reading.kind, ReadingKind::esr);
}

TEST(ProbeView, KeepsLettersOfAFigureFromBeingTakenForKeys) {
  Driver bench(desk_with(sample_case()));
  bench.type("2g");  // g is "looked good" everywhere but in the field
  EXPECT_TRUE(bench.wishes().empty());
  bench.key(Key::escape);
  bench.key(Key::escape);
  bench.type("g");
  EXPECT_EQ(bench.only<RecordOutcome>().bad, Seen::no);
}

TEST(ProbeView, KeepsANumberReadOnARailAsARemarkBesideTheOutcome) {
  CaseView view = sample_case();
  view.next.front().place = "plus-38";
  view.next.front().quantity = "ripple";
  Driver bench(desk_with(view));
  EXPECT_FALSE(bench.shows("probe/reading/figure")) << "a reading belongs to a capacitor";
  bench.type("1.9 V");
  bench.key(Key::enter);
  bench.type("b");
  const auto outcome = bench.only<RecordOutcome>();
  EXPECT_EQ(outcome.remark, "1.9 V");
  EXPECT_EQ(outcome.bad, Seen::yes);
  bench.type("b");
  EXPECT_EQ(bench.only<RecordOutcome>().remark, "") << "a remark is noted once";
}

TEST(ProbeView, SaysWhatItCannotRead) {
  Driver bench(desk_with(sample_case()));
  bench.type("4,700");
  bench.key(Key::enter);
  EXPECT_TRUE(bench.wishes().empty());
  EXPECT_NE(bench.desk().probe.reading.fault.find("4,700"), std::string::npos)
      << bench.desk().probe.reading.fault;
  EXPECT_EQ(bench.desk().probe.reading.figure, "4,700") << "what was typed must not be lost";
}

// The decimal key of a German keyboard gives a comma, first of all that is typed or within it.
TEST(ProbeView, TakesADecimalCommaWhereverItStands) {
  const std::vector<std::pair<const char*, double>> figures{
      {",47", 0.47}, {"0,47", 0.47}, {"2,4", 2.4}, {"35,5m", 0.0355}, {"1,2k", 1200.0}};
  for (const auto& [typed, ohms] : figures) {
    Driver bench(desk_with(sample_case()));
    bench.type(typed);
    bench.key(Key::enter);
    EXPECT_DOUBLE_EQ(bench.only<RecordReading>().value, ohms) << typed;
    Driver fast(desk_with(sample_case()));
    fast.type_at_once(typed);
    fast.key(Key::enter);
    EXPECT_DOUBLE_EQ(fast.only<RecordReading>().value, ohms) << typed;
  }
}

TEST(ProbeView, LettersBehindAFigureAreNoKeysEvenWithinOneFrame) {
  Driver bench(desk_with(sample_case()));
  bench.type_at_once("4u7b");
  EXPECT_TRUE(bench.wishes().empty());
  EXPECT_EQ(bench.desk().probe.reading.figure, "4u7b");
  bench.key(Key::enter);
  EXPECT_TRUE(bench.wishes().empty()) << "what cannot be read is not stored";
}

TEST(ProbeView, ANumberThatCannotBeIsRefusedWithItsRange) {
  for (const char* typed : {"1e-60", "1e300", "-3"}) {
    Driver bench(desk_with(sample_case()));
    bench.type(typed);
    bench.key(Key::enter);
    EXPECT_TRUE(bench.wishes().empty()) << typed;
    EXPECT_NE(bench.desk().probe.reading.fault.find("1 nΩ to 1 GΩ"), std::string::npos)
        << bench.desk().probe.reading.fault;
  }
}

TEST(ProbeView, RanksWhatAPrintMayMeanAndSaysWhy) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/print");
  bench.type("47/16");
  EXPECT_EQ(bench.label("probe/print/0"), "47 µF, 16 V");
  EXPECT_TRUE(bench.shows("probe/print/0"));
}

TEST(ProbeView, NamesAPartThatNobodyNamedYetBeforeItsReading) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/part");
  bench.type("C801");
  bench.click("probe/reading/figure");
  bench.type("0.42");
  bench.key(Key::enter);
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 2U);
  EXPECT_EQ(std::get<NamePart>(std::get<Command>(wishes[0])).group, "reservoirs");
  EXPECT_EQ(std::get<RecordReading>(std::get<Command>(wishes[1])).item, "C801");
}

TEST(ProbeView, WhatIsPrintedGoesWithTheReadingAndIsNeverDropped) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/print");
  bench.type("8uF 500V");
  bench.click("probe/reading/figure");
  bench.type("2.0");
  bench.key(Key::enter);
  EXPECT_TRUE(bench.wishes().empty()) << "of which part is it?";
  EXPECT_NE(bench.desk().probe.reading.fault.find("which part bears this print"),
            std::string::npos);
  EXPECT_EQ(bench.desk().probe.print, "8uF 500V");
  bench.click("probe/part");
  bench.type("C801");
  bench.click("probe/reading/figure");
  bench.key(Key::enter);
  const std::vector<Intention> wishes = bench.wishes();
  ASSERT_EQ(wishes.size(), 2U);
  const auto& part = std::get<NamePart>(std::get<Command>(wishes[0]));
  EXPECT_EQ(part.capacitance, quantities::microfarads(8));
  EXPECT_EQ(part.rated, quantities::volts(500));
  EXPECT_TRUE(bench.desk().probe.print.empty());
}

TEST(ProbeView, DoesNotNameAPartTwice) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/part");
  bench.type("C12");
  bench.click("probe/reading/figure");
  bench.type("0.42");
  bench.key(Key::enter);
  EXPECT_EQ(bench.only<RecordReading>().item, "C12");
}

TEST(ProbeView, SendsWhatSitsAcrossAndTheLimitFromTheSheet) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/reading/across/5");
  bench.click("probe/reading/more");
  bench.click("probe/reading/limit");
  bench.type("0.25");
  bench.click("probe/reading/limit-source/look-alike");
  bench.click("probe/reading/zero");
  bench.type("50m");
  bench.click("probe/reading/in-circuit");
  bench.click("probe/reading/figure");
  bench.type("0.4");
  bench.key(Key::enter);
  const auto reading = bench.only<RecordReading>();
  EXPECT_EQ(reading.across, Across::regulator);
  ASSERT_TRUE(reading.limit.has_value());
  EXPECT_DOUBLE_EQ(*reading.limit, 0.25);
  EXPECT_EQ(reading.limit_source, "look-alike");
  ASSERT_TRUE(reading.lead_zero.has_value());
  EXPECT_DOUBLE_EQ(*reading.lead_zero, 0.05);
  EXPECT_FALSE(reading.in_circuit);
}

TEST(ProbeView, ShowsCautionsBeforeAnythingCanBeEntered) {
  Driver bench(desk_with(dangerous_case()));
  EXPECT_FALSE(bench.shows("probe/bad"));
  EXPECT_FALSE(bench.shows("probe/reading/figure"));
  bench.type("b7");
  bench.key(Key::enter);
  EXPECT_TRUE(bench.wishes().empty());
  bench.type("a");
  EXPECT_EQ(bench.only<AcknowledgeCautions>().check, "esr-in-circuit");
}

TEST(ProbeView, IsDeafToHeedingWhileTheCautionsAreOutOfSight) {
  CaseView view = dangerous_case();
  for (CautionView& caution : view.next.front().cautions) {
    for (int i = 0; i < 4; ++i) {
      caution.wording += caution.wording;
    }
  }
  Driver bench(desk_with(view));
  bench.type("a");
  EXPECT_TRUE(bench.wishes().empty());
  for (int page = 0; page < 6; ++page) {
    bench.key(Key::page_down);
  }
  bench.click("probe/acknowledge");  // in sight now
  EXPECT_EQ(bench.only<AcknowledgeCautions>().check, "esr-in-circuit");
}

TEST(ProbeView, HoldsCautionsBackInTheFarViewToo) {
  Driver bench(desk_with(dangerous_case()));
  bench.type("f");
  EXPECT_TRUE(bench.desk().far);
  EXPECT_FALSE(bench.shows("probe/bad"));
  EXPECT_TRUE(bench.shows("probe/acknowledge"));
}

TEST(ProbeView, SetsAsideWhatCannotBeReachedAndTakesItBack) {
  Driver bench(desk_with(sample_case()));
  bench.type("r");
  EXPECT_EQ(bench.only<DeclineCheck>().check, "esr-in-circuit");
  bench.click("probe/reconsider/thermal/reservoirs");
  EXPECT_EQ(bench.only<ReconsiderCheck>().check, "thermal");
}

TEST(ProbeView, OpensTheLidByKey) {
  Driver bench(desk_with(sample_case()));
  bench.type("n");
  EXPECT_EQ(bench.only<OpenAccess>().access, "lid");
}

TEST(ProbeView, PutsAnAlternativeInHand) {
  Driver bench(desk_with(sample_case()));
  bench.click("probe/other/other-1/reservoirs");
  EXPECT_EQ(bench.desk().probe.check, "other-1");
  bench.type("g");
  EXPECT_EQ(bench.only<RecordOutcome>().check, "other-1");
}

TEST(ProbeView, FallsBackToTheBestCheckWhenThePickedOneIsGone) {
  const CaseView view = sample_case();
  ProbeState state;
  state.check = "made-long-ago";
  EXPECT_EQ(check_in_hand(view, state), &view.next.front());
  EXPECT_EQ(check_in_hand(fresh_case(), state), nullptr);
}

}  // namespace
}  // namespace dryout::window
