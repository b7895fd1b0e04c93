// The disk fails under a workshop, call by call (casestore/failing_disk.h): what a face was shown
// is kept, what it was refused is not there, and the same workshop works on once the disk does.
#include "casestore/failing_disk.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <functional>

#include "casework/invented_bench.h"
#include "temporary_folder.h"

namespace dryout::casework {
namespace {

namespace fs = std::filesystem;
using namespace tests;  // NOLINT: the invented bench
using casestore::Trouble;
using quantities::Problems;

class WorkshopOnFailingDisk : public testing::Test {
 protected:
  /// All cases as text, which holds every step.
  static std::string everything(const Workshop& workshop) {
    const auto text = workshop.export_all();
    EXPECT_TRUE(text.ok()) << (text ? "" : quantities::describe(text.problems()));
    return text ? *text : "";
  }

  /// Fails call after call of `act` on a case of three steps, until one time nothing fails. The act
  /// gives what it was told, nothing where it was acknowledged.
  void sweep(const std::function<Problems(Workshop&, std::int64_t)>& act) {
    for (const Trouble trouble : {Trouble::read, Trouble::write, Trouble::full, Trouble::sync}) {
      for (int nth = 1; fails_once(act, trouble, nth); ++nth) {
        ASSERT_LT(nth, 1000);
      }
    }
    EXPECT_GT(refused_, 0) << "a sweep in which nothing fails proves nothing";
  }

  bool fails_once(const std::function<Problems(Workshop&, std::int64_t)>& act, Trouble trouble,
                  int nth) {
    SCOPED_TRACE(std::string(word_of(trouble)) + ' ' + std::to_string(nth));
    fs::remove_all(folder_.path());
    fs::create_directory(folder_.path());
    const auto workshop = open_workshop(store_);
    const auto number = start_lantern(*workshop);
    (void)apply_ok(*workshop, number, ReportSymptom{"hums", Seen::yes});
    (void)apply_ok(*workshop, number, AddNote{"before"});
    const std::string before = everything(*workshop);
    disk_.fail(trouble, nth, true);
    const Problems told = act(*workshop, number);
    disk_.heal();
    EXPECT_EQ(everything(*workshop) == before, !told.empty());
    if (!told.empty()) {
      ++refused_;
      EXPECT_EQ(told.front().place.file, store_) << quantities::describe(told);
      EXPECT_TRUE(act(*workshop, number).empty()) << "once the disk works, so does the step";
    }
    EXPECT_EQ(everything(*open_workshop(store_)), everything(*workshop));
    EXPECT_TRUE(workshop->check_integrity().ok());
    return disk_.has_failed() && !HasFailure();
  }

  template <class Answer>
  static Problems told(const Answer& answer) {
    return answer ? Problems{} : answer.problems();
  }

  dryout::tests::TemporaryFolder folder_;
  std::string store_ = folder_.file("cases.db");
  casestore::FailingDisk disk_;
  int refused_ = 0;
};

TEST_F(WorkshopOnFailingDisk, AStepIsKeptOrRefused) {
  sweep([](Workshop& workshop, std::int64_t number) {
    return told(workshop.apply(number, AddNote{"after"}));
  });
}

TEST_F(WorkshopOnFailingDisk, AStepIsTakenBackOrStands) {
  sweep([](Workshop& workshop, std::int64_t number) { return told(workshop.undo(number)); });
}

TEST_F(WorkshopOnFailingDisk, ASetIsTakenInOrNot) {
  sweep([](Workshop& workshop, std::int64_t) { return told(workshop.start(lantern_intake())); });
}

TEST_F(WorkshopOnFailingDisk, CasesFromElsewhereComeAllOrNone) {
  const auto elsewhere = open_workshop();
  (void)start_lantern(*elsewhere);
  (void)start_lantern(*elsewhere);
  const std::string text = *elsewhere->export_all();
  sweep(
      [&](Workshop& workshop, std::int64_t) { return told(workshop.import_cases(text, store_)); });
}

}  // namespace
}  // namespace dryout::casework
