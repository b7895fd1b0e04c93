#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "quantities/printed_number.h"
#include "window/drawing.h"
#include "window/options_view.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::MendingView;

struct Frame {
  Box box;
  double years_max = 1.0;
  double cost_max = 1.0;
  [[nodiscard]] float x(double years) const {
    return box.left + box.width() * static_cast<float>(std::min(years / years_max, 1.0));
  }
  [[nodiscard]] float y(double cost) const {
    return box.bottom - box.height() * static_cast<float>(cost / cost_max);
  }
};

/// 1, 2 or 5 times a power of ten, so that at most five steps reach the top.
double step_for(double top) {
  const double rough = std::pow(10.0, std::floor(std::log10(top)));
  for (const double step : {0.2, 0.5, 1.0}) {
    if (top / (rough * step) <= 5.0) {
      return rough * step;
    }
  }
  return rough * 2.0;
}

Frame frame_of(const Sheet& sheet, const MendingView& mending) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  Frame frame;
  frame.box = {at.x + sheet.px(48), at.y + sheet.px(8), at.x + width - sheet.px(36),
               at.y + sheet.px(178)};
  for (const casework::HorizonPoint& point : mending.over_horizon) {
    frame.years_max = std::max(frame.years_max, point.years);
    for (const double cost : point.expected_costs) {
      frame.cost_max = std::max(frame.cost_max, cost * 1.05);
    }
  }
  return frame;
}

void draw_scales(const Sheet& sheet, const Frame& frame) {
  const Theme& theme = sheet.theme;
  const double step = step_for(frame.cost_max);
  for (int i = 0; i * step <= frame.cost_max; ++i) {
    const double cost = i * step;
    const float y = std::round(frame.y(cost)) + 0.5F;
    line(frame.box.left, y, frame.box.right, y, theme.line.faded(110), sheet.px(1));
    const std::string words = quantities::whole_number(cost);
    write(sheet, Face::figure_note, theme.faint,
          frame.box.left - sheet.px(6) - width_of(sheet, Face::figure_note, words),
          y - height_of(sheet, Face::figure_note) / 2, words);
  }
  for (int year = 0; year <= static_cast<int>(frame.years_max); year += 5) {
    const std::string words = year == 0 ? "now" : std::to_string(year) + " years";
    write(sheet, Face::figure_note, theme.faint,
          frame.x(year) - width_of(sheet, Face::figure_note, words) / 2,
          frame.box.bottom + sheet.px(4), words);
  }
}

/// Lines are told apart by number, not by colour: each carries its place in the list above.
void draw_curve(const Sheet& sheet, const MendingView& mending, const Frame& frame,
                std::size_t option, bool shown) {
  ImDrawList& pen = *ImGui::GetWindowDrawList();
  std::vector<ImVec2> points;
  for (const casework::HorizonPoint& point : mending.over_horizon) {
    points.emplace_back(frame.x(point.years), frame.y(point.expected_costs.at(option)));
  }
  const Colour colour = shown ? sheet.theme.ink : sheet.theme.faint;
  pen.AddPolyline(points.data(), static_cast<int>(points.size()), colour.packed(), 0,
                  sheet.px(shown ? 3.0F : 1.5F));
  const std::string words = std::to_string(option + 1);
  const std::size_t spot = points.size() * (option + 2) / (mending.options.size() + 3);
  const float wide = width_of(sheet, Face::figure_note, words);
  const float high = height_of(sheet, Face::figure_note);
  const ImVec2 at = points[std::min(spot, points.size() - 1)];
  const Box tag{at.x - wide / 2 - sheet.px(4), at.y - high / 2, at.x + wide / 2 + sheet.px(4),
                at.y + high / 2};
  fill(sheet, tag, sheet.theme.paper, 3);
  outline(sheet, tag, colour, 1, 3);
  write(sheet, Face::figure_note, sheet.theme.ink, at.x - wide / 2, tag.top, words);
}

}  // namespace

void draw_cost_chart(Sheet& sheet, const MendingView& mending, std::size_t shown) {
  if (mending.over_horizon.size() < 2) {
    return;
  }
  gap(sheet, 4);
  say(sheet, Face::note, sheet.theme.faint,
      "Average cost in " + mending.currency + " if it is to last so long; numbers as listed above");
  const Frame frame = frame_of(sheet, mending);
  draw_scales(sheet, frame);
  const float chosen = frame.x(mending.horizon_years);
  dashed(sheet, chosen, frame.box.top, chosen, frame.box.bottom, sheet.theme.ink);
  for (std::size_t i = mending.options.size(); i-- > 0;) {
    if (i != shown) {
      draw_curve(sheet, mending, frame, i, false);
    }
  }
  draw_curve(sheet, mending, frame, shown, true);
  ImGui::Dummy(ImVec2(frame.box.width(), frame.box.height() + sheet.px(34)));
}

}  // namespace dryout::window
