#include "window/lay_desk.h"

#include "window/think_about.h"
#include "window/typed_text.h"

namespace dryout::window {

using casework::CaseView;
using quantities::Done;
using quantities::Result;

namespace {

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

/// What all cases say, where the shop's page is in sight and does not have it yet.
void ask_the_shop(casework::Workshop& workshop, Desk& desk) {
  if (desk.station != Station::shop || desk.shop.page) {
    return;
  }
  const casework::ShopMemory shop = workshop.shop();
  Result<std::vector<casework::CausesView>> causes = shop.causes("", "");
  if (!causes) {
    return refuse(desk, causes.problems());
  }
  ShopPage page;
  page.causes = std::move(causes).value();
  take(desk, page.readings, shop.readings(desk.shop.asked));
  if (desk.open_case) {
    take(desk, page.learned, shop.learned(desk.open_case->equipment, desk.catalogue.year_now));
  }
  page.history_on = shop.in_the_figures();
  page.figures = workshop.shop_figures();
  desk.shop.page = std::move(page);
}

}  // namespace

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
  clear_beside(desk);
  desk.word.clear();
}

void bring_case(Desk& desk, Result<CaseView> view) {
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
  clear_beside(desk);
  desk.practice.reset();
  desk.open_case = std::move(view).value();
  desk.waiting.clear();
  desk.word.clear();
  const auto draft = desk.drafts.find(desk.open_case->number);
  if (draft != desk.drafts.end() && is_of_set(draft->second, desk)) {
    put_back(desk, draft->second);
    if (has_unentered(draft->second)) {
      desk.word = "What was typed here and not entered stands in its fields again.";
    }
  }
  desk.station = any_symptom_told(*desk.open_case) ? Station::probe : Station::symptoms;
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

void tell(Desk& desk, const std::string& word) {
  desk.word = word;
  desk.word_is_refusal = false;
}

void tell_where(Desk& desk, const std::string& what, const Result<std::string>& path) {
  if (!path) {
    return refuse(desk, path.problems());
  }
  tell(desk, what + *path);
}

bool in_case(const Desk& desk) { return desk.open_case && desk.station != Station::cases; }

PartsListState& parts_of(Desk& desk) {
  return in_case(desk) ? desk.intake.parts : desk.new_case.parts;
}

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
    bring_case(desk, std::move(view));
  }
  return Done{};
}

void fetch_for_page(Bench& bench, Desk& desk) {
  recall_last_time(bench.at_hand(), desk);
  ask_the_shop(bench.workshop, desk);
  const bool wants_mending = desk.station == Station::mend || desk.station == Station::hand_over;
  const double years = desk.mend.horizon_years;
  if (!desk.open_case) {
    return;
  }
  const bool no_mending = !(desk.mending && desk.mending->horizon_years == years);
  const int depth = desk.ahead.depth;
  if (thinks_in_place(bench)) {
    if (wants_mending && no_mending) {
      take(desk, desk.mending, bench.at_hand().mending(desk.open_case->number, years));
    }
    if (desk.station == Station::plan && !desk.plan) {
      take(desk, desk.plan, bench.at_hand().plan_ahead(desk.open_case->number, depth));
    }
    return;
  }
  if (desk.figures_due || !desk.open_case->figures.refused.empty()) {
    return;  // what is worked out from the figures has to wait for them
  }
  if (wants_mending && no_mending && desk.asked.mending_for != years) {
    desk.asked.mending_for = years;
    ask_beside(bench, desk, casework::AskMending{years});
  }
  if (desk.station == Station::plan && !desk.plan && desk.asked.plan_for != depth) {
    desk.asked.plan_for = depth;
    ask_beside(bench, desk, casework::AskPlan{depth});
  }
}

void look_again(Bench& bench, Desk& desk) {
  refresh_shelf(bench.workshop, desk);
  if (desk.open_case && !bench.practice) {
    bring_figures(bench, desk, desk.open_case->number, Bring::quietly);
    fetch_for_page(bench, desk);
  }
}

}  // namespace dryout::window
