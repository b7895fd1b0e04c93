// A part that a meter of d.c. resistance shows to be shorted, by itself, is as bad as one over its
// own sheet: bought, told, reported. Across the mains and to the hand that is no question of money.
// Common practice, no source: two ohms through a lifted capacitor that is no resistor is a short.
// The sets are invented.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "casework/mending_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

class Shorted : public ShippedJob {
 protected:
  CaseView read(const std::string& item, ReadingKind kind, double value, bool lifted = true) {
    tell(AcknowledgeCautions{item, std::string(readings::word_of(kind))});
    RecordReading reading;
    reading.item = item;
    reading.kind = kind;
    reading.value = value;
    reading.in_circuit = !lifted;
    return tell(reading);
  }
  CaseView ohms(const std::string& item, double value, bool lifted = true) {
    return read(item, ReadingKind::dc_resistance, value, lifted);
  }
  [[nodiscard]] std::string bought() const {
    std::string parts;
    for (const ShoppingRow& row : mending().shopping) {
      for (const std::string& part : row.for_parts) {
        parts += part + '\n';
      }
    }
    return parts;
  }
};

TEST_F(Shorted, AcrossTheMainsIsConvictedBoughtAndToldAsADanger) {
  take_in("power-amplifier");
  const CaseView view = ohms("x-part", 2.0);
  EXPECT_EQ(view.readings.back().verdict, "suspect-short");
  EXPECT_TRUE(view.readings.back().shorted);
  EXPECT_EQ(suspect(view, "group:x-part").convicted, "reading");
  EXPECT_GE(suspect(view, "group:x-part").suspicion.value(), 0.9);
  EXPECT_THAT(view.leading.sentence, AllOf(HasSubstr("Across the mains"), HasSubstr("Not sound")));
  EXPECT_THAT(bought(), HasSubstr("Across the mains"));
  const MendingView mended = mending();
  EXPECT_THAT(mended.options.front().replaced, Contains(HasSubstr("Across the mains")));
  EXPECT_THAT(mended.dangers, Contains(HasSubstr("burns")));
  EXPECT_THAT(mended.sentence, AllOf(Not(HasSubstr("Not measured so far: across the mains")),
                                     Not(HasSubstr("ask the owner"))));
  EXPECT_THAT(mended.reasons, Contains(AllOf(HasSubstr("shorted"), HasSubstr("2 Ω"))));
  EXPECT_THAT(mended.reasons, Contains(HasSubstr("whatever it costs")));
  for (const std::string& reason : mended.reasons) {
    EXPECT_THAT(reason, Not(HasSubstr("works today")));
  }
}

TEST_F(Shorted, EachOfSeveralIsNamedAndBought) {
  take_in("switch-mode-supply");
  for (const char* group : {"x-parts", "y-parts", "bulk-parts", "snubber"}) {
    const CaseView view = ohms(group, 1.5);
    EXPECT_EQ(suspect(view, std::string("group:") + group).convicted, "reading") << group;
  }
  const std::string parts = bought();
  for (const char* group : {"x-parts", "y-parts", "bulk-parts", "snubber"}) {
    const auto& equipment = *knowledge::find(shipped_knowledge().equipment, "switch-mode-supply");
    EXPECT_THAT(parts, HasSubstr(knowledge::find(equipment.groups, group)->title));
  }
}

TEST_F(Shorted, AcrossTheBarrierIsToldWhateverTheComplaint) {
  take_in("switch-mode-supply");
  tell(ReportSymptom{"ticks-never-starts", Seen::yes});
  const CaseView view = ohms("bridge-y", 3.0);
  const SuspectView& bridge = suspect(view, "group:bridge-y");
  EXPECT_EQ(bridge.convicted, "reading");
  EXPECT_GE(bridge.suspicion.value(), 0.9);
  EXPECT_THAT(view.leading.sentence, HasSubstr("etween primary and secondary"));
  EXPECT_THAT(bought(), HasSubstr("Between primary and secondary"));
  EXPECT_THAT(mending().dangers, Contains(HasSubstr("shock to the hand")));
}

