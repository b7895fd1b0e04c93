#include "walk/both_faces.h"

#include <gtest/gtest.h>

#include <array>
#include <cctype>
#include <cmath>
#include <sstream>

#include "app/mending_json.h"
#include "app/print_view.h"
#include "app/view_json.h"
#include "documents/parse.h"
#include "report/bench_record.h"
#include "report/owner_report.h"
#include "report/parts_sheet.h"
#include "report/render.h"
#include "window/chart_picture.h"
#include "window/page_picture.h"
#include "window/window.h"

namespace dryout::walk {
namespace {

using casework::CaseView;
using casework::MendingView;

constexpr std::size_t all = 1000;

void expect_sane(const CaseView& view) {
  for (const casework::SuspectView& each : view.suspects) {
    EXPECT_FALSE(std::isnan(each.weight.value)) << each.item;
    EXPECT_TRUE(std::isfinite(each.suspicion.value())) << each.item;
    EXPECT_FALSE(each.title.empty()) << each.item;
  }
  EXPECT_FALSE(view.leading.sentence.empty());
  for (const casework::CheckView& check : view.next) {
    EXPECT_FALSE(check.reason.empty()) << check.check;
    EXPECT_TRUE(std::isfinite(check.looks_bad.value())) << check.check;
  }
}

/// As a word of its own: "dominant" has it too.
bool says_nan(const std::string& text) {
  const auto letter = [&](std::size_t at) {
    return at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0;
  };
  for (std::size_t at = text.find("nan"); at != std::string::npos; at = text.find("nan", at + 1)) {
    if ((at == 0 || !letter(at - 1)) && !letter(at + 3)) {
      return true;
    }
  }
  return false;
}

/// case show, suspects, next, explain of every suspect.
void print_case(std::ostream& out, const CaseView& view) {
  app::print_head(out, view);
  app::print_boards(out, view);
  app::print_suspects(out, view, all);
  app::print_next(out, view, all);
  app::print_log(out, view);
  for (const casework::CheckView& check : view.next) {
    app::print_check(out, check);
  }
  for (const casework::CheckView& check : view.declined) {
    app::print_check(out, check);
  }
  for (const casework::SuspectView& suspect : view.suspects) {
    app::print_explanation(out, suspect);
  }
  out << documents::to_text(app::case_json(view)) << documents::to_text(app::suspects_json(view))
      << documents::to_text(app::next_json(view));
}

/// decide, parts.
void print_mended(std::ostream& out, const MendingView& mending) {
  app::print_mending(out, mending);
  for (const casework::OptionView& option : mending.options) {
    EXPECT_TRUE(std::isfinite(option.expected_cost)) << option.title;
    app::print_shopping(out, option);
  }
  out << documents::to_text(app::to_json(mending));
}

void write_papers(const CaseView& view, const MendingView& mending, bool pdf) {
  const report::Imprint imprint{"Bench", 1'772'614'800};
  for (const report::Document& paper :
       {report::owner_report(view, mending, imprint), report::bench_record(view, mending, imprint),
        report::parts_sheet(view, mending.shopping, imprint)}) {
    EXPECT_FALSE(report::render_html(paper, report::Paper::a4).bytes.empty());
    if (pdf) {
      EXPECT_TRUE(report::render_pdf(paper, report::Paper::a4).ok());
    }
  }
}

}  // namespace

BothFaces::BothFaces(casework::Workshop& workshop, std::int64_t number,
                     window::WindowlessDesk& lent)
    : bench_{workshop}, window_(lent) {
  const auto laid = window::lay_desk(workshop, desk_, number);
  EXPECT_TRUE(laid.ok()) << (laid ? "" : quantities::describe(laid.problems()));
}

std::string BothFaces::does(const window::Intention& wish) {
  desk_.word.clear();
  desk_.word_is_refusal = false;
  queue_.push(wish);
  (void)window::attend(bench_, desk_, queue_);
  return desk_.word_is_refusal ? desk_.word : "";
}

void BothFaces::page(const std::string& name, bool filled) {
  const auto turned = window::turn_to(desk_, name);
  ASSERT_TRUE(turned.ok()) << quantities::describe(turned.problems());
  desk_.word_is_refusal = false;
  if (filled) {
    window::fetch_for_page(bench_, desk_);
  }
  EXPECT_FALSE(desk_.word_is_refusal) << name << ": " << desk_.word;
  (void)window_.frame(desk_, queue_);
  (void)queue_.take();
}

void BothFaces::lay_out_pages(unsigned turn) {
  const auto nth = [turn](const auto& list) -> const auto& { return list[turn % list.size()]; };
  desk_.suspects.selected = view().suspects.empty() ? "" : nth(view().suspects).item;
  desk_.readings.selected = view().readings.empty() ? -1 : nth(view().readings).event;
  desk_.log.selected = view().log.empty() ? -1 : nth(view().log).event;
  desk_.probe.check = view().next.empty() ? "" : nth(view().next).check;
  desk_.probe.place = view().next.empty() ? "" : nth(view().next).place;
  desk_.mend.item = desk_.suspects.selected;
  // Looking ahead is most of a look's work, and asks nothing of the case that the rest does not.
  constexpr unsigned plans_are_one_in = 8;
  for (const std::string& name : window::view_names()) {
    page(name, name != "plan" || turn % plans_are_one_in == 0);
  }
  desk_.help = desk_.far = false;
}

void BothFaces::lay_out_charts() {
  for (const std::string& chart : window::chart_names()) {
    desk_.alone = chart;
    (void)window_.frame(desk_, queue_);
    (void)queue_.take();
  }
  desk_.alone.clear();
}

void BothFaces::look(unsigned turn) {
  constexpr std::array<double, 4> years{3.0, 0.1, 10.0, 30.0};
  constexpr std::array<std::pair<int, float>, 3> sizes{{{1280, 1.0F}, {1024, 1.0F}, {1280, 2.0F}}};
  const auto& [width, scale] = sizes[turn / 500 % sizes.size()];
  desk_.scale = scale;
  desk_.theme = turn % 2 == 0 ? window::ThemeName::dark : window::ThemeName::light;
  desk_.mend.horizon_years = years[turn % years.size()];
  desk_.mending.reset();
  window_.resize(width, width == 1024 ? 700 : 800);
  lay_out_pages(turn);
  const bool seldom = turn % 32 == 0;
  if (seldom) {
    lay_out_charts();
  }
  expect_sane(view());
  std::ostringstream printed;
  print_case(printed, view());
  if (desk_.plan) {
    app::print_plan(printed, *desk_.plan, 0);
    printed << documents::to_text(app::to_json(*desk_.plan));
  }
  ASSERT_NE(mending(), nullptr) << desk_.word;
  print_mended(printed, *mending());
  EXPECT_FALSE(says_nan(printed.str()));
  write_papers(view(), *mending(), seldom);
}

}  // namespace dryout::walk
