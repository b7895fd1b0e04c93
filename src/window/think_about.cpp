#include "window/think_about.h"

#include <chrono>
#include <utility>

#include "window/lay_desk.h"

namespace dryout::window {
namespace {

using casework::CaseView;
using casework::MendingView;
using casework::PlanStep;
using casework::WhatIfView;
using quantities::Done;
using quantities::Result;

/// What is there by then is laid on the desk without a word about it: nobody sees a flicker.
constexpr std::chrono::milliseconds at_once(60);

std::string words_for(const casework::ThinkingProgress& progress, const Desk& desk) {
  std::string far;
  if (progress.all > 0) {
    far = " (" + std::to_string(progress.done) + " of " + std::to_string(progress.all) + ")";
  }
  if (std::holds_alternative<casework::AskMending>(progress.question)) {
    return "What to mend is being weighed" + far + ". Esc gives it up.";
  }
  if (std::holds_alternative<casework::AskPlan>(progress.question)) {
    return "The plan is being made" + far + ". Esc gives it up.";
  }
  if (std::holds_alternative<casework::AskChange>(progress.question)) {
    return "What would change is being worked out" + far + ". Esc gives it up.";
  }
  if (desk.coming != 0) {
    return "Case " + std::to_string(desk.coming) +
           " comes to the desk as soon as its figures are "
           "worked out" +
           far + ". Esc: without figures.";
  }
  return "The figures are being worked out" + far +
         ": those shown are from before the last step. Esc: without figures.";
}

bool tell_thinking(Bench& bench, Desk& desk) {
  const auto progress = bench.thinking->progress();
  std::string words = progress ? words_for(*progress, desk) : std::string();
  if (words == desk.thinking) {
    return false;
  }
  desk.thinking = std::move(words);
  return true;
}

struct Laying {
  Desk& desk;
  const casework::ThoughtOut& thought;

  [[nodiscard]] bool of_open_case() const {
    return desk.open_case && desk.open_case->number == thought.number && !desk.figures_due;
  }
  void operator()(Result<CaseView>& view) const {
    if (desk.coming == thought.number) {
      bring_case(desk, std::move(view));
    } else if (!view) {
      refuse(desk, view.problems());
    } else if (desk.open_case && desk.open_case->number == thought.number) {
      desk.open_case = std::move(view).value();
      clear_beside(desk);
    }
    desk.coming = 0;
    desk.figures_due = false;
  }
  void operator()(Result<MendingView>& mending) const {
    if (of_open_case()) {
      take(desk, desk.mending, std::move(mending));
    }
  }
  void operator()(Result<PlanStep>& plan) const {
    if (of_open_case()) {
      take(desk, desk.plan, std::move(plan));
    }
  }
  void operator()(Result<WhatIfView>& change) const {
    if (of_open_case()) {
      take(desk, desk.probe.what_if, std::move(change));
    }
  }
};

void ask(Bench& bench, Desk& desk, std::int64_t number, casework::Question question) {
  if (const Result<Done> asked = bench.thinking->ask(bench.workshop, number, std::move(question));
      !asked) {
    desk.coming = 0;
    desk.figures_due = false;
    return refuse(desk, asked.problems());
  }
  bench.thinking->wait_at_most(at_once);
  (void)take_thoughts(bench, desk);
}

}  // namespace

bool thinks_in_place(const Bench& bench) { return bench.thinking == nullptr || bench.practice; }

void forget_thoughts(Bench& bench, Desk& desk) {
  if (bench.thinking != nullptr) {
    bench.thinking->forget();
  }
  desk.thinking.clear();
  desk.coming = 0;
  desk.figures_due = false;
}

void clear_beside(Desk& desk) {
  desk.mending.reset();
  desk.plan.reset();
  desk.probe.what_if.reset();
  desk.asked = {};
}

void bring_figures(Bench& bench, Desk& desk, std::int64_t number, Bring how) {
  if (thinks_in_place(bench)) {
    Result<CaseView> view = bench.workshop.view(number);
    if (how == Bring::anew) {
      bring_case(desk, std::move(view));
    } else if (how == Bring::stepped) {
      show(desk, std::move(view));
    } else if (view) {
      desk.open_case = std::move(view).value();
      clear_beside(desk);
    }
    return;
  }
  desk.coming = how == Bring::anew ? number : 0;
  desk.figures_due = how != Bring::anew;
  if (how == Bring::stepped) {
    desk.word.clear();
    clear_beside(desk);
  }
  ask(bench, desk, number, casework::AskFigures{});
}

void ask_beside(Bench& bench, Desk& desk, casework::Question question) {
  ask(bench, desk, desk.open_case->number, std::move(question));
}

bool take_thoughts(Bench& bench, Desk& desk) {
  if (bench.thinking == nullptr) {
    return false;
  }
  bool news = false;
  for (casework::ThoughtOut& thought : bench.thinking->take()) {
    std::visit(Laying{desk, thought}, thought.answer);
    news = true;
  }
  if (news) {
    fetch_for_page(bench, desk);
  }
  return tell_thinking(bench, desk) || news;
}

}  // namespace dryout::window