TEST_F(Shorted, TheyStandBesideABlownFuse) {
  take_in("switch-mode-supply");
  tell(ReportSymptom{"dead-fuse-blown", Seen::yes});
  ohms("x-parts", 1.0);
  ohms("bulk-parts", 2.0);
  ohms("bridge-y", 2.0);
  for (const std::string& notice : mending().notices) {
    EXPECT_THAT(notice, Not(HasSubstr("Nothing is convicted yet")));
  }
}

TEST_F(Shorted, InCircuitItIsTheRailsAndConvictsNobody) {
  take_in("power-amplifier");
  const CaseView view = ohms("reservoirs", 2.0, false);
  EXPECT_FALSE(view.readings.back().shorted);
  EXPECT_NE(suspect(view, "group:reservoirs").convicted, "reading");
}

TEST_F(Shorted, TooLittleEsrIsAHintAndConvictsNobody) {
  take_in("power-amplifier");
  const CaseView view = read("reservoirs", ReadingKind::esr, 0.0);
  EXPECT_FALSE(view.readings.back().shorted);
  EXPECT_NE(suspect(view, "group:reservoirs").convicted, "reading");
}

TEST_F(Shorted, AGoodInsulationOfTheSamePartTakesItBack) {
  take_in("power-amplifier");
  ohms("x-part", 2.0);
  const CaseView view = ohms("x-part", 30e6);  // the clip was on the wrong lug
  EXPECT_EQ(suspect(view, "group:x-part").convicted, "");
}

// Over its limit alone, and cheap to leave by the shop's figures: it is renewed all the same.
TEST_F(Shorted, AMainsPartOverItsLimitIsNoQuestionOfMoney) {
  take_in("power-amplifier");
  tell(NamePart{"C901", "x-part", quantities::microfarads(0.1), quantities::volts(250), "", ""});
  const CaseView view = read("C901", ReadingKind::capacitance, 0.02e-6);
  ASSERT_EQ(suspect(view, "part:C901").convicted, "reading") << view.readings.back().sentence;
  const MendingView mended = mending();
  EXPECT_THAT(mended.sentence, Not(HasSubstr("ask the owner")));
  EXPECT_THAT(mended.reasons, Contains(HasSubstr("whatever it costs")));
  for (const std::string& reason : mended.reasons) {
    EXPECT_THAT(reason, Not(HasSubstr("works today")));
  }
}

TEST(LiveChassis, WhatPartsItFromASocketIsAYPart) {
  // IEC 60384-14 (from memory): from a live part to what is touched stands class Y.
  std::size_t sets = 0;
  for (const auto& equipment : shipped_knowledge().equipment) {
    if (std::find(equipment.hazards.begin(), equipment.hazards.end(), "live-chassis") ==
        equipment.hazards.end()) {
      continue;
    }
    ++sets;
    for (const auto& group : equipment.groups) {
      std::string title = group.title;
      std::transform(title.begin(), title.end(), title.begin(), ::tolower);
      const auto has = [&](const char* word) { return title.find(word) != std::string::npos; };
      const bool trimmer = has("trimmer") || has("tuned");  // between points of the chassis side
      const bool to_touch = has("isolat") || has("cabinet") || has("socket") || has("earth") ||
                            has("pick-up") || has("aerial");
      if (to_touch && !trimmer) {
        EXPECT_EQ(group.role, "mains-y") << equipment.id << '/' << group.id;
      }
    }
  }
  EXPECT_GE(sets, 1U);
}

