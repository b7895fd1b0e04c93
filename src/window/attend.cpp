#include "window/attend.h"

#include <algorithm>
#include <random>
#include <type_traits>

#include "window/clerk.h"
#include "window/lay_desk.h"
#include "window/think_about.h"
#include "window/typed_text.h"

namespace dryout::window {
namespace {

using casework::CaseView;
using quantities::Done;
using quantities::Result;

/// The practice as it stands, onto the desk.
void show_practice(Desk& desk, const casework::PracticeRoom& room) {
  const bool was_over = desk.practice && desk.practice->over;
  desk.practice = room.told();
  show(desk, room.view());
  desk.probe.set_answers = desk.suspects.in_practice = !desk.practice->over;
  desk.probe.alternatives = 40;  // nothing stands first that is worth more than the rest
  if (desk.practice->over && !was_over) {
    desk.station = Station::practice;
  }
}

std::uint64_t any_seed() { return std::random_device{}() % 1'000'000U + 1; }

constexpr const char* waits =
    "Another program is writing to the store: the step waits for it. Esc gives it up.";

struct Attendant {
  Bench& bench;
  Desk& desk;
  bool held = false;  ///< a step of earlier still waits for the store
  casework::Workshop& workshop = bench.workshop;

  void practise(const Result<Done>& done) const {
    if (!done) {
      refuse(desk, done.problems());
      return;
    }
    show_practice(desk, *bench.practice);
  }

  /// What a step came to. Where it was refused the case is looked at anew: the store may no longer
  /// have what the page shows.
  void show_step(const Result<Done>& entered) const {
    if (!entered) {
      refuse(desk, entered.problems());
    }
    bring_figures(bench, desk, desk.open_case->number, entered ? Bring::stepped : Bring::quietly);
  }

  /// Minutes spent in practice are spent.
  [[nodiscard]] bool stays_done() const {
    if (bench.practice) {
      desk.word = "In practice nothing is taken back: what was done has cost its minutes.";
      desk.word_is_refusal = true;
    }
    return bench.practice != nullptr;
  }

