// What can hurt where, what was heeded, and how the parts at hand are emptied.
#include "casework/danger.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "casework/heeding.h"
#include "casework/measuring_at.h"
#include "casework/shipped_bench.h"
#include "casework/stored_charge.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the benches
using testing::HasSubstr;
using testing::Not;

class OnShipped : public testing::Test {
 protected:
  void take_in(const std::string& equipment) { number_ = start_on(*workshop_, equipment); }
  /// apply_ok() would heed by itself.
  CaseView does(const Command& command) {
    auto view = workshop_->apply(number_, command);
    EXPECT_TRUE(view.ok()) << (view ? "" : quantities::describe(view.problems()));
    return view ? std::move(*view) : CaseView{};
  }
  CaseView view() { return *workshop_->view(number_); }
  std::string refused(const Command& command) { return refusal(*workshop_, number_, command); }
  static RecordReading reading(const std::string& item, double value,
                               ReadingKind kind = ReadingKind::esr) {
    RecordReading made;
    made.item = item;
    made.kind = kind;
    made.value = value;
    return made;
  }
  static const CheckView* find(const CaseView& view, const std::string& check,
                               const std::string& place) {
    const auto found = std::find_if(view.next.begin(), view.next.end(), [&](const CheckView& c) {
      return c.check == check && c.place == place;
    });
    return found == view.next.end() ? nullptr : &*found;
  }

  std::unique_ptr<Workshop> workshop_ = open_shipped();
  std::int64_t number_ = 0;
};

TEST_F(OnShipped, AReadingAtADangerousPartIsRefusedAsAnOutcomeIs) {
  take_in("valve-am-receiver");
  const std::string refusal = refused(reading("reservoir", 2.0));
  EXPECT_THAT(refusal,
              HasSubstr("this check can hurt: its cautions must be read and heeded first"));
  EXPECT_THAT(refusal, HasSubstr("Capacitors keep their charge"));
  does(AcknowledgeCautions{"reservoir", ""});
  EXPECT_EQ(does(reading("reservoir", 2.0)).readings.size(), 1U);
  // With the power on it is another danger.
  EXPECT_THAT(refused(reading("reservoir", 280.0, ReadingKind::dc_volts)),
              HasSubstr("this check can hurt"));
}

TEST_F(OnShipped, HeedingACheckAllowsReadingsThere) {
  take_in("valve-am-receiver");
  const RecordReading leakage = reading("reservoir", 1e-3, ReadingKind::leakage_current);
  EXPECT_THAT(refused(leakage), HasSubstr("Re-forming an aluminium electrolytic"));
  does(AcknowledgeCautions{"lifted-leakage-big", "reservoir"});
  does(leakage);
}

TEST_F(OnShipped, APartWithoutDangerIsReadAtOnce) {
  take_in("hf-transceiver");
  does(reading("loop-cans", 2.0));
  EXPECT_EQ(measuring_at(view(), "loop-cans", ReadingKind::esr), nullptr);
}

TEST_F(OnShipped, OnARigOfFourteenVoltsNothingSpeaksOfMoreThanItHas) {
  take_in("hf-transceiver");
  does(ReportSymptom{"out-of-lock", Seen::yes});
  for (const CheckView& check : view().next) {
    for (const CautionView& caution : check.cautions) {
      for (const char* id : {"high-tension", "mains", "stored-charge", "discharge-steps",
                             "one-hand", "isolation", "crt", "live-chassis", "primary-side"}) {
        EXPECT_NE(caution.id, id) << check.check << " at " << check.place;
      }
      EXPECT_THAT(caution.title + caution.wording, Not(HasSubstr("kilovolts")));
    }
  }
}

TEST_F(OnShipped, ADangerIsHeededOnceAndOneLineStaysAtEachLaterCheck) {
  take_in("valve-am-receiver");
  does(ReportSymptom{"hum-steady", Seen::yes});
  const CaseView before = view();
  const auto risky = std::find_if(before.next.begin(), before.next.end(),
                                  [](const CheckView& check) { return !check.acknowledged; });
  ASSERT_NE(risky, before.next.end());
  const CaseView after = does(AcknowledgeCautions{risky->check, risky->place});
  int reminded = 0;
  for (const CheckView& check : after.next) {
    if (!check.dangerous || !check.acknowledged) {
      continue;
    }
    ++reminded;
    EXPECT_THAT(check.reminder, HasSubstr("licensed practice")) << check.check;
    EXPECT_THAT(check.reminder, Not(HasSubstr("\n")));
  }
  EXPECT_GT(reminded, 1);
}

