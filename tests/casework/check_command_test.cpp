#include "casework/check_command.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench
using testing::HasSubstr;

class CheckCommand : public testing::Test {
 protected:
  std::string refused(const Command& command) { return refusal(*workshop_, number_, command); }
  void accept(const Command& command) { apply_ok(*workshop_, number_, command); }

  std::unique_ptr<Workshop> workshop_ = open_workshop();
  std::int64_t number_ = start_lantern(*workshop_);
};

RecordReading reading_of(double value, ReadingKind kind = ReadingKind::esr) {
  RecordReading reading;
  reading.item = "reservoirs";
  reading.kind = kind;
  reading.value = value;
  return reading;
}

TEST_F(CheckCommand, UnknownIdsGetTheNearestSpelling) {
  EXPECT_THAT(refused(ReportSymptom{"silnt", Seen::yes}), HasSubstr("did you mean \"silent\"?"));
  EXPECT_THAT(refused(RecordOutcome{"esr-in-circut", "reservoirs", Seen::yes, ""}),
              HasSubstr("did you mean \"esr-in-circuit\"?"));
  EXPECT_THAT(refused(RecordOutcome{"esr-in-circuit", "reservors", Seen::yes, ""}),
              HasSubstr("did you mean \"reservoirs\"?"));
  EXPECT_THAT(refused(OpenAccess{"lit"}), HasSubstr("did you mean \"lid\"?"));
  EXPECT_THAT(refused(JudgeSuspect{"cause:open-diod@supply", JudgeSuspect::Verdict::cleared}),
              HasSubstr("did you mean \"cause:open-diode@supply\"?"));
  EXPECT_THAT(refused(NamePart{"C1", "resevoirs", {}, {}, "", ""}),
              HasSubstr("did you mean \"reservoirs\"?"));
  EXPECT_THAT(refused(CloseCase{"group:nothing", ""}), HasSubstr("unknown suspect"));
}

TEST_F(CheckCommand, AbsurdReadingsAreRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double value : {-0.1, 2e9, 1e-60, 1e300, nan, infinity, -infinity}) {
    EXPECT_THAT(refused(reading_of(value)), HasSubstr("this reading is not possible")) << value;
  }
  EXPECT_THAT(refused(reading_of(4700, ReadingKind::capacitance)), HasSubstr("to 10 F"));
  EXPECT_THAT(refused(reading_of(50, ReadingKind::leakage_current)), HasSubstr("to 10 A"));
  accept(reading_of(0.0));
  accept(reading_of(-12.0, ReadingKind::dc_volts));
}

TEST_F(CheckCommand, AbsurdCircumstancesOfAReadingAreRefused) {
  RecordReading reading = reading_of(1.0);
  reading.frequency = quantities::hertz(0.0);
  EXPECT_THAT(refused(reading), HasSubstr("this frequency"));
  reading = reading_of(1.0);
  reading.temperature = quantities::Celsius(900.0);
  EXPECT_THAT(refused(reading), HasSubstr("this temperature"));
  reading = reading_of(1.0);
  reading.limit = 0.0;
  EXPECT_THAT(refused(reading), HasSubstr("this limit"));
  reading = reading_of(1.0);
  reading.lead_zero = 1.5;
  EXPECT_THAT(refused(reading), HasSubstr("the leads alone read more"));
  reading = reading_of(1.0);
  reading.limit_source = "hearsay";
  EXPECT_THAT(refused(reading), HasSubstr("datasheet, fresh-part, look-alike"));
  for (const char* line :
       {"general-table", "hearsay 2", "general-table 4,700", "fresh-part 1e12"}) {
    reading = reading_of(1.0);
    reading.beside = line;
    EXPECT_FALSE(refused(reading).empty()) << line;
  }
}

TEST_F(CheckCommand, AReadingBelongsToACapacitor) {
  RecordReading reading = reading_of(1.0);
  reading.item = "cause:open-diode@supply";
  EXPECT_THAT(refused(reading), HasSubstr("a reading belongs to a capacitor"));
  reading.item = "group:coupling";
  accept(reading);
}

