#include "window/attend.h"

#include <algorithm>
#include <random>

namespace dryout::window {
namespace {

using casework::CaseView;
using quantities::Done;
using quantities::Result;

void refuse(Desk& desk, const quantities::Problems& problems) {
  desk.word = quantities::describe(problems.front());
  desk.word_is_refusal = true;
}

void show(Desk& desk, Result<CaseView> view) {
  if (!view) {
    refuse(desk, view.problems());
    return;
  }
  desk.open_case = std::move(view).value();
  desk.mending.reset();
  desk.plan.reset();
  desk.probe.what_if.reset();
  desk.word.clear();
}

/// A case comes to the desk: whatever was pencilled in for another one goes.
void open(Desk& desk, Result<CaseView> view) {
  if (!view) {
    refuse(desk, view.problems());
    return;
  }
  desk.intake = {};
  desk.symptoms = {};
  desk.probe = {};
  desk.suspects = {};
  desk.mend = {};
  desk.hand_over = {};
  desk.map = {};
  desk.readings = {};
  desk.log = {};
  desk.mending.reset();
  desk.plan.reset();
  desk.practice.reset();
  desk.open_case = std::move(view).value();
  desk.word.clear();
  const std::vector<casework::SymptomView>& symptoms = desk.open_case->symptoms;
  const bool told = std::any_of(symptoms.begin(), symptoms.end(),
                                [](const casework::SymptomView& s) { return !s.seen.empty(); });
  desk.station = told ? Station::probe : Station::symptoms;
}

void refresh_shelf(casework::Workshop& workshop, Desk& desk) {
  Result<std::vector<casework::CaseSummary>> cases = workshop.cases(shelf_most);
  if (!cases) {
    refuse(desk, cases.problems());
    return;
  }
  desk.shelf.cases = std::move(cases).value();
  desk.shelf.last_time_of = 0;  // another case may have been closed since
}

/// What was worked out, or the reason why it could not be.
template <class View>
void take(Desk& desk, std::optional<View>& place, Result<View> made) {
  place.reset();
  if (!made) {
    refuse(desk, made.problems());
    return;
  }
  place = std::move(made).value();
}

/// What sets like the open one had, where the shelf is in sight.
void recall_last_time(casework::Workshop& workshop, Desk& desk) {
  const std::int64_t number = desk.open_case ? desk.open_case->number : 0;
  if (desk.station != Station::cases || desk.shelf.last_time_of == number) {
    return;
  }
  desk.shelf.last_time.reset();
  desk.shelf.last_time_of = number;
  if (number == 0) {
    return;
  }
  constexpr int told = 3;
  take(desk, desk.shelf.last_time, workshop.shop().last_time_like(number, told));
}

bool in_case(const Desk& desk) { return desk.open_case && desk.station != Station::cases; }

/// The form that stands on the desk: of the open case, or of the one coming in.
PartsListState& parts_of(Desk& desk) {
  return in_case(desk) ? desk.intake.parts : desk.new_case.parts;
}

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

struct Attendant {
  Bench& bench;
  Desk& desk;
  casework::Workshop& workshop = bench.workshop;