TEST_F(OnShipped, WhatWasHeededAtAGroupStaysHeededWhenAllItsPartsHaveNames) {
  take_in("stereo-receiver");
  does(AcknowledgeCautions{"tuner-decoupling", "esr"});
  for (int i = 1; i <= 7; ++i) {  // the group has four
    const std::string part = "C30" + std::to_string(i);
    does(NamePart{part, "tuner-decoupling", std::nullopt, std::nullopt, "", "Orbrin RS"});
    does(reading(part, 0.6, ReadingKind::esr));
  }
  EXPECT_EQ(view().readings.size(), 7U);
}

// IEC 60950-1, 1.2: 20 J at 2 V and above is a hazardous energy level (from memory).
TEST_F(OnShipped, ABigCanBelowSixtyVoltsIsEmptiedForTheBurnNotTheShock) {
  take_in("stereo-receiver");
  for (const auto& [reference, microfarads] : {std::pair{"C801", 22000.0}, {"C802", 2200.0}}) {
    does(NamePart{reference, "reservoirs", quantities::microfarads(microfarads),
                  quantities::volts(50), "", ""});
  }
  const auto told = [this](const std::string& part) {
    const CaseView seen = view();
    const auto* check = measuring_at(seen, part, ReadingKind::esr);
    std::string text;
    for (const CautionView& caution :
         check == nullptr ? std::vector<CautionView>{} : check->cautions) {
      text += caution.wording;
    }
    return text;
  };
  EXPECT_THAT(told("C801"), HasSubstr("27 J"));
  EXPECT_THAT(told("C801"), HasSubstr("no shock, but a ring or a tool across it burns"));
  EXPECT_THAT(told("C802"), Not(HasSubstr("Here: ")));
}

TEST_F(OnShipped, AReferenceIsOnePartWhateverTheCaseItIsTypedIn) {
  take_in("stereo-receiver");
  does(NamePart{"c301", "tuner-decoupling", std::nullopt, std::nullopt, "", ""});
  does(AcknowledgeCautions{"c301", "esr"});
  does(reading("c301", 9.0));
  does(reading("C301", 8.0));
  does(JudgeSuspect{"c301", JudgeSuspect::Verdict::at_fault});
  const CaseView seen = does(RecordRepair{"c301", "replaced", ""});
  ASSERT_EQ(seen.readings.size(), 1U) << "the second took the place of the first";
  EXPECT_EQ(seen.readings.front().item, "part:C301");
  EXPECT_THAT(refused(reading("c302", 9.0)), HasSubstr("unknown part or group"));
}

TEST_F(OnShipped, ARepairNotedTwiceInARowIsAKeyPressedTwice) {
  take_in("stereo-receiver");
  does(ReportSymptom{"hum-steady", Seen::yes});
  const RecordRepair repair{"reservoirs", "replaced", "10,000 uF 63 V"};
  does(repair);
  EXPECT_THAT(refused(repair), HasSubstr("noted just now"));
  does(RecordRepair{"reservoirs", "resoldered", ""});
  does(RetestSymptom{"hum-steady", true});
  does(RecordRepair{"reservoirs", "resoldered", ""});  // tried in between
}

TEST_F(OnShipped, ADangerOfItsOwnKindIsHeededByItself) {
  take_in("hf-linear-amplifier");
  does(AcknowledgeCautions{"mains-parts", "dc-volts"});
  EXPECT_THAT(refused(reading("bank", 2.5e3, ReadingKind::dc_volts)),
              HasSubstr("Kilovolt supply with stored energy"));
  take_in("valve-series-receiver");
  does(AcknowledgeCautions{"can", "esr"});
  EXPECT_THAT(refused(reading("can", 200.0, ReadingKind::dc_volts)),
              HasSubstr("The chassis may be connected to the mains"));
}

TEST_F(OnShipped, AnUnpluggedMainsEntryIsChargedWhileLinePartsAre) {
  take_in("stereo-receiver");  // has a part across the mains
  const CaseView unplugged = view();
  const auto* fresh = measuring_at(unplugged, "x-part", ReadingKind::capacitance);
  ASSERT_NE(fresh, nullptr);
  EXPECT_FALSE(fresh->acknowledged);
  does(ReportSymptom{"dead-fuse-blown", Seen::yes});
  for (const CheckView& check : view().next) {
    if (check.check == "fuse-and-lead") {
      EXPECT_TRUE(check.dangerous);
    }
  }
}

