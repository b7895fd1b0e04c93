// Brothers tell on each other in a case as they do for `dryout reading --cohort`: who stands off
// the others of one batch is under suspicion, and never convicted by that alone. The strength is
// that of readings/cohort.h; that an odd one among alike parts is looked at first is common
// practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/mending_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

class OutlierInACase : public ::testing::Test {
 protected:
  OutlierInACase() { start_again(); }
  void start_again() {
    workshop_ = shipped_mending_workshop();
    TakeIn intake;
    intake.equipment = "stereo-receiver";
    intake.set_name = "Tarnbeck 614";
    intake.year_built = 1985;
    number_ = *workshop_->start(intake);
  }
  CaseView tell(const Command& command) { return apply_ok(*workshop_, number_, command); }
  void name(const std::string& reference, const char* make = "Orbrin RS", double volts = 25) {
    tell(NamePart{reference, "selector-coupling", quantities::microfarads(47),
                  quantities::volts(volts), "", make});
  }
  /// Against what like parts are allowed: 3 ohms, which only a guess could call the part's own.
  CaseView read(const std::string& reference, double ohms, const char* meter = "") {
    RecordReading reading = lifted_esr(reference, ohms);
    reading.limit = 3.0;
    reading.limit_source = "look-alike";
    reading.meter = meter;
    return tell(reading);
  }
  /// What the odd one comes to beside three others, of which `make` and volts may be other.
  double beside(const char* make, double volts, double others = 0.4) {
    name("C501");
    read("C501", 1.9);
    for (const char* const other : {"C502", "C503", "C504"}) {
      name(other, make, volts);
      read(other, others);
      others *= 1.05;
    }
    last_ = tell(AddNote{"all read"});
    return suspect(last_, "part:C501").unsound.value();
  }

  std::unique_ptr<Workshop> workshop_;
  std::int64_t number_ = 0;
  CaseView last_;
};

TEST_F(OutlierInACase, IsUnderSuspicionAndNotConvicted) {
  name("C501");
  const double alone = suspect(read("C501", 1.9), "part:C501").unsound.value();
  start_again();
  const double among = beside("Orbrin RS", 25);
  EXPECT_GT(among, alone + 0.1) << "alone " << alone;
  EXPECT_LT(among, 0.9);
  const ReadingView& reading = last_.readings.front();
  EXPECT_NE(reading.verdict, "over-limit");
  EXPECT_THAT(reading.caveats, Contains(HasSubstr("brothers")));
  EXPECT_THAT(reading.caveats, Contains(HasSubstr("times")));
}

TEST_F(OutlierInACase, NeitherAnotherMakeNorOtherVoltsAreBrothers) {
  const double as_brothers = beside("Orbrin RS", 25);
  for (const auto& [make, volts] : {std::pair{"Wexholm T", 25.0}, std::pair{"Orbrin RS", 63.0}}) {
    start_again();
    EXPECT_LT(beside(make, volts), as_brothers - 0.1) << make << ' ' << volts;
    EXPECT_THAT(last_.readings.front().caveats, Not(Contains(HasSubstr("its brothers:"))));
    EXPECT_NE(last_.readings[0].batch, last_.readings[1].batch) << "no stroke on its page";
  }
}

// A whole batch dries alike: brothers accuse who stands off them, they clear nobody.
TEST_F(OutlierInACase, PartsThatReadAlikeNeitherClearNorAccuseEachOther) {
  name("C501");
  const double alone = suspect(read("C501", 1.9), "part:C501").unsound.value();
  double others = 1.8;
  for (const char* const other : {"C502", "C503", "C504"}) {
    name(other);
    read(other, others);
    others *= 1.05;
  }
  const CaseView view = tell(AddNote{"all read"});
  EXPECT_NEAR(suspect(view, "part:C501").unsound.value(), alone, 0.15);
  EXPECT_EQ(view.readings[0].batch, view.readings[3].batch);
  EXPECT_NE(view.readings[0].batch, "");
}

TEST_F(OutlierInACase, WhatWasFittedIsNoBrotherOfWhatIsOld) {
  for (const char* const part : {"C501", "C502", "C503"}) {
    name(part);
  }
  read("C501", 1.9);
  const double before = suspect(read("C502", 1.8), "part:C501").unsound.value();
  for (const char* const part : {"C502", "C503"}) {
    tell(RecordRepair{"part:" + std::string(part), "replaced", ""});
    read(part, 0.3);
  }
  const CaseView view = tell(AddNote{"two new ones"});
  EXPECT_THAT(view.readings.front().caveats, Not(Contains(HasSubstr("its brothers:"))));
  EXPECT_LE(suspect(view, "part:C501").unsound.value(), before + 0.05);
  EXPECT_EQ(view.readings.back().batch, "");
}

}  // namespace
}  // namespace dryout::casework
