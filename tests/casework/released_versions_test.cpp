// Cases out of stores that every released version left (tests/casestore/released) go on here.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "casestore/database.h"
#include "casework/invented_bench.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

class StoreOfVersion : public testing::TestWithParam<int> {};

TEST_P(StoreOfVersion, ItsCasesAreShownAndGoOn) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  std::ofstream(path).close();
  std::ifstream sql(DRYOUT_SOURCE_DIR "/tests/casestore/released/version_" +
                    std::to_string(GetParam()) + ".sql");
  ASSERT_TRUE(
      (*casestore::Database::open(path))->run({std::istreambuf_iterator<char>(sql), {}}).ok());
  const auto workshop = open_workshop(path);
  const auto view = workshop->view(1);
  ASSERT_TRUE(view.ok()) << quantities::describe(view.problems());
  EXPECT_EQ(view->set_name, "Morgenstern 52");
  ASSERT_EQ(view->log.size(), 2U) << "the undo is no line of its own";
  EXPECT_TRUE(view->log[1].undone);
  EXPECT_TRUE(workshop->redo(1).ok());
  EXPECT_EQ(apply_ok(*workshop, 7, ReportSymptom{"hums", Seen::yes}).symptoms.front().seen, "yes");
  const auto sound = workshop->check_integrity();
  EXPECT_TRUE(sound.ok()) << quantities::describe(sound.problems());
}

INSTANTIATE_TEST_SUITE_P(Released, StoreOfVersion, testing::Range(1, 6));

}  // namespace
}  // namespace dryout::casework
