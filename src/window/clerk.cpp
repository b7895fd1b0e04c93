#include "window/clerk.h"

#include "window/lay_desk.h"
#include "window/papers.h"
#include "window/think_about.h"

namespace dryout::window {

using quantities::Done;
using quantities::Result;

namespace {

/// The finder on the page in sight.
FinderState& finder_of(Desk& desk) {
  return desk.station == Station::shop ? desk.shop.arriving : parts_of(desk).file;
}

Result<std::string> export_all(const casework::Workshop& workshop) {
  const Result<std::string> text = workshop.export_all();
  return text ? workshop.files().hand_out("all-cases", ".json", *text) : text;
}

Result<std::string> copy_store(const casework::Workshop& workshop) {
  Result<std::string> path = workshop.files().free_path(casework::Made::papers, "store", ".db");
  const Result<Done> copied = path ? workshop.backup(*path) : Result<Done>(path.problems());
  return copied ? path : copied.problems();
}

bool is_case_file(const std::string& path) { return path.ends_with(".json"); }

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
  bring_figures(bench, desk, report->cases.front().number, Bring::anew);
  refresh_shelf(bench.workshop, desk);
  desk.shop.arriving = {};
  tell(desk, path + ": " + casework::told(*report));
}

}  // namespace

void Clerk::operator()(const WritePaper& wish) const {
  tell_where(desk, "Written: ", write_paper(bench, desk, wish.paper));
}

void Clerk::operator()(const LookIntoFolder& wish) const {
  FinderState& finder = finder_of(desk);
  finder.seen.reset();
  auto seen = bench.workshop.files().look_into(wish.begun, wish.endings);
  if (seen) {  // a folder that isn't there is a path not yet typed to its end
    finder.seen = std::move(seen).value();
  }
}

void Clerk::operator()(const TakeCasesIn& wish) const { take_cases_in(bench, desk, wish.path); }

void Clerk::operator()(const LookAtPartsList& wish) const {
  Result<casework::OwnSet> set = bench.workshop.look_at_own_set(wish.wish);
  parts_of(desk).seen.reset();
  if (!set) {
    refuse(desk, set.problems());
    return;
  }
  parts_of(desk).seen = std::move(set).value();
  desk.word.clear();
}

void Clerk::operator()(const KeepPartsList& wish) const {
  const Result<casework::OwnSet> set = bench.workshop.keep_own_set(wish.wish);
  if (!set) {
    refuse(desk, set.problems());
    return;
  }
  parts_of(desk) = {};
  (in_case(desk) ? desk.intake : desk.new_case).equipment = set->id;
  desk.catalogue = bench.workshop.catalogue();
  tell(desk, "Kept and picked: " + set->title);
}

void Clerk::operator()(const UseShopHistory& wish) const {
  Result<Done> used = bench.workshop.files().want_shop_history(wish.on);
  if (used) {
    used = bench.workshop.use_shop_history(wish.on);
  }
  if (!used) {
    refuse(desk, used.problems());
    return;
  }
  desk.shop.page.reset();
  look_again(bench, desk);
  tell(desk, wish.on ? "Closed cases enter the figures from now on."
                     : "Closed cases stay out of the figures.");
}

void Clerk::operator()(const SetShopFigure& wish) const {
  if (const Result<Done> kept = bench.workshop.set_shop_figure(wish.key, wish.value); !kept) {
    refuse(desk, kept.problems());
    return;
  }
  desk.shop.page.reset();
  desk.shop.figure.clear();
  desk.mending.reset();
  desk.asked = {};
  tell(desk, wish.value ? "Kept: decisions are reckoned with it from now on."
                        : "Back to the shipped figure.");
}

void Clerk::operator()(const CopyAllCases& wish) const {
  tell_where(desk, "All cases are in ",
             wish.as_text ? export_all(bench.workshop) : copy_store(bench.workshop));
}

void Clerk::operator()(const CheckStore& /*wish*/) const {
  const Result<Done> sound = bench.workshop.check_integrity();
  if (!sound) {
    refuse(desk, sound.problems());
  } else {
    tell(desk, "The store is sound: every page of it was read.");
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
  parts.file.path = path;
  casework::OwnSetWish wish;
  wish.file = path;
  wish.like = (in_case(desk) ? desk.intake : desk.new_case).equipment;
  queue.push(LookAtPartsList{wish});
}

}  // namespace dryout::window
