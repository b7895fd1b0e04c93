#include "window/attend.h"

#include <algorithm>

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
  desk.open_case = std::move(view).value();
  desk.word.clear();
  const std::vector<casework::SymptomView>& symptoms = desk.open_case->symptoms;
  const bool told = std::any_of(symptoms.begin(), symptoms.end(),
                                [](const casework::SymptomView& s) { return !s.seen.empty(); });
  desk.station = told ? Station::probe : Station::symptoms;
}

void refresh_shelf(casework::Workshop& workshop, Desk& desk) {
  Result<std::vector<casework::CaseSummary>> cases = workshop.cases();
  if (!cases) {
    refuse(desk, cases.problems());
    return;
  }
  desk.cases = std::move(cases).value();
}

bool in_case(const Desk& desk) { return desk.open_case && desk.station != Station::cases; }

/// The form that stands on the desk: of the open case, or of the one coming in.
PartsListState& parts_of(Desk& desk) {
  return in_case(desk) ? desk.intake.parts : desk.new_case.parts;
}

struct Attendant {
  casework::Workshop& workshop;
  Desk& desk;

  bool operator()(const casework::Command& command) const {
    if (desk.open_case) {
      show(desk, workshop.apply(desk.open_case->number, command));
    }
    return true;
  }
  bool operator()(const StartCase& wish) const {
    const Result<std::int64_t> number = workshop.start(wish.intake);
    if (!number) {
      refuse(desk, number.problems());
      return true;
    }
    desk.new_case = {};
    desk.cases_state.taking_in = false;
    open(desk, workshop.view(*number));
    refresh_shelf(workshop, desk);
    return true;
  }
  bool operator()(const OpenCase& wish) const {
    open(desk, workshop.view(wish.number));
    return true;
  }
  bool operator()(const TakeBack& wish) const {
    if (desk.open_case) {
      show(desk, workshop.take_back(desk.open_case->number, wish.event));
    }
    return true;
  }
  bool operator()(const Undo& /*wish*/) const {
    if (desk.open_case && desk.open_case->can_undo) {
      show(desk, workshop.undo(desk.open_case->number));
    }
    return true;
  }
  bool operator()(const Redo& /*wish*/) const {
    if (desk.open_case && desk.open_case->can_redo) {
      show(desk, workshop.redo(desk.open_case->number));
    }
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

}  // namespace

Result<Done> lay_desk(casework::Workshop& workshop, Desk& desk, std::int64_t number) {
  desk.catalogue = workshop.catalogue();
  Result<std::vector<casework::CaseSummary>> cases = workshop.cases();
  if (!cases) {
    return cases.problems();
  }
  desk.cases = std::move(cases).value();
  if (number != 0) {
    Result<CaseView> view = workshop.view(number);
    if (!view) {
      return view.problems();
    }
    open(desk, std::move(view));
  }
  return Done{};
}

std::vector<Intention> attend(casework::Workshop& workshop, Desk& desk, CommandQueue& queue) {
  std::vector<Intention> left;
  for (Intention& wish : queue.take()) {
    if (!std::visit(Attendant{workshop, desk}, wish)) {
      left.push_back(std::move(wish));
    }
  }
  weigh_mending(workshop, desk);
  return left;
}

void weigh_mending(casework::Workshop& workshop, Desk& desk) {
  const bool shown = desk.station == Station::mend || desk.station == Station::hand_over;
  const double years = desk.mend.horizon_years;
  if (!desk.open_case || !shown || (desk.mending && desk.mending->horizon_years == years)) {
    return;
  }
  auto mending = workshop.mending(desk.open_case->number, years);
  if (!mending) {
    desk.mending.reset();
    refuse(desk, mending.problems());
    return;
  }
  desk.mending = std::move(mending).value();
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

void look_again(casework::Workshop& workshop, Desk& desk) {
  refresh_shelf(workshop, desk);
  if (desk.open_case) {
    Result<CaseView> view = workshop.view(desk.open_case->number);
    if (view) {
      desk.open_case = std::move(view).value();
      desk.mending.reset();
      weigh_mending(workshop, desk);
    }
  }
}

}  // namespace dryout::window
