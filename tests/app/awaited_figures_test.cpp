// The guided session on a case that takes long to think about: it says so, and Ctrl-C costs the
// figures, not the case.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/running_program.h"
#include "casework/workshop.h"
#include "knowledge/load.h"

namespace dryout::app_test {
namespace {

using testing::HasSubstr;

class AwaitedFiguresTest : public testing::Test {
 protected:
  /// All symptoms of the set on yes, entered by way of the store, which is quicker.
  void SetUp() override {
    ASSERT_EQ(
        home_.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Tidelight"}).exit, 0);
    std::filesystem::path store;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(home_.path())) {
      store = entry.path().filename() == "cases.db" ? entry.path() : store;
    }
    auto workshop = casework::Workshop::open(store.string(), *knowledge::load({DRYOUT_SOURCE_DIR}),
                                             [] { return std::int64_t{1'772'614'800}; });
    ASSERT_TRUE(workshop.ok());
    const auto symptoms = (*workshop)->view(1)->symptoms;
    for (const casework::SymptomView& symptom : symptoms) {
      ASSERT_TRUE(
          (*workshop)->enter(1, casework::ReportSymptom{symptom.id, casework::Seen::yes}).ok());
    }
    told_ = symptoms.size();
  }
  Home home_;
  std::size_t told_ = 0;
};

TEST_F(AwaitedFiguresTest, AreSaidToBeWorkedOutAndCanBeGivenUp) {
  RunningProgram session(home_, {"guide", "1"});
  const std::string begun = session.read_until("What was entered is kept.", "\n>");
  if (begun.find("being worked out") == std::string::npos) {
    GTEST_SKIP() << "this machine thought it through within the half second that is waited";
  }
  session.interrupt();
  const std::string shown = session.read_until("\n>");
  if (shown.find("There are no figures") == std::string::npos) {
    GTEST_SKIP() << "the figures were there before the key";
  }
  EXPECT_THAT(shown, HasSubstr("There are no figures: working them out was given up"));
  session.say("q");
  EXPECT_THAT(session.read_until("goes on."), HasSubstr("is kept"));
  const auto log = home_.json({"case", "show", "1"});
  EXPECT_EQ(at(log, {"log"}).array_elements()->size(), told_ + 1);
}

}  // namespace
}  // namespace dryout::app_test