TEST_F(OnShipped, TheFiguresAreThoseOfThePartWhereItsMarksAreNoted) {
  take_in("valve-am-receiver");
  const CaseView unnamed = view();
  const auto* typical = measuring_at(unnamed, "reservoir", ReadingKind::esr);
  ASSERT_NE(typical, nullptr);
  const auto all = [](const MeasuringView& place) {
    std::string text = place.reminder;
    for (const CautionView& caution : place.cautions) text += caution.wording;
    return text;
  };
  // 16 uF typical, half as much again at worst, at 300 V x 1.414 x 1.1 = 467 V: 2.61 J.
  EXPECT_THAT(all(*typical), HasSubstr("at worst 24"));
  EXPECT_THAT(all(*typical), HasSubstr("its own mark is not noted"));
  NamePart part{"C3", "reservoir", quantities::microfarads(32), quantities::volts(500), "", ""};
  does(part);
  const CaseView named = view();
  const auto* marked = measuring_at(named, "C3", ReadingKind::esr);
  ASSERT_NE(marked, nullptr);
  // 32 uF, 500 V: 4 J; 1 s / 32 uF = 31.25 kohm, next of E12 33 k; 5 RC = 5.28 s; 3.4 V left; twice
  // 4 J / 5.28 s = 1.5 W, sold as 2 W; 500^2 / 33 k = 7.6 W at first; a tenth comes back: 50 V.
  for (const char* words :
       {"C3, 32 µF at up to 500 V, 4 J", "33 kΩ that stands 500 V and 2 W", "7.6 W at first",
        "held 6 s", "about 3.4 V left", "up to 50 V can come back in days"}) {
    EXPECT_THAT(all(*marked), HasSubstr(words));
  }
  EXPECT_THAT(all(*marked), Not(HasSubstr("at worst")));
}

TEST_F(OnShipped, AStringOfCansIsEmptiedAsOne) {
  take_in("hf-linear-amplifier");
  const CaseView seen = view();
  const auto* bank = measuring_at(seen, "bank", ReadingKind::esr);
  ASSERT_NE(bank, nullptr);
  std::string text;
  for (const CautionView& caution : bank->cautions) text += caution.wording;
  EXPECT_THAT(text, HasSubstr("8 in series"));
  // 2500 V from 1000 V a.c. is a doubler: 2 x 1000 V x 1.414 x 1.1 without load.
  EXPECT_THAT(text, HasSubstr("3111 V"));
  EXPECT_THAT(text, HasSubstr("trained hands"));
}

TEST_F(OnShipped, WhatIsNoLongerBuiltIsNotWarnedOf) {
  TakeIn intake;
  intake.equipment = "hf-linear-amplifier";
  for (const auto& [year, oil] : {std::pair{1970, true}, std::pair{1998, false}}) {
    intake.year_built = year;
    number_ = *workshop_->start(intake);
    const CaseView seen = view();
    EXPECT_EQ(std::any_of(seen.hazards.begin(), seen.hazards.end(),
                          [](const CautionView& hazard) { return hazard.id == "old-oil-parts"; }),
              oil)
        << year;
  }
}

// A journal from before: readings and outcomes without a word on cautions.
TEST_F(OnShipped, AJournalFromBeforeStillReads) {
  take_in("valve-am-receiver");
  does(AcknowledgeCautions{"lifted-leakage-big", "reservoir"});
  does(reading("reservoir", 1e-3, ReadingKind::leakage_current));
  does(RecordOutcome{"lifted-leakage-big", "reservoir", Seen::yes, ""});
  const std::string heeded =
      std::regex_replace(*workshop_->export_case(number_), std::regex(R"("do": "heed"[^}]*)"),
                         R"("do": "note", "text": "nothing heeded")");
  // Files of that time carry no chain.
  const std::string text = std::regex_replace(heeded, std::regex(R"("chain": "[^"]*",)"), "");
  EXPECT_THAT(text, HasSubstr("nothing heeded"));
  const auto fresh = open_shipped();
  const auto number = fresh->import_case(text, "old.json");
  ASSERT_TRUE(number.ok()) << quantities::describe(number.problems());
  EXPECT_EQ(fresh->view(*number)->readings.size(), 1U);
  // Its steps can be taken back, one by one.
  EXPECT_TRUE(fresh->undo(*number).ok());
  EXPECT_TRUE(fresh->undo(*number).ok());
}

TEST_F(OnShipped, EveryDangerousCheckOfEveryEquipmentShowsItsDangerAndWhoComesFirst) {
  for (const knowledge::Equipment& equipment : shipped_knowledge().equipment) {
    take_in(equipment.id);
    const CaseView seen = view();
    for (const MeasuringView& place : seen.measuring) {
      EXPECT_FALSE(place.acknowledged) << equipment.id << ' ' << place.item;
      EXPECT_TRUE(std::any_of(place.cautions.begin(), place.cautions.end(),
                              [](const CautionView& caution) {
                                return caution.wording.find("licensed practice") !=
                                       std::string::npos;
                              }))
          << equipment.id << ' ' << place.item;
    }
  }
}

}  // namespace
}  // namespace dryout::casework
