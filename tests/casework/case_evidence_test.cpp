// What was told of a set after each of several repairs, brought onto one network.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "casework/invented_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

/// Two repairs of what can cause the complaint: it was still there after the first, and gone after
/// the second.
CaseView mended_in_two_goes(Workshop& workshop, std::int64_t number, const std::string& symptom,
                            const std::string& first, const std::string& second) {
  apply_ok(workshop, number, ReportSymptom{symptom, Seen::yes});
  apply_ok(workshop, number, RecordRepair{first, "replaced", ""});
  apply_ok(workshop, number, RetestSymptom{symptom, true});
  apply_ok(workshop, number, RecordRepair{second, "replaced", ""});
  return apply_ok(workshop, number, RetestSymptom{symptom, false});
}

// What went with the second repair was the doing of what was mended then: that is how it is blamed,
// and how its path is told, in the words of the knowledge.
TEST(CaseEvidence, TellsThePathOfWhatWentWithTheSecondRepair) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  const CaseView before = apply_ok(*workshop, number, ReportSymptom{"hums", Seen::yes});
  const auto path = suspect(before, "cause:open-diode@supply").paths;
  ASSERT_THAT(path, testing::SizeIs(1));
  const CaseView view =
      mended_in_two_goes(*workshop, number, "hums", "group:reservoirs", "cause:open-diode@supply");
  EXPECT_EQ(suspect(view, "cause:open-diode@supply").paths, path);
  EXPECT_GT(suspect(view, "cause:open-diode@supply").suspicion,
            suspect(before, "cause:open-diode@supply").suspicion);
  EXPECT_TRUE(suspect(view, "group:reservoirs").paths.empty())
      << "it was mended first, and the hum stayed";
}

// Played like this at the bench, the program fell over, and the case could not be opened again.
TEST(CaseEvidence, OfATransceiverMendedInTwoGoes) {
  const auto workshop = open_shipped();
  const auto number = start_on(*workshop, "hf-transceiver");
  const CaseView view =
      mended_in_two_goes(*workshop, number, "out-of-lock", "group:loop-cans", "group:vco-supply");
  EXPECT_THAT(suspect(view, "group:vco-supply").paths, testing::SizeIs(1));
  EXPECT_THAT(suspect(view, "group:vco-supply").paths.front(), testing::HasSubstr("out of lock"));
  // What was written then is taken in by whoever opens it now.
  const auto elsewhere = open_shipped();
  const auto again = elsewhere->import_case(*workshop->export_case(number), "case.json");
  ASSERT_TRUE(again.ok()) << quantities::describe(again.problems());
  EXPECT_EQ(elsewhere->view(*again)->leading.sentence, view.leading.sentence);
}

}  // namespace
}  // namespace dryout::casework
