// Random walks over all that can be done to a case, on every kind of equipment: several repairs,
// retests, steps taken back and brought back, cases closed and reopened, the store opened anew in
// between. After each step that was accepted both faces say all they can of the case.
//
//   DRYOUT_WALK_STEPS   accepted steps in all, each looked at by both faces: thousands, by hand.
//                       Without it every kind is walked a few steps and looked at in the end.
//   DRYOUT_WALK_SEED    where the seeds begin
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <iostream>

#include "app/knowledge_watch.h"
#include "casework/random_commands.h"
#include "temporary_folder.h"
#include "walk/both_faces.h"

namespace dryout::walk {
namespace {

using casework::Command;
using casework::Workshop;

constexpr int steps_of_a_case = 40;
constexpr int steps_in_short = 8;
constexpr int looks_in_short = 2;

int number_told(const char* name, int usual) {
  const char* told = std::getenv(name);
  return told == nullptr ? usual : std::atoi(told);
}

const casework::LoadedKnowledge& shipped() {
  static const casework::LoadedKnowledge loaded = *app::load_all_knowledge({DRYOUT_SOURCE_DIR});
  return loaded;
}

std::unique_ptr<Workshop> open_at(const std::string& store) {
  const auto clock = [now = std::int64_t{1'772'614'800}]() mutable { return now += 60; };
  auto workshop =
      Workshop::open(store, shipped().base, clock, shipped().readings, shipped().mending);
  EXPECT_TRUE(workshop.ok()) << (workshop ? "" : quantities::describe(workshop.problems()));
  return std::move(*workshop);
}

/// What was walked, all cases together.
struct Tally {
  int applied = 0, refused = 0, undone = 0, reopened_stores = 0;
  std::array<int, std::variant_size_v<Command>> by_command{};
};

/// One case on one kind of equipment, from the counter on.
class Walk {
 public:
  Walk(const std::string& equipment, unsigned seed, window::WindowlessDesk& window, Tally& tally)
      : store_(folder_.file("cases.db")),
        workshop_(open_at(store_)),
        number_(start(equipment)),
        window_(window),
        faces_(std::make_unique<BothFaces>(*workshop_, number_, window)),
        maker_(seed, faces_->view()),
        tally_(tally) {}

  /// Goes on until so many steps were accepted; both faces look after the last `looks` of them.
  void go(int steps, int looks) {
    constexpr int vain_max = 500;
    int vain = 0;
    for (int done = 0; done < steps && !testing::Test::HasFatalFailure();) {
      const bool accepted = step(done + looks >= steps);
      vain = accepted ? 0 : vain + 1;
      done += accepted ? 1 : 0;
      ASSERT_LT(vain, vain_max) << "everything is refused, as if the case could not be shown";
    }
  }

 private:
  std::int64_t start(const std::string& equipment) {
    const auto number = workshop_->start({equipment, "a set", 1978, "", "does not work"});
    EXPECT_TRUE(number.ok());
    return *number;
  }

  window::Intention next_wish() {
    switch (maker_.upto(16)) {
      case 0:
        return window::Undo{};
      case 1:
        return window::Redo{};
      case 2:
        return window::TakeBack{static_cast<int>(maker_.upto(30))};
      case 3:
      case 4:
      case 5:
      case 6:
        return maker_.mend_or_retest();
      default:
        return maker_.make();
    }
  }

  bool step(bool look) {
    maker_.look_at(faces_->view(), faces_->mending());
    const window::Intention wish = next_wish();
    if (idle(wish) || !faces_->does(wish).empty()) {
      ++tally_.refused;
      return false;
    }
    count(wish);
    if (look) {
      faces_->look(static_cast<unsigned>(tally_.applied));
    }
    if (maker_.upto(20) == 0) {
      open_again();
    }
    return true;
  }

  /// The desk leaves an undo alone where there is nothing to take back.
  [[nodiscard]] bool idle(const window::Intention& wish) const {
    return (std::holds_alternative<window::Undo>(wish) && !faces_->view().can_undo) ||
           (std::holds_alternative<window::Redo>(wish) && !faces_->view().can_redo);
  }

  void count(const window::Intention& wish) {
    ++tally_.applied;
    if (const auto* command = std::get_if<Command>(&wish)) {
      ++tally_.by_command[command->index()];
    } else {
      ++tally_.undone;
    }
  }

  /// Closes the program and opens it again: the same case, to the last figure.
  void open_again() {
    const casework::CaseView before = faces_->view();
    faces_.reset();
    workshop_.reset();
    workshop_ = open_at(store_);
    faces_ = std::make_unique<BothFaces>(*workshop_, number_, window_);
    const casework::CaseView& after = faces_->view();
    maker_.look_at(after);
    EXPECT_EQ(after.leading.sentence, before.leading.sentence);
    ASSERT_EQ(after.suspects.size(), before.suspects.size());
    for (std::size_t i = 0; i < after.suspects.size(); ++i) {
      EXPECT_EQ(after.suspects[i].item, before.suspects[i].item);
      EXPECT_EQ(after.suspects[i].suspicion, before.suspects[i].suspicion);
    }
    ++tally_.reopened_stores;
  }

  dryout::tests::TemporaryFolder folder_;
  std::string store_;
  std::unique_ptr<Workshop> workshop_;
  std::int64_t number_;
  window::WindowlessDesk& window_;
  std::unique_ptr<BothFaces> faces_;
  casework::tests::CommandMaker maker_;
  Tally& tally_;
};

void tell(const Tally& tally, double seconds) {
  std::cout << "steps accepted " << tally.applied << " (of them " << tally.undone
            << " taken back or brought back), refused " << tally.refused << ", stores opened anew "
            << tally.reopened_stores << ", " << seconds << " s; by kind of command:";
  for (const int count : tally.by_command) {
    std::cout << ' ' << count;
  }
  std::cout << std::endl;  // NOLINT: a long run is watched
}

TEST(RandomWalk, OnEveryKindOfEquipmentBothFacesCanAlwaysTellTheCase) {
  const auto& kinds = shipped().base.equipment;
  const int told = number_told("DRYOUT_WALK_STEPS", 0);
  const int each = told > 0 ? steps_of_a_case : steps_in_short;
  const int looks = told > 0 ? steps_of_a_case : looks_in_short;
  const int steps = told > 0 ? told : each * static_cast<int>(kinds.size());
  auto seed = static_cast<unsigned>(number_told("DRYOUT_WALK_SEED", 1));
  const auto begun = std::chrono::steady_clock::now();
  Tally tally;
  window::WindowlessDesk window(1280, 800);
  for (; tally.applied < steps && !HasFailure(); ++seed) {
    const std::string& kind = kinds[seed % kinds.size()].id;
    SCOPED_TRACE(kind + ", seed " + std::to_string(seed));
    std::cout << kind << ", seed " << seed << std::endl;  // NOLINT: seen even when all falls over
    Walk(kind, seed, window, tally).go(std::min(each, steps - tally.applied), looks);
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begun;
    tell(tally, spent.count());
  }
  if (constexpr int many = 2000; steps >= many) {
    for (std::size_t kind = 0; kind < tally.by_command.size(); ++kind) {
      EXPECT_GT(tally.by_command.at(kind), 0) << "no command of kind " << kind << " was accepted";
    }
  }
}

}  // namespace
}  // namespace dryout::walk
