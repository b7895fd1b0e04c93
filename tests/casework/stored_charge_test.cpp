// What stands where a hand goes in, over every group of every shipped equipment, and which cautions
// a number brings with it. The kinds of mistake: a mark in volts a.c. taken for volts d.c., parts
// in parallel taken for a string, a tester's own volts forgotten, the cautions of another check's
// tools.
#include "casework/stored_charge.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <set>

#include "casework/measuring_at.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the benches
using knowledge::Equipment;
using knowledge::PartGroup;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const MeasuringView* at(const CaseView& view, const std::string& group, ReadingKind kind) {
  return measuring_at(view, group, kind);
}

std::string words_of(const MeasuringView* place) {
  std::string text = place == nullptr ? "" : place->reminder;
  for (const CautionView& caution :
       place == nullptr ? std::vector<CautionView>{} : place->cautions) {
    text += caution.wording + '\n';
  }
  return text;
}

std::set<std::string> ids_of(const MeasuringView* place) {
  std::set<std::string> ids;
  for (const CautionView& caution :
       place == nullptr ? std::vector<CautionView>{} : place->cautions) {
    ids.insert(caution.id);
  }
  return ids;
}

class Charge : public testing::Test {
 protected:
  CaseView opened(const std::string& equipment) {
    number_ = start_on(*workshop_, equipment);
    return *workshop_->view(number_);
  }
  CaseView does(const Command& command) {
    auto view = workshop_->apply(number_, command);
    EXPECT_TRUE(view.ok()) << (view ? "" : quantities::describe(view.problems()));
    return view ? std::move(*view) : CaseView{};
  }
  void for_each_group(
      const std::function<void(const CaseView&, const Equipment&, const PartGroup&)>& visit) {
    for (const Equipment& equipment : shipped_knowledge().equipment) {
      const CaseView view = opened(equipment.id);
      for (const PartGroup& group : equipment.groups) {
        SCOPED_TRACE(equipment.id + "/" + group.id);
        visit(view, equipment, group);
      }
    }
  }

  std::unique_ptr<Workshop> workshop_ = open_shipped();
  std::int64_t number_ = 0;
};

// 230 V x 1.414 x 1.1 = 358 V (mains a tenth high: EN 50160, from memory). What lies across one
// pair of wires lies in parallel (definition).
TEST_F(Charge, AcrossTheMainsStandsTheirPeakAndPartsStandInParallel) {
  std::size_t tried = 0;
  for_each_group([&](const CaseView& view, const Equipment&, const PartGroup& group) {
    const std::string text = words_of(at(view, group.id, ReadingKind::capacitance));
    if (group.id != "bank" && group.id != "bulk-parts" && group.id != "plate-cans") {
      EXPECT_THAT(text, Not(HasSubstr("in series"))) << "cans of 450 V on 2500 and 900, 200 on 325";
    }
    // 45 uC (IEC 61010-1, 6.3.1 c, second-hand) at 358 V are 126 nF.
    const double worst = group.capacitance.si() * 1.2 * group.count;
    if (group.role != "mains-x" || worst < 126e-9) {
      return;
    }
    ++tried;
    EXPECT_THAT(text, HasSubstr("358 V (the peak of the mains a tenth high)"));
    EXPECT_THAT(text, HasSubstr("at worst " +
                                quantities::format(group.capacitance * (1.2 * group.count), 2)));
    if (group.count > 1) {
      EXPECT_THAT(text, HasSubstr(std::to_string(group.count) + " in parallel"));
    }
  });
  EXPECT_GE(tried, 3U);
}

TEST_F(Charge, ANamedPartAcrossTheMainsHasTheOthersBesideIt) {
  opened("crt-monitor");
  does(NamePart{"C901", "x-parts", quantities::microfarads(0.47), quantities::volts(275), "", ""});
  // 470 nF and the other, 220 nF and a fifth more at worst: 734 nF.
  const CaseView seen = does(NamePart{"C902", "x-parts", {}, {}, "", ""});
  EXPECT_THAT(
      words_of(at(seen, "C901", ReadingKind::capacitance)),
      AllOf(HasSubstr("C901 and what stands beside it"), HasSubstr("734 nF"), HasSubstr("358 V")));
}

// Sources differ on the volts of a split-phase motor's part; the mark in volts a.c. is taken where
// it is more than the mains: 400 V x 1.414 = 566 V.
TEST_F(Charge, AMotorsPartStandsAtLeastAtTheMainsPeak) {
  EXPECT_THAT(words_of(at(opened("tape-echo"), "motor-run", ReadingKind::capacitance)),
              HasSubstr("358 V (the peak of the mains"));
  EXPECT_THAT(words_of(at(opened("open-reel-deck"), "reel-runs", ReadingKind::capacitance)),
              HasSubstr("566 V (the peak of its mark in volts a.c.)"));
}