  bool operator()(const casework::Command& command) const {
    if (bench.practice) {
      practise(bench.practice->apply(command));
    } else if (desk.open_case) {
      enter(command);
    }
    return true;
  }
  /// A step that finds the store held by another program waits for it; so does what was sent with
  /// it. What is sent later is not: nobody presses Enter twice to have a reading twice.
  void enter(const casework::Command& command) const {
    if (held) {
      tell(desk, waits);
      put_back(desk, desk.typed);
      return;
    }
    if (!desk.waiting.empty()) {
      desk.waiting.push_back(command);
      return;
    }
    const Result<Done> entered = workshop.enter(desk.open_case->number, command);
    if (!entered && casework::store_is_in_use(entered.problems())) {
      desk.waiting.push_back(command);
      desk.waiting_text = desk.typed;
      tell(desk, waits);
      put_back(desk, desk.typed);
      return;
    }
    show_step(entered);
    if (!entered) {
      put_back(desk, desk.typed);
    }
  }
  bool operator()(const StartPractice& wish) const {
    auto room = casework::PracticeRoom::open(workshop, wish.equipment,
                                             wish.seed == 0 ? any_seed() : wish.seed);
    if (!room) {
      refuse(desk, room.problems());
      return true;
    }
    forget_thoughts(bench, desk);
    bench.practice = std::move(room).value();
    bring_case(desk, bench.practice->view());
    show_practice(desk, *bench.practice);
    desk.station = Station::practice;
    return true;
  }
  bool operator()(const AskHint& /*wish*/) const {
    const casework::CheckView* hint = bench.practice ? bench.practice->hint() : nullptr;
    if (hint != nullptr) {
      return turn_page(desk, ShowCheck{hint->check, hint->place});
    }
    tell(desk, "No check would pay now: mend what you hold for the cause (F4).");
    return true;
  }
  bool operator()(const GiveUpPractice& /*wish*/) const {
    if (bench.practice && !bench.practice->told().over) {
      practise(bench.practice->give_up());
    }
    return true;
  }
  bool operator()(const FollowAdvice& /*wish*/) const {
    if (bench.practice) {
      practise(bench.practice->advise());
    }
    return true;
  }
  bool operator()(const LeavePractice& /*wish*/) const {
    if (bench.practice) {
      bench.practice.reset();
      desk.practice.reset();
      desk.open_case.reset();
      desk.probe = {};
      desk.suspects = {};
    }
    return turn_page(desk, GoTo{Station::practice});
  }
  bool operator()(const AskWhatIf& wish) const {
    if (!desk.open_case) {
      return true;
    }
    if (!thinks_in_place(bench)) {
      desk.probe.what_if.reset();
      desk.word.clear();
      ask_beside(bench, desk, casework::AskChange{wish.commands});
      return true;
    }
    take(desk, desk.probe.what_if, bench.at_hand().what_if(desk.open_case->number, wish.commands));
    if (desk.probe.what_if) {
      desk.word.clear();
    }
    return true;
  }
  bool operator()(const StartCase& wish) const {
    const Result<std::int64_t> number = workshop.start(wish.intake);
    if (!number) {
      refuse(desk, number.problems());
      return true;
    }
    bench.practice.reset();
    desk.new_case = {};
    desk.cases_state.taking_in = false;
    for (const casework::Command& command : wish.then) {
      if (const Result<Done> entered = workshop.enter(*number, command); !entered) {
        refuse(desk, entered.problems());
        refresh_shelf(workshop, desk);
        return true;
      }
    }
    bring_figures(bench, desk, *number, Bring::anew);
    refresh_shelf(workshop, desk);
    return true;
  }
  bool operator()(const OpenCase& wish) const {
    if (!thinks_in_place(bench)) {
      bring_figures(bench, desk, wish.number, Bring::anew);
      return true;
    }
    Result<CaseView> view = workshop.view(wish.number);
    if (view) {
      bench.practice.reset();
    }
    bring_case(desk, std::move(view));
    return true;
  }
  bool operator()(const TakeBack& wish) const {
    if (!stays_done() && desk.open_case) {
      show_step(workshop.enter_take_back(desk.open_case->number, wish.event));
    }
    return true;
  }
  bool operator()(const Undo& /*wish*/) const {
    if (!stays_done() && desk.open_case && (desk.figures_due || desk.open_case->can_undo)) {
      show_step(workshop.enter_undo(desk.open_case->number));
    }
    return true;
  }
  bool operator()(const Redo& /*wish*/) const {
    if (!stays_done() && desk.open_case && (desk.figures_due || desk.open_case->can_redo)) {
      show_step(workshop.enter_redo(desk.open_case->number));
    }
    return true;
  }
  bool operator()(const StopThinking& /*wish*/) const {
    if (bench.thinking != nullptr) {
      bench.thinking->give_up();
    }
    return true;
  }
  bool operator()(const SearchShelf& wish) const {
    Result<std::vector<casework::CaseSummary>> found = workshop.search(wish.words);
    if (!found) {
      refuse(desk, found.problems());
      return true;
    }
    desk.shelf.found = std::move(found).value();
    return true;
  }
  bool operator()(const AskShop& wish) const {
    desk.shop.asked = wish.readings;
    if (desk.shop.page) {
      take(desk, desk.shop.page->readings, workshop.shop().readings(wish.readings));
    }
    return true;
  }
  bool operator()(const GoTo& wish) const {
    desk.asked = {};  // what was given up or refused is tried again where one comes back to it
    if (wish.station == Station::shop) {
      desk.shop.page.reset();  // cases may have been closed since
    }
    if (wish.station == Station::cases) {
      refresh_shelf(workshop, desk);
    }
    return turn_page(desk, wish);
  }
  template <class Other>
  bool operator()(const Other& wish) const {
    if constexpr (std::is_invocable_v<const Clerk&, const Other&>) {
      Clerk{bench, desk}(wish);
      return true;
    } else {
      return turn_page(desk, wish);
    }
  }
};

}  // namespace

std::vector<Intention> attend(Bench& bench, Desk& desk, CommandQueue& queue) {
  std::vector<Intention> left;
  const bool held = !desk.waiting.empty();
  for (Intention& wish : queue.take()) {
    if (!std::visit(Attendant{bench, desk, held}, wish)) {
      left.push_back(std::move(wish));
    }
  }
  fetch_for_page(bench, desk);
  return left;
}

void try_waiting(Bench& bench, Desk& desk) {
  if (desk.waiting.empty() || !desk.open_case) {
    return;
  }
  std::vector<casework::Command> waiting = std::exchange(desk.waiting, {});
  const casework::TypedText text = std::exchange(desk.waiting_text, {});
  const casework::TypedText now = typed_text(desk);
  desk.typed = text;
  for (const casework::Command& command : waiting) {
    (void)Attendant{bench, desk}(command);
  }
  if (!desk.waiting.empty()) {  // still held; what was typed in the meantime stands
    put_back(desk, now);
  } else if (!desk.word_is_refusal) {
    take_away(desk, text);
  }
  fetch_for_page(bench, desk);
}

bool take_up_edits(Bench& bench, Desk& desk) {
  const Result<bool> edited = bench.workshop.take_up_edits();
  if (edited && !*edited) {
    return false;
  }
  if (!edited) {
    refuse(desk, edited.problems());
    desk.word += " The knowledge was edited; the last good one stays in use.";
    return true;
  }
  desk.catalogue = bench.workshop.catalogue();
  look_again(bench, desk);
  tell(desk, "The knowledge was edited and is in use now.");
  return true;
}

}  // namespace dryout::window
