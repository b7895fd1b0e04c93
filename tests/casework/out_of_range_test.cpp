// Numbers that no bench can meet: refused today with their range, and where an earlier version kept
// them, shown and not counted.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/apply_command.h"
#include "casework/build_view.h"
#include "casework/case_file.h"
#include "casework/check_command.h"
#include "casework/invented_bench.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using testing::AllOf;
using testing::HasSubstr;

constexpr std::int64_t morning = 1'772'614'800;

RecordReading reading_of(double ohms) {
  RecordReading reading;
  reading.item = "C1";
  reading.value = ohms;
  reading.limit = 1.0;
  reading.limit_source = "datasheet";
  reading.in_circuit = false;
  return reading;
}

/// A journal as the store of an earlier version gives it: nobody asks whether it may be.
Journal kept(const std::vector<Command>& commands) {
  Journal journal{{1, morning, Command(tests::lantern_intake())}};
  for (const Command& command : commands) {
    journal.push_back({static_cast<int>(journal.size()) + 1, morning + 60, command});
  }
  return journal;
}

CaseView view_of(const Journal& journal) {
  const knowledge::KnowledgeBase knowledge = tests::invented_knowledge();
  const readings::ReadingKnowledge readings;
  GroundCache grounds(knowledge, readings);
  const CaseState state = state_of(journal);
  const auto ground = grounds.of(state);
  const Reasoning reasoning = reason(**ground, state);
  EXPECT_EQ(reasoning.refused, "");
  return build_view(1, journal, {**ground, state, reasoning});
}

const Command named = NamePart{"C1", "reservoirs", {}, {}, "", ""};
const Command hum = ReportSymptom{"hums", Seen::yes};

TEST(OutOfRange, AnOldReadingIsShownAndNotCounted) {
  const CaseView without = view_of(kept({named, hum}));
  for (const double value : {1e-60, 1e300, -1.0, 1e-320}) {
    const CaseView with = view_of(kept({named, hum, reading_of(value)}));
    ASSERT_EQ(with.readings.size(), 1U) << value;
    EXPECT_EQ(with.readings.front().verdict, "not-proven");
    EXPECT_THAT(with.readings.front().sentence,
                AllOf(HasSubstr("Out of range"), HasSubstr("1 nΩ to 1 GΩ")));
    EXPECT_LT(with.readings.front().shown.size(), 24U);
    EXPECT_NEAR(tests::suspect(with, "part:C1").suspicion.value(),
                tests::suspect(without, "part:C1").suspicion.value(), 1e-12)
        << value;
  }
}

TEST(OutOfRange, AnOldReadingIsNoBrother) {
  const Command other = NamePart{"C2", "reservoirs", {}, {}, "", ""};
  RecordReading wild = reading_of(1e-60);
  wild.item = "C2";
  const CaseView alone = view_of(kept({named, other, hum, reading_of(0.9)}));
  const CaseView beside = view_of(kept({named, other, hum, reading_of(0.9), wild}));
  EXPECT_NEAR(tests::suspect(alone, "part:C1").suspicion.value(),
              tests::suspect(beside, "part:C1").suspicion.value(), 1e-12);
}

TEST(OutOfRange, AnOldPartOfNoPossibleValueStillOpens) {
  const Command odd =
      NamePart{"C1", "reservoirs", quantities::farads(1e-60), quantities::volts(1e-300), "", ""};
  const CaseView view = view_of(kept({odd, hum, reading_of(0.9)}));
  EXPECT_EQ(view.readings.size(), 1U);
}

TEST(OutOfRange, ACaseFileWithSuchAReadingIsRefusedByItsPlace) {
  const knowledge::KnowledgeBase knowledge = tests::invented_knowledge();
  const readings::ReadingKnowledge readings;
  GroundCache grounds(knowledge, readings);
  const auto files =
      read_cases_text(case_text({"", kept({named, reading_of(1e-60)})}), "case.json");
  ASSERT_TRUE(files.ok());
  const auto refused = admit(files->front().journal, knowledge, grounds);
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(quantities::describe(refused.problems()),
              AllOf(HasSubstr("/journal/2"), HasSubstr("1 nΩ to 1 GΩ")));
}

TEST(OutOfRange, EveryKindOfReadingHasItsRange) {
  const int kinds = static_cast<int>(all_words<ReadingKind>().size());
  for (int kind = 0; kind < kinds; ++kind) {
    RecordReading reading = reading_of(1e300);
    reading.kind = static_cast<ReadingKind>(kind);
    EXPECT_FALSE(out_of_range(reading).empty()) << kind;
    reading.value = 1e-60;
    EXPECT_FALSE(out_of_range(reading).empty()) << kind;
    reading.value = 1.0;
    EXPECT_TRUE(out_of_range(reading).empty()) << kind;
  }
}

}  // namespace
}  // namespace dryout::casework
