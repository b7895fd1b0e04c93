// A knowledge file edited between two steps of the guided session, well and badly.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "app/running_program.h"

namespace dryout::app_test {
namespace {

using testing::HasSubstr;
using testing::Not;

class EditedKnowledge : public testing::Test {
 protected:
  void SetUp() override {
    const auto taken = home_.json(
        {"case", "new", "--equipment", "stereo-receiver", "--set", "Tidelight", "--year", "1978"});
    number_ = std::to_string(static_cast<int>(number_at(taken, {"case"})));
    ASSERT_EQ(home_.run({"case", "symptom", number_, "hum-steady", "yes"}).exit, 0);
  }

  /// Saves the technician's own file, then lets the second pass after which it is looked for.
  void edit(const std::string& text) const {
    const auto file = home_.path() / "data/dryout/own/symptoms/mine.json";
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file) << text;
    std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  }

  /// What the session says between one question and the next.
  static std::string next_step(RunningProgram& session) {
    session.say("");
    return session.read_until("\n>");
  }

  Home home_;
  std::string number_;
};

TEST_F(EditedKnowledge, IsInUseFromTheNextStepAndABrokenEditIsNamedByFileAndLine) {
  RunningProgram session(home_, {"guide", number_});
  EXPECT_THAT(session.read_until("\n>"), Not(HasSubstr("was edited")));
  edit("{\"schema\": 1,\n \"symptoms\": [\n  {\"id\": }\n]}\n");
  EXPECT_THAT(next_step(session),
              testing::AllOf(HasSubstr("the last good one stays in use"),
                             HasSubstr("own/symptoms/mine.json:3"), HasSubstr("Do this next.")));
  EXPECT_THAT(next_step(session), Not(HasSubstr("was edited"))) << "said once";
  edit("{\"schema\": 1,\n \"symptoms\": []}\n");
  EXPECT_THAT(next_step(session), HasSubstr("was edited and is in use now"));
  session.say("q");
  EXPECT_THAT(session.read_until("goes on."), HasSubstr("is kept"));
}

}  // namespace
}  // namespace dryout::app_test