TEST_F(Shorted, TheAerialIsolatorsOfALiveChassisAreBoughtByClassAndTheirMarksLookedAt) {
  take_in("valve-series-receiver", 1955);
  tell(JudgeSuspect{"aerial-block", JudgeSuspect::Verdict::at_fault});
  const MendingView mended = mending();
  EXPECT_THAT(mended.shopping,
              Contains(::testing::Field(&ShoppingRow::part, HasSubstr("class Y1"))));
  EXPECT_THAT(step_of(mended, "class-marks@under").wording, HasSubstr("erial"));
  tell(JudgeSuspect{"rectifier-part", JudgeSuspect::Verdict::at_fault});
  for (const ShoppingRow& row : mending().shopping) {
    EXPECT_THAT(row.look_at, Not(Contains(HasSubstr("both halves")))) << row.part;
    EXPECT_THAT(row.look_at, Not(Contains(HasSubstr("the winding's"))));
  }
}

class Named : public Shorted {
 protected:
  void name(const std::string& reference, const std::string& group, double microfarads = 0.0) {
    NamePart part{reference, group, {}, {}, "", ""};
    if (microfarads > 0.0) {
      part.capacitance = quantities::microfarads(microfarads);
    }
    last_ = tell(part);
  }
  CaseView last_;
};

TEST_F(Named, TheLastOfAGroupIsRefusedWhileAReadingStandsAtTheGroup) {
  take_in("stereo-receiver");
  const CaseView view = read("reservoirs", ReadingKind::esr, 0.9);
  const int step = view.readings.back().event;
  name("C701", "reservoirs");
  EXPECT_THAT(refusal(*workshop_, number_, NamePart{"C702", "reservoirs", {}, {}, "", ""}),
              AllOf(HasSubstr("Main reservoirs"), HasSubstr("step " + std::to_string(step)),
                    HasSubstr("take that step back")));
  name("C701", "reservoirs", 10000);  // told again is no further name
}

TEST_F(Named, MoreThanTheTypeHasAreNotRefusedForThat) {
  take_in("stereo-receiver");
  for (const char* reference : {"C701", "C702", "C703"}) {
    name(reference, "reservoirs");
    EXPECT_THAT(last_.log.back().text,
                AllOf(HasSubstr("of the main reservoirs"), Not(HasSubstr("group:"))));
  }
}

TEST_F(Named, TheOnlyPartOfAGroupTakesWhatWasReadAtTheGroup) {
  take_in("power-amplifier");
  ohms("x-part", 2.0);
  name("C901", "x-part");
  EXPECT_EQ(suspect(last_, "part:C901").convicted, "reading");
  EXPECT_EQ(last_.readings.back().item, "part:C901");
  EXPECT_THAT(last_.log.back().text, HasSubstr("of the across the mains"));
}

// What such sets usually have is no mark: half of it convicts a part whose mark was read, and no
// other.
TEST_F(Named, ACapacitanceConvictsOnlyAgainstAKnownMark) {
  take_in("stereo-receiver");
  name("C11", "left-zobel");
  const CaseView guessed = read("C11", ReadingKind::capacitance, 0.01e-6);
  EXPECT_EQ(guessed.readings.back().verdict, "not-proven");
  EXPECT_THAT(guessed.readings.back().sentence, HasSubstr("usual"));
  EXPECT_EQ(suspect(guessed, "part:C11").convicted, "");
  name("C11", "left-zobel", 0.047);
  EXPECT_EQ(last_.readings.back().verdict, "over-limit");
}

TEST(NoSymptom, TheAdviceTellsSupplyFiltersApart) {
  const auto rules = *decision::load_substitution_rules({DRYOUT_SOURCE_DIR});
  for (const char* role : {"agc-timing", "speaker-coupling", "smps-feedback", "mute-timing"}) {
    decision::PartNeed need;
    need.role = role;
    need.technology = "wet-aluminium";
    need.capacitance = quantities::microfarads(47);
    need.rated = quantities::volts(25);
    const decision::Substitute fit = decision::substitute_for(need, rules);
    EXPECT_THAT(fit.rules, Not(Contains("same-value-wet"))) << role;
    EXPECT_THAT(fit.rules, Contains("nearest-value-wet")) << role;
    need.role = "smoothing";
    EXPECT_THAT(decision::substitute_for(need, rules).rules, Contains("same-value-wet"));
  }
}

}  // namespace
}  // namespace dryout::casework