TEST_F(CheckCommand, TextsMustBeReadable) {
  EXPECT_THAT(refused(AddNote{"a\x1b[2J"}), HasSubstr("cannot be read as text"));
  EXPECT_THAT(refused(AddNote{std::string("a\0b", 3)}), HasSubstr("cannot be read as text"));
  for (const char* broken : {"\xff", "\xc3", "\xc0\xaf", "\xed\xa0\x80", "\xf5\x80\x80\x80",
                             "\xe0\x80\x80", "\xf4\x90\x80\x80", "a\x80"}) {
    EXPECT_THAT(refused(AddNote{broken}), HasSubstr("UTF-8"));
  }
  EXPECT_THAT(refused(AddNote{std::string(20'000, 'x')}), HasSubstr("at most 10000"));
  EXPECT_THAT(refused(AddNote{""}), HasSubstr("\"text\" is missing"));
  accept(AddNote{"Ω, µ, 焼, 🔧\n\ttab"});
}

TEST_F(CheckCommand, ADangerousCheckMustBeHeededFirst) {
  const RecordOutcome outcome{"ripple-on-rail", "raw", Seen::yes, ""};
  EXPECT_THAT(refused(outcome),
              testing::AllOf(HasSubstr("Mains is live inside"), HasSubstr("heed the cautions")));
  accept(AcknowledgeCautions{"ripple-on-rail", "raw"});
  accept(outcome);
  EXPECT_THAT(refused(RecordOutcome{"ripple-on-rail", "nowhere", Seen::yes, ""}),
              HasSubstr("unknown place for ripple-on-rail"));
}

TEST_F(CheckCommand, AGroupTakesAsManyNamesAsTheSetHasParts) {
  accept(NamePart{"C1", "reservoirs", {}, {}, "", ""});
  accept(NamePart{"C2", "reservoirs", {}, {}, "", ""});
  accept(NamePart{"C3", "reservoirs", {}, {}, "", ""});  // the architecture says two
  EXPECT_THAT(refused(NamePart{"C4", "reservoirs", {}, {}, "", "", "ten by sixteen"}),
              testing::AllOf(HasSubstr("body"), HasSubstr("10x16")));
  accept(NamePart{"C4", "reservoirs", {}, {}, "", "", "10x16, pitch 5 radial 105C"});
  accept(NamePart{"C2", "reservoirs", quantities::microfarads(10), {}, "", "renamed"});
  EXPECT_THAT(refused(NamePart{"12C", "coupling", {}, {}, "", ""}), HasSubstr("C12"));
  EXPECT_THAT(refused(NamePart{"C4", "coupling", quantities::farads(-1), {}, "", ""}),
              HasSubstr("this capacitance is not possible"));
  EXPECT_THAT(refused(NamePart{"C4", "coupling", {}, {}, "filn", ""}),
              HasSubstr("did you mean \"film\"?"));
}

TEST_F(CheckCommand, WhatLiesBehindIsShutFirst) {
  accept(OpenAccess{"shield"});
  EXPECT_THAT(refused(CloseAccess{"lid"}), HasSubstr("shut that first"));
  accept(CloseAccess{"shield"});
  accept(CloseAccess{"lid"});
}

TEST_F(CheckCommand, NothingIsTestedAgainBeforeARepair) {
  EXPECT_THAT(refused(RetestSymptom{"hums", false}), HasSubstr("nothing has been mended yet"));
  accept(RecordRepair{"group:reservoirs", "replaced", ""});
  accept(RetestSymptom{"hums", false});
}

TEST_F(CheckCommand, AClosedCaseTakesNotesOnly) {
  EXPECT_THAT(refused(ReopenCase{""}), HasSubstr("the case is open"));
  accept(CloseCase{"", ""});
  EXPECT_THAT(refused(ReportSymptom{"hums", Seen::yes}), HasSubstr("reopen it first"));
  accept(AddNote{"fetched"});
  accept(ReopenCase{"back again"});
  accept(ReportSymptom{"hums", Seen::yes});
}

TEST_F(CheckCommand, WhatIsNoMendingIsRefusedAndTheWordsAreNamed) {
  for (const char* action : {"not-yet-done", "Replaced", "mended"}) {
    EXPECT_THAT(refused(RecordRepair{"reservoirs", action, ""}),
                HasSubstr("replaced, resoldered, cleaned, adjusted"))
        << action;
  }
  for (const std::string_view action : repair_actions) {
    accept(RecordRepair{"reservoirs", std::string(action), ""});
  }
  accept(RecordRepair{"cause:open-diode@supply", "mended", ""});
}

TEST_F(CheckCommand, AJournalWithAnotherWordStillOpens) {
  const auto knowledge = invented_knowledge();
  const readings::ReadingKnowledge readings;
  GroundCache cache(knowledge, readings);
  CaseState state;
  fold(state, 1, 0, lantern_intake());
  const Ground* ground = *cache.of(state);
  const RecordRepair old{"reservoirs", "reformed", ""};
  EXPECT_FALSE(check_command(old, state, *ground).empty());
  EXPECT_TRUE(check_command(old, state, *ground, Heeding::done).empty());
}

TEST_F(CheckCommand, AProofWaitsForTheRepairWhereThereIsAComplaint) {
  accept(RecordProof{"soak", Proved::passed, "looked through"});  // nobody complains: preventive
  accept(ReportSymptom{"hums", Seen::yes});
  EXPECT_THAT(refused(RecordProof{"soak", Proved::passed, ""}),
              HasSubstr("nothing has been mended yet"));
  EXPECT_THAT(refused(RetestSymptom{"hums", false}), HasSubstr("nothing has been mended yet"));
  accept(RecordRepair{"reservoirs", "replaced", ""});
  accept(RecordProof{"soak", Proved::passed, ""});
}

}  // namespace
}  // namespace dryout::casework
