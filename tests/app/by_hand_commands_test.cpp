// discharge, ripple, life: arithmetic by hand, against published figures.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "app/run_program.h"
#include "quantities/printed_number.h"

namespace dryout::app_test {
namespace {

using documents::Value;
using testing::AllOf;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

// IEC 60950-1, 2.1.1.7, as discussed in public (second-hand): 340 V peak, 1 uF, 1 Mohm. One time
// constant is 1 s and leaves 37 %: 125.08 V.
TEST(DischargeCommand, LeavesThirtySevenPercentAfterOneTimeConstant) {
  const Home home;
  const Value answer = home.json(
      {"discharge", "--capacitance", "1u", "--volts", "340", "--resistor", "1M", "--to", "125.08"});
  EXPECT_NEAR(number_at(answer, {"time_constant_s"}), 1.0, 1e-12);
  EXPECT_NEAR(number_at(answer, {"reached_s"}), 1.0, 1e-4);
  EXPECT_NEAR(number_at(answer, {"energy_J"}), 0.5 * 1e-6 * 340 * 340, 1e-9);
}

// IEC 60204-1, 6.2.4 (second-hand): down to 60 V within 5 s. From 400 V and 220 uF that asks for at
// most 5 / (220e-6 ln(400 / 60)) = 11.98 kohm.
TEST(DischargeCommand, ComesDownToSixtyVoltsInFiveSecondsThroughTheLargestResistorAllowed) {
  const Home home;
  const Value answer = home.json({"discharge", "--capacitance", "220u", "--volts", "400",
                                  "--resistor", "11.98k", "--to", "60"});
  EXPECT_NEAR(number_at(answer, {"reached_s"}), 5.0, 0.002);
  EXPECT_NEAR(number_at(answer, {"peak_W"}), 400.0 * 400.0 / 11980.0, 1e-6);
}

TEST(DischargeCommand, PicksAResistorAndSaysWhatItMustStand) {
  const Home home;
  const Value can = home.json({"discharge", "--capacitance", "10000u", "--volts", "60"});
  EXPECT_NEAR(number_at(can, {"resistor_ohm"}), 180.0, 1e-9);
  EXPECT_NEAR(number_at(can, {"peak_A"}), 60.0 / 180.0, 1e-12) << "60 V across 180 ohm";
  EXPECT_NEAR(number_at(can, {"peak_W"}), 20.0, 1e-9);
  EXPECT_LE(number_at(can, {"left_V"}), 5.0);
  EXPECT_GE(number_at(can, {"rating_W"}) * number_at(can, {"hold_s"}),
            number_at(can, {"energy_J"}));
  const Outcome told = home.run({"discharge", "--capacitance", "470u", "--volts", "400"});
  EXPECT_EQ(told.exit, 0);
  for (const char* words : {"2.2 k", "15 W", "400 V", "37.6 J", "10 to 20 days",
                            "local electrical code", "licensed practice"}) {
    EXPECT_NE(told.out.find(words), std::string::npos) << words << "\n" << told.out;
  }
}

TEST(DischargeCommand, TakesInTheOwnResistanceOfABackUpPart) {
  const Home home;
  const Value cell = home.json(
      {"discharge", "--capacitance", "0,1", "--volts", "5.5", "--esr", "45", "--resistor", "10"});
  EXPECT_NEAR(number_at(cell, {"time_constant_s"}), 5.5, 1e-9);
  EXPECT_NEAR(number_at(cell, {"peak_A"}), 0.1, 1e-9);
  EXPECT_NE(home.run({"discharge", "--capacitance", "0.1", "--volts", "5.5"}).out.find("--esr"),
            std::string::npos);
}

TEST(DischargeCommand, AShortIsRefusedWithItsAmperesAndJoules) {
  const Home home;
  const Outcome refused =
      home.run({"discharge", "--capacitance", "470u", "--volts", "450", "--resistor", "1"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_EQ(refused.out, "");
  for (const char* words : {"--resistor", "450 A", "47.59 J", "2.7 k"}) {
    EXPECT_NE(refused.err.find(words), std::string::npos) << words << '\n' << refused.err;
  }
  const Outcome warned =
      home.run({"discharge", "--capacitance", "10000u", "--volts", "50", "--resistor", "1"});
  EXPECT_EQ(warned.exit, 0);
  EXPECT_THAT(warned.out,
              AllOf(HasSubstr("50 A at first, 2.5 kW, and 12.5 J"), HasSubstr("150 Ω")));
  for (const char* volts : {"95", "105"}) {
    EXPECT_THAT(
        home.run({"discharge", "--capacitance", "1u", "--volts", volts, "--resistor", "100"}).out,
        HasSubstr("Take a larger one"))
        << "no step at 100 V";
  }
}

// The peak of a sine is 1.414 times its r.m.s. value (definition): 275 V a.c. charge to 389 V.
TEST(DischargeCommand, AlternatingVoltsChargeToTheirPeak) {
  const Home home;
  for (const char* typed : {"275~", "275Vac", "275 V a.c.", "275V~", "275VAC"}) {
    const Value answer = home.json({"discharge", "--capacitance", "470n", "--volts", typed});
    EXPECT_NEAR(number_at(answer, {"rating_V"}), 275.0 * std::sqrt(2.0), 1e-9) << typed;
  }
  const std::vector<std::string> suppressor{"discharge",    "--capacitance", "470n",
                                            "--technology", "mains-film",    "--volts"};
  const auto with = [&](const char* typed) {
    std::vector<std::string> command = suppressor;
    command.emplace_back(typed);
    return home.run(command).out;
  };
  EXPECT_THAT(with("275"), AllOf(HasSubstr("275 V a.c."), HasSubstr("389 V"), HasSubstr("275Vdc")));
  EXPECT_THAT(with("275Vdc"), AllOf(HasSubstr("rated"), Not(HasSubstr("389 V"))));
  EXPECT_THAT(home.run({"discharge", "--capacitance", "1u", "--volts", "4q~"}).err,
              HasSubstr("--volts"));
}

// A bias supply stands below the chassis: there the negative end is the live one (definition).
TEST(DischargeCommand, TheEndOnChassisComesFirstWhateverItsSign) {
  const Home home;
  EXPECT_THAT(home.run({"discharge", "--capacitance", "50u", "--volts", "38"}).out,
              AllOf(HasSubstr("chassis or common first"), Not(HasSubstr("negative end first"))));
}

TEST(DischargeCommand, APartOfASecondIsToldAndNobodyLetsGoSooner) {
  const Home home;
  const Outcome told =
      home.run({"discharge", "--capacitance", "1u", "--volts", "340", "--resistor", "4700"});
  for (const char* words : {"4.7 ms a time constant", "after 19.8 ms", "hold        1 s"}) {
    EXPECT_NE(told.out.find(words), std::string::npos) << words << '\n' << told.out;
  }
}

/// One table of ranges, one sentence, whichever command asks.
TEST(NumbersByHand, AreRefusedInTheSameWordsEverywhere) {
  const Home home;
  const auto refusal = [&home](const std::vector<std::string>& command) {
    const Outcome refused = home.run(command);
    EXPECT_EQ(refused.exit, 2) << command.front();
    return refused.err.substr(refused.err.find("is not possible"));
  };
  const std::string capacitance = refusal({"discharge", "--capacitance", "11", "--volts", "5"});
  EXPECT_EQ(capacitance,
            refusal({"reading", "--value", "1", "--capacitance", "11", "--volts", "25"}));
  EXPECT_EQ(capacitance, refusal({"ripple", "--load", "1", "--capacitance", "11"}));
  EXPECT_EQ(refusal({"discharge", "--capacitance", "1", "--volts", "5", "--esr", "2G"}),
            refusal({"reading", "--value", "2G", "--kind", "esr", "--capacitance", "1u", "--volts",
                     "25"}));
  EXPECT_EQ(home.run({"discharge", "--capacitance", "1u", "--volts", "5", "--esr", "900M"}).exit,
            0);
}

TEST(DischargeCommand, TellsWhatComesBackByTheKindOfPart) {
  const Home home;
  const Outcome tube = home.run({"discharge", "--capacitance", "2n", "--volts", "25000"});
  EXPECT_THAT(tube.out, AllOf(HasSubstr("less than 1 mV is left"), HasSubstr("25 kV"),
                              HasSubstr("keep it shorted"), HasSubstr("within minutes")));
  EXPECT_THAT(tube.out, Not(AnyOf(HasSubstr("electrolytic"), HasSubstr("days"), HasSubstr("e+"),
                                  HasSubstr("pV"))));
  EXPECT_THAT(home.run({"discharge", "--capacitance", "470u", "--volts", "400"}).out,
              AllOf(HasSubstr("electrolytic may climb back to 40 V"), HasSubstr("days later")));
  EXPECT_THAT(
      home.run({"discharge", "--capacitance", "10u", "--volts", "400", "--technology", "oil-paper"})
          .out,
      AllOf(HasSubstr("paper in oil may give back up to 40 V"), Not(HasSubstr("days"))));
  const Outcome wrong =
      home.run({"discharge", "--capacitance", "10u", "--volts", "400", "--technology", "filn"});
  EXPECT_EQ(wrong.exit, 2);
  EXPECT_THAT(wrong.err, AllOf(HasSubstr("--technology"), HasSubstr("\"film\"")));
}

TEST(DischargeCommand, ComesDownFromMoreThanItShallReach) {
  const Home home;
  const Outcome up =
      home.run({"discharge", "--capacitance", "100u", "--volts", "320", "--to", "400"});
  EXPECT_EQ(up.exit, 2);
  EXPECT_THAT(up.err, AllOf(HasSubstr("--to"), HasSubstr("400 V"), HasSubstr("320 V")));
  const Outcome low = home.run({"discharge", "--capacitance", "100u", "--volts", "4"});
  EXPECT_EQ(low.exit, 0);
  EXPECT_THAT(low.out, AllOf(HasSubstr("at or below 5 V from the start"), Not(HasSubstr("0 s"))));
}

TEST(DischargeCommand, NamesTheOptionAndWhatIsAccepted) {
  const Home home;
  const Outcome none = home.run({"discharge", "--volts", "400"});
  EXPECT_EQ(none.exit, 2);
  EXPECT_NE(none.err.find("--capacitance"), std::string::npos) << none.err;
  const Outcome odd = home.run({"discharge", "--capacitance", "-4u", "--volts", "4x"});
  EXPECT_EQ(odd.exit, 2);
  EXPECT_EQ(odd.out, "");
  EXPECT_NE(odd.err.find("--volts"), std::string::npos) << odd.err;
}

// Published: 2 A, 60 Hz, full wave, 0.001 F: 16.67 V (calculator.7search.cc). An rms of a triangle
// is Vpp / (2 sqrt 3).
TEST(RippleCommand, GivesThePublishedFullWaveFigure) {
  const Home home;
  const Value answer =
      home.json({"ripple", "--load", "2", "--capacitance", "1000u", "--mains", "60"});
  EXPECT_NEAR(number_at(answer, {"ripple_Vpp"}), 16.67, 0.01);
  EXPECT_NEAR(number_at(answer, {"ripple_Vrms"}), 16.6667 / (2.0 * std::sqrt(3.0)), 1e-3);
}

// GATE EC 2016, set 2, question 39 (question opened, answer 2.0 to 2.2 V from memory): half wave,
// 475 uF, 1 A, 1 ms.
TEST(RippleCommand, GivesThePublishedHalfWaveFigure) {
  const Home home;
  const Value answer = home.json(
      {"ripple", "--load", "1", "--capacitance", "475u", "--mains", "1000", "--half-wave"});
  EXPECT_GE(number_at(answer, {"ripple_Vpp"}), 2.0);
  EXPECT_LE(number_at(answer, {"ripple_Vpp"}), 2.2);
}

// Published (qammunity 2316759): 15 V peak, 14 V mean, 1 kohm, 60 Hz full wave: 2 V peak to peak;
// the 14 mA then ask for 14 mA / (120 Hz 2 V) = 58.3 uF.
TEST(RippleCommand, TellsTheCapacitanceARippleAsksFor) {
  const Home home;
  const Value answer = home.json({"ripple", "--load", "14m", "--ripple", "2", "--mains", "60"});
  EXPECT_NEAR(number_at(answer, {"capacitance_F"}), 58.3e-6, 0.1e-6);
}

TEST(RippleCommand, StepsTheRectifierInTimeWhereTheWindingIsKnown) {
  const Home home;
  const Value answer = home.json({"ripple", "--load", "0.5", "--capacitance", "4700u", "--winding",
                                  "21.213", "--mains", "50"});
  EXPECT_LT(number_at(answer, {"settled_Vpp"}), number_at(answer, {"ripple_Vpp"}));
  EXPECT_GT(number_at(answer, {"lowest_V"}), 20.0);
  EXPECT_EQ(home.run({"ripple", "--load", "1"}).exit, 2);
}

TEST(RippleCommand, ARippleThatWasReadSaysAtMostSoMuchUnlessTheWindingIsKnown) {
  const Home home;
  const std::vector<std::string> made{"ripple", "--load",    "1.5", "--capacitance",
                                      "3000u",  "--winding", "18"};
  const std::string read = quantities::fixed_point(number_at(home.json(made), {"settled_Vpp"}), 6);
  const Outcome without = home.run({"ripple", "--load", "1.5", "--ripple", read});
  EXPECT_THAT(without.out, AllOf(HasSubstr("at most so much is left"), HasSubstr("--winding")));
  const Value with = home.json({"ripple", "--load", "1.5", "--ripple", read, "--winding", "18"});
  EXPECT_NEAR(number_at(with, {"settled_capacitance_F"}), 3000e-6, 10e-6);
  EXPECT_GT(number_at(with, {"capacitance_F"}), 4000e-6) << "first order overstates";
  EXPECT_THAT(home.run({"ripple", "--load", "1.5", "--ripple", "60", "--winding", "18"}).out,
              HasSubstr("no capacitance behind this winding"));
}

// Cosel Q&A a0057: 1000 h at 105 degrees, 8 h each at 45, 55 and 65: as if at 57.2 all the time.
TEST(LifeCommand, AddsUpTheDayOfThePublishedExample) {
  const Home home;
  const Value answer = home.json({"life", "--hours", "1000", "--at", "8@45,8@55,8@65"});
  EXPECT_NEAR(number_at(answer, {"hours"}), 27428.6, 0.1);
  EXPECT_NEAR(number_at(answer, {"equivalent_C"}), 57.2, 0.05);
}

// The makers' rule (Chemi-Con life page): doubled by ten degrees less; 2000 h at 105 are 32 000 at
// 65.
TEST(LifeCommand, DoublesWithTenDegreesLess) {
  const Home home;
  EXPECT_NEAR(number_at(home.json({"life", "--hours", "2000", "--at", "65"}), {"hours"}), 32000.0,
              1e-6);
  const Outcome refused = home.run({"life", "--hours", "2000"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_NE(refused.err.find("--at"), std::string::npos) << refused.err;
}

TEST(LifeCommand, PromisesNothingOutsideOfTheMakersRule) {
  const Home home;
  const Outcome hot = home.run({"life", "--hours", "2000", "--rated-at", "105", "--at", "120"});
  EXPECT_EQ(hot.exit, 2);
  EXPECT_THAT(hot.err, AllOf(HasSubstr("--at"), HasSubstr("120"), HasSubstr("up to 105")));
  EXPECT_EQ(home.run({"life", "--hours", "2000", "--at", "8@45,1@110"}).exit, 2);
  EXPECT_EQ(home.run({"life", "--hours", "2000", "--at", "105"}).exit, 0);
  const Outcome cool = home.run({"life", "--hours", "2000", "--at", "25", "--used", "0.3"});
  EXPECT_THAT(cool.out, AllOf(HasSubstr("more than"), HasSubstr("15 years"),
                              HasSubstr("as if at 40"), Not(HasSubstr("193"))));
  const Value capped = home.json({"life", "--hours", "2000", "--at", "25", "--used", "0.3"});
  EXPECT_DOUBLE_EQ(number_at(capped, {"years_without_pause"}), 15.0);
  EXPECT_DOUBLE_EQ(number_at(capped, {"equivalent_C"}), 40.0);
  // 1000 h at 85 degrees are 22,627 h at 40 by the rule: 2.6 years, told as they are.
  EXPECT_NEAR(number_at(home.json({"life", "--hours", "1000", "--rated-at", "85", "--at", "20"}),
                        {"hours"}),
              22627.4, 0.1);
}

TEST(LifeCommand, SaysWhatItDoesNotCover) {
  const Home home;
  const Outcome told = home.run({"life", "--hours", "2000", "--at", "65"});
  for (const char* words :
       {"An estimate", "not a limit", "ripple current", "Measure it", "local electrical codes"}) {
    EXPECT_NE(told.out.find(words), std::string::npos) << words << '\n' << told.out;
  }
  EXPECT_EQ(at(home.json({"life", "--hours", "2000", "--at", "65"}), {"cautions"})
                .array_elements()
                ->size(),
            3U);
}

TEST(ReadingCommand, SaysWhoComesFirst) {
  const Home home;
  const Outcome told = home.run(
      {"reading", "--value", "2.4", "--capacitance", "47u", "--volts", "25", "--limit", "1"});
  EXPECT_EQ(told.exit, 0);
  EXPECT_NE(told.out.find("licensed practice"), std::string::npos) << told.out;
}

}  // namespace
}  // namespace dryout::app_test
