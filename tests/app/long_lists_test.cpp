// Lists that are cut short say so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run_program.h"
#include "casework/workshop.h"
#include "knowledge/load.h"

namespace dryout::app_test {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(LongLists, ASearchThatStopsAt200CasesSaysSo) {
  const Home home;
  ASSERT_EQ(home.run({"case", "new", "--equipment", "clock-radio", "--set", "Larkfield 1"}).exit,
            0);
  std::filesystem::path store;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(home.path())) {
    store = entry.path().filename() == "cases.db" ? entry.path() : store;
  }
  {
    auto workshop = casework::Workshop::open(store.string(), *knowledge::load({DRYOUT_SOURCE_DIR}),
                                             [] { return std::int64_t{1'772'614'800}; });
    ASSERT_TRUE(workshop.ok());
    for (int set = 2; set <= 201; ++set) {
      ASSERT_TRUE((*workshop)
                      ->start({"clock-radio", "Larkfield " + std::to_string(set), std::nullopt, "",
                               set == 2 ? "crackles" : ""})
                      .ok());
    }
  }
  const Outcome many = home.run({"case", "list", "--find", "larkfield"});
  EXPECT_THAT(many.out, HasSubstr("The search stops at 200 cases"));
  EXPECT_THAT(home.run({"case", "list", "--find", "crackles"}).out, Not(HasSubstr("stops at")));
  EXPECT_EQ(at(home.json({"case", "list", "--find", "larkfield"}), {"stopped"}),
            documents::Value(true));
  EXPECT_EQ(at(home.json({"case", "list", "--find", "crackles"}), {"stopped"}),
            documents::Value(false));
}

}  // namespace
}  // namespace dryout::app_test
