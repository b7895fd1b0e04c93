#include "window/options_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/printed_number.h"
#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::MendingView;
using casework::OptionView;

struct Horizon {
  double years;
  const char* name;
  const char* title;
};
constexpr std::array<Horizon, 5> horizons{{{1.0, "horizon/1", "1 year"},
                                           {3.0, "horizon/3", "3 years"},
                                           {5.0, "horizon/5", "5 years"},
                                           {10.0, "horizon/10", "10 years"},
                                           {20.0, "horizon/20", "20 years"}}};

std::string amount(double money) { return quantities::whole_number(money); }

void draw_horizon(Sheet& sheet, const MendState& state, CommandQueue& queue) {
  say(sheet, Face::note, sheet.theme.faint, "The owner wants it to last");
  bool begun = false;
  for (const Horizon& horizon : horizons) {
    const bool chosen = horizon.years == state.horizon_years;
    const ButtonLook look{.weight = chosen ? Weight::chosen : Weight::plain, .face = Face::note};
    if (row_button(sheet, begun, horizon.name, horizon.title, look)) {
      queue.push(ChangeHorizon{horizon.years});
    }
  }
  gap(sheet, 4);
}

/// Solid: spent now. Hatched: what may come back, seep or break. Open: a set that stays faulty.
void draw_cost_bar(const Sheet& sheet, Box box, const OptionView& option, double dearest) {
  const auto wide = [&](double cost) { return box.width() * static_cast<float>(cost / dearest); };
  Box part{box.left, box.top, box.left + wide(option.cost_now), box.bottom};
  fill(sheet, part, sheet.theme.ink);
  part = {part.right, box.top, part.right + wide(option.damage_cost + option.come_back_cost),
          box.bottom};
  hatch(sheet, part, quantities::Probability(0.6));
  outline(sheet, part, sheet.theme.ink);
  part = {part.right, box.top, part.right + wide(option.unmended_cost), box.bottom};
  outline(sheet, part, sheet.theme.ink);
}

std::string risks_of(const OptionView& option, const MendingView& mending) {
  std::string text = option.parts == 0   ? "no parts"
                     : option.parts == 1 ? "1 part"
                                         : std::to_string(option.parts) + " parts";
  text += ", comes back " + percent(option.come_back);
  return mending.preventive ? text : text + ", complaint stays " + percent(option.complaint_stays);
}

void draw_option(Sheet& sheet, const OptionView& option, const MendingView& mending, double dearest,
                 bool shown, MendState& state) {
  const Theme& theme = sheet.theme;
  const float width = ImGui::GetContentRegionAvail().x;
  const float pad = sheet.px(8);
  const std::string cost =
      amount(option.expected_cost) + " \u00b1 " + amount(option.spread) + ' ' + mending.currency;
  const float figure = width_of(sheet, Face::figure_note, cost);
  const std::string title = capitalised(option.title);
  const std::string risks = risks_of(option, mending);
  const float inner = width - 2 * pad - sheet.px(4);
  const float room = inner - figure - pad;
  const float title_high = wrapped_height(sheet, Face::text, room, title);
  const float risks_high = wrapped_height(sheet, Face::note, inner, risks);
  const Touch touch = press_area(sheet, "option/" + option.scope, option.title, width,
                                 title_high + risks_high + sheet.px(27));
  if (shown || touch.hovered) {
    fill(sheet, touch.box, theme.card, 4);
  }
  if (shown) {
    fill(sheet, {touch.box.left, touch.box.top, touch.box.left + sheet.px(4), touch.box.bottom},
         theme.ink);
  }
  const float x = touch.box.left + pad + sheet.px(4);
  const float right = touch.box.right - pad;
  write_wrapped(sheet, Face::text, theme.ink, x, touch.box.top + sheet.px(3), room, title);
  write(sheet, Face::figure_note, theme.ink, right - figure, touch.box.top + sheet.px(5), cost);
  const float bar = touch.box.top + title_high + sheet.px(6);
  draw_cost_bar(sheet, {x, bar, right, bar + sheet.px(12)}, option, dearest);
  write_wrapped(sheet, Face::note, theme.faint, x, bar + sheet.px(15), inner, risks);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.hovered && !option.replaced.empty()) {
    explain(sheet, joined(option.replaced, "\n"));
  }
  if (touch.pressed) {
    state.scope = option.scope;
    state.row.clear();
  }
}

void draw_advice(const Sheet& sheet, const MendingView& mending) {
  for (const std::string& notice : mending.notices) {
    say(sheet, Face::note, sheet.theme.faint, notice);
  }
  gap(sheet, 2);
  say(sheet, Face::strong, sheet.theme.ink, mending.sentence);
  for (const std::string& reason : mending.reasons) {
    say(sheet, Face::text, sheet.theme.ink, "\u00b7 " + reason);
  }
  if (!mending.flips.empty()) {
    say(sheet, Face::note, sheet.theme.faint, mending.flips);
  }
  gap(sheet, 4);
}

}  // namespace

std::size_t option_in_sight(const MendingView& mending, const MendState& state) {
  const auto found =
      std::find_if(mending.options.begin(), mending.options.end(),
                   [&](const OptionView& option) { return option.scope == state.scope; });
  return found == mending.options.end() ? 0
                                        : static_cast<std::size_t>(found - mending.options.begin());
}

void draw_options(Sheet& sheet, const MendingView& mending, MendState& state, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink,
      !mending.preventive ? "What to replace"
      : mending.settled   ? "No fault was reported: what to renew"
                          : "Nothing is wrong yet: what to renew");
  draw_advice(sheet, mending);
  if (mending.preventive) {
    draw_sampling(sheet, mending, queue);
  }
  section(sheet, "What each way costs, on average");
  draw_horizon(sheet, state, queue);
  double dearest = 1.0;
  for (const OptionView& option : mending.options) {
    dearest = std::max(dearest, option.expected_cost);
  }
  const std::size_t shown = option_in_sight(mending, state);
  for (std::size_t i = 0; i < mending.options.size(); ++i) {
    draw_option(sheet, mending.options[i], mending, dearest, i == shown, state);
  }
  say(sheet, Face::note, sheet.theme.faint,
      mending.preventive
          ? "Solid: bench and parts now. Hatched: what may come back, seep or break."
          : "Solid: bench and parts now. Hatched: what may come back, seep or break. Open: a set "
            "that keeps its fault.");
  const Box chart = chart_begins();
  draw_cost_chart(sheet, mending, shown);
  chart_ends(sheet, "cost", chart, queue);
  if (mending.over_horizon.size() > 1 &&
      button(sheet, "picture/cost", "Save the picture",
             {.weight = Weight::quiet, .key = U'p', .face = Face::note})) {
    queue.push(SaveChart{"cost"});
  }
}

}  // namespace dryout::window
