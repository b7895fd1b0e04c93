#include <algorithm>
#include <type_traits>

#include "window/desk.h"

namespace dryout::window {
namespace {

constexpr float scale_step = 0.25F;

struct Turn {
  Desk& desk;

  bool operator()(const GoTo& wish) const {
    desk.station = desk.open_case || !needs_case(wish.station) ? wish.station : Station::cases;
    desk.far = false;
    desk.help = false;
    if (wish.station == Station::cases) {
      desk.cases_state.taking_in = false;
    }
    return true;
  }
  bool operator()(const ShowSuspect& wish) const {
    desk.suspects.selected = wish.item;
    desk.suspects.fault.clear();
    desk.station = Station::suspects;
    return true;
  }
  bool operator()(const ShowCheck& wish) const {
    desk.probe.check = wish.check;
    desk.probe.place = wish.place;
    desk.station = Station::probe;
    return true;
  }
  bool operator()(const MeasureBatch& wish) const {
    if (desk.open_case) {
      begin_addition(desk.readings, *desk.open_case, wish.group);
      desk.station = Station::readings;
    }
    return true;
  }
  bool operator()(const ChangeHorizon& wish) const {
    desk.mend.horizon_years = wish.years;
    return true;
  }
  bool operator()(const ChangeDepth& wish) const {
    desk.ahead.depth = wish.depth;
    desk.plan.reset();
    return true;
  }
  bool operator()(const ToggleFar& /*wish*/) const {
    desk.far = desk.open_case && !desk.far;
    return true;
  }
  bool operator()(const ToggleHelp& /*wish*/) const {
    desk.help = !desk.help;
    return true;
  }
  bool operator()(const ToggleTheme& /*wish*/) const {
    desk.theme = desk.theme == ThemeName::dark ? ThemeName::light : ThemeName::dark;
    return true;
  }
  bool operator()(const ChangeScale& wish) const {
    desk.scale = std::clamp(desk.scale + scale_step * static_cast<float>(wish.steps), 1.0F, 3.0F);
    return true;
  }
  template <class Other>
  bool operator()(const Other& /*wish*/) const {
    return false;
  }
};

}  // namespace

bool needs_case(Station station) {
  return station != Station::cases && station != Station::shop && station != Station::library &&
         station != Station::practice;
}

bool turn_page(Desk& desk, const Intention& wish) { return std::visit(Turn{desk}, wish); }

}  // namespace dryout::window