TEST_F(Charge, AKilovoltIsToldWhateverTheCharge) {
  const CaseView seen = opened("crt-monitor");
  EXPECT_THAT(words_of(at(seen, "focus-part", ReadingKind::capacitance)),
              AllOf(HasSubstr("Here: focus and anode filter"), HasSubstr("string of resistors")));
}

// A tester of 275 to 500 V shocks whatever the set runs from; d.c. above 60 V is no extra-low
// voltage (ES1, IEC 62368-1, from memory).
TEST_F(Charge, TestVoltsAreADangerOfTheCheckItself) {
  for_each_group([&](const CaseView& view, const Equipment&, const PartGroup& group) {
    for (const ReadingKind kind : {ReadingKind::insulation, ReadingKind::leakage_current}) {
      const auto* place = at(view, group.id, kind);
      if (group.rated.si() > 60.0) {
        EXPECT_TRUE(ids_of(place).contains("lifted-high-voltage"));
        EXPECT_THAT(words_of(place), HasSubstr("licensed practice"));
      }
    }
  });
  opened("oscilloscope");
  RecordReading reading;
  reading.item = "trigger-beads";  // of 16 V
  reading.kind = ReadingKind::insulation;
  reading.value = 1e9;
  reading.test_volts = quantities::volts(500);
  EXPECT_THAT(refusal(*workshop_, number_, reading), HasSubstr("can hurt"));
  does(AcknowledgeCautions{"trigger-beads", "insulation"});
  EXPECT_EQ(does(reading).readings.size(), 1U);
}

TEST_F(Charge, OneTouchOfTheProbesHasOneSetOfCautions) {
  const std::set<std::string> of_tools{"freeze-spray", "warm-air", "fumes",
                                       "lead-wash",    "solvents", "bridge-dead"};
  for_each_group([&](const CaseView& view, const Equipment& equipment, const PartGroup& group) {
    EXPECT_EQ(ids_of(at(view, group.id, ReadingKind::esr)),
              ids_of(at(view, group.id, ReadingKind::impedance)));
    for (const std::string& id : ids_of(at(view, group.id, ReadingKind::dc_volts))) {
      EXPECT_FALSE(of_tools.contains(id)) << id;
    }
    if (equipment.year_to < 1960 || equipment.id == "valve-am-receiver") {
      for (const ReadingKind kind : {ReadingKind::leakage_current, ReadingKind::dc_resistance}) {
        EXPECT_FALSE(ids_of(at(view, group.id, kind)).contains("tantalum-fire"));
      }
    }
  });
}

// Common practice, no source: bias first, then valves.
TEST_F(Charge, BiasComesBeforeGoodValves) {
  opened("valve-guitar-amplifier");
  EXPECT_THAT(
      refusal(*workshop_, number_, RecordOutcome{"swap-valve", "output-valves", Seen::no, ""}),
      HasSubstr("Bias volts before good valves"));
  EXPECT_THAT(
      refusal(*workshop_, number_, RecordOutcome{"swap-valve", "preamp-valves", Seen::no, ""}),
      Not(HasSubstr("Bias volts")));
  // A sound filter of a bias supply without a regulator leaves more than a regulator does.
  EXPECT_THAT(refusal(*workshop_, number_, RecordOutcome{"ripple-regulated", "bias", Seen::no, ""}),
              Not(HasSubstr("can hurt")));
  // Not offered until the bias was read and is right.
  const auto offered = [](const CaseView& view, const char* valves) {
    return std::any_of(view.next.begin(), view.next.end(), [&](const CheckView& check) {
      return check.check == "swap-valve" && check.place == valves;
    });
  };
  EXPECT_FALSE(offered(*workshop_->view(number_), "output-valves"));
  EXPECT_TRUE(offered(*workshop_->view(number_), "preamp-valves"));
  does(AcknowledgeCautions{"rail-volts", "bias"});
  EXPECT_FALSE(offered(does(RecordOutcome{"rail-volts", "bias", Seen::yes, ""}), "output-valves"));
  EXPECT_TRUE(offered(does(RecordOutcome{"rail-volts", "bias", Seen::no, ""}), "output-valves"));
  does(AcknowledgeCautions{"ripple-bias", "bias"});
  does(RecordOutcome{"ripple-bias", "bias", Seen::no, ""});
}

// On a rail below chassis the negative end is the live one (definition).
TEST(DischargeWording, ChassisComesFirstWhereverItIsSaid) {
  for (const knowledge::Caution& caution : shipped_knowledge().cautions) {
    EXPECT_THAT(caution.wording, Not(HasSubstr("negative end first"))) << caution.id;
  }
  for (const knowledge::CheckRule& check : shipped_knowledge().checks) {
    EXPECT_THAT(check.probes, Not(HasSubstr("negative end first"))) << check.id;
  }
}

}  // namespace
}  // namespace dryout::casework