  void practise(const Result<Done>& done) const {
    if (!done) {
      refuse(desk, done.problems());
      return;
    }
    show_practice(desk, *bench.practice);
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
      show(desk, workshop.apply(desk.open_case->number, command));
    }
    return true;
  }
  bool operator()(const StartPractice& wish) const {
    auto room = casework::PracticeRoom::open(workshop, wish.equipment,
                                             wish.seed == 0 ? any_seed() : wish.seed);
    if (!room) {
      refuse(desk, room.problems());
      return true;
    }
    bench.practice = std::move(room).value();
    open(desk, bench.practice->view());
    show_practice(desk, *bench.practice);
    desk.station = Station::practice;
    return true;
  }
  bool operator()(const AskHint& /*wish*/) const {
    const casework::CheckView* hint = bench.practice ? bench.practice->hint() : nullptr;
    if (hint != nullptr) {
      return turn_page(desk, ShowCheck{hint->check, hint->place});
    }
    desk.word = "No check would pay now: mend what you hold for the cause (F4).";
    desk.word_is_refusal = false;
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
    open(desk, workshop.view(*number));
    refresh_shelf(workshop, desk);
    return true;
  }
  bool operator()(const OpenCase& wish) const {
    Result<CaseView> view = workshop.view(wish.number);
    if (view) {
      bench.practice.reset();
    }
    open(desk, std::move(view));
    return true;
  }
  bool operator()(const TakeBack& wish) const {
    if (!stays_done() && desk.open_case) {
      show(desk, workshop.take_back(desk.open_case->number, wish.event));
    }
    return true;
  }
  bool operator()(const Undo& /*wish*/) const {
    if (!stays_done() && desk.open_case && desk.open_case->can_undo) {
      show(desk, workshop.undo(desk.open_case->number));
    }
    return true;
  }
  bool operator()(const Redo& /*wish*/) const {
    if (!stays_done() && desk.open_case && desk.open_case->can_redo) {
      show(desk, workshop.redo(desk.open_case->number));
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
  bool operator()(const LookAtPartsList& wish) const {
    Result<casework::OwnSet> set = workshop.look_at_own_set(wish.wish);
    parts_of(desk).seen.reset();
    if (!set) {
      refuse(desk, set.problems());
      return true;
    }
    parts_of(desk).seen = std::move(set).value();
    desk.word.clear();
    return true;
  }
  bool operator()(const KeepPartsList& wish) const {
    const Result<casework::OwnSet> set = workshop.keep_own_set(wish.wish);
    if (!set) {
      refuse(desk, set.problems());
      return true;
    }
    parts_of(desk) = {};
    (in_case(desk) ? desk.intake : desk.new_case).equipment = set->id;
    desk.catalogue = workshop.catalogue();
    desk.word = "Kept and picked: " + set->title;
    desk.word_is_refusal = false;
    return true;
  }
  bool operator()(const GoTo& wish) const {
    if (wish.station == Station::cases) {
      refresh_shelf(workshop, desk);
    }
    return turn_page(desk, wish);
  }
  template <class Other>
  bool operator()(const Other& wish) const {
    return turn_page(desk, wish);
  }
};

bool is_case_file(const std::string& path) {
  constexpr std::string_view ending = ".json";
  return path.size() > ending.size() &&
         path.compare(path.size() - ending.size(), ending.size(), ending) == 0;
}

void take_cases_in(Bench& bench, Desk& desk, const std::string& path) {
  const auto report = bench.workshop.import_file(path);
  if (!report) {
    return refuse(desk, report.problems());
  }
  if (report->cases.empty()) {
    return refuse(desk, {{"this file holds no case", {path, 0, {}}, "", ""}});
  }
  bench.practice.reset();
  desk.help = desk.far = false;
  open(desk, bench.workshop.view(report->cases.front().number));
  refresh_shelf(bench.workshop, desk);
  const std::size_t count = report->cases.size();
  desk.word =
      count == 1 ? "Taken in from " + path : std::to_string(count) + " cases taken in from " + path;
  desk.word_is_refusal = false;
}

}  // namespace

Result<Done> lay_desk(casework::Workshop& workshop, Desk& desk, std::int64_t number) {
  desk.catalogue = workshop.catalogue();
  Result<std::vector<casework::CaseSummary>> cases = workshop.cases(shelf_most);
  if (!cases) {
    return cases.problems();
  }
  desk.shelf.cases = std::move(cases).value();
  if (number != 0) {
    Result<CaseView> view = workshop.view(number);
    if (!view) {
      return view.problems();
    }
    open(desk, std::move(view));
  }
  return Done{};
}

std::vector<Intention> attend(Bench& bench, Desk& desk, CommandQueue& queue) {
  std::vector<Intention> left;
  for (Intention& wish : queue.take()) {
    if (!std::visit(Attendant{bench, desk}, wish)) {
      left.push_back(std::move(wish));
    }
  }
  fetch_for_page(bench, desk);
  return left;
}

void fetch_for_page(Bench& bench, Desk& desk) {
  recall_last_time(bench.at_hand(), desk);
  const bool wants_mending = desk.station == Station::mend || desk.station == Station::hand_over;
  const double years = desk.mend.horizon_years;
  if (!desk.open_case) {
    return;
  }
  if (wants_mending && !(desk.mending && desk.mending->horizon_years == years)) {
    take(desk, desk.mending, bench.at_hand().mending(desk.open_case->number, years));
  }
  if (desk.station == Station::plan && !desk.plan) {
    take(desk, desk.plan, bench.at_hand().plan_ahead(desk.open_case->number, desk.ahead.depth));
  }
}

void take_dropped(Bench& bench, Desk& desk, const std::string& path, CommandQueue& queue) {
  if (is_case_file(path)) {
    take_cases_in(bench, desk, path);
  } else {
    take_dropped(desk, path, queue);
  }
}

void take_dropped(Desk& desk, const std::string& path, CommandQueue& queue) {
  if (in_case(desk)) {
    desk.station = Station::take_in;
  } else {
    desk.station = Station::cases;
    desk.cases_state.taking_in = true;
  }
  desk.help = desk.far = false;
  PartsListState& parts = parts_of(desk);
  parts = {};
  parts.open = true;
  parts.path = path;
  casework::OwnSetWish wish;
  wish.file = path;
  wish.like = (in_case(desk) ? desk.intake : desk.new_case).equipment;
  queue.push(LookAtPartsList{wish});
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
  desk.word = "The knowledge was edited and is in use now.";
  desk.word_is_refusal = false;
  return true;
}

void look_again(Bench& bench, Desk& desk) {
  refresh_shelf(bench.workshop, desk);
  if (desk.open_case && !bench.practice) {
    Result<CaseView> view = bench.workshop.view(desk.open_case->number);
    if (view) {
      desk.open_case = std::move(view).value();
      desk.mending.reset();
      desk.plan.reset();
      fetch_for_page(bench, desk);
    }
  }
}

}  // namespace dryout::window
