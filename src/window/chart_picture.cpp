#include "window/chart_picture.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "window/desk.h"
#include "window/drawing.h"
#include "window/options_view.h"
#include "window/page_picture.h"
#include "window/timeline_view.h"
#include "window/windowless.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

struct Chart {
  const char* name;
  const char* title;
};
constexpr std::array<Chart, 8> charts{{{"map", "Block map"},
                                       {"balance", "Evidence, weighed"},
                                       {"readings", "Readings"},
                                       {"cost", "Cost over the horizon"},
                                       {"plan", "Plan ahead"},
                                       {"timeline", "The case, step by step"},
                                       {"shop-causes", "What sets end up with"},
                                       {"shop-readings", "What parts read"}}};

bool is_of_shop(const std::string& chart) { return chart.starts_with("shop-"); }

constexpr int picture_width = 1100;  ///< at scale 1
constexpr int height_most = 8000;    ///< what drawing surfaces can hold
constexpr const char* end_name = "alone/end";

bool has_of_shop(const Desk& desk, const std::string& chart) {
  if (!desk.shop.page) {
    return false;
  }
  const ShopPage& page = *desk.shop.page;
  return chart == "shop-causes" ? !page.causes.empty()
                                : page.readings && !page.readings->ages.empty();
}

bool has(const Desk& desk, const std::string& chart) {
  if (is_of_shop(chart)) {
    return has_of_shop(desk, chart);
  }
  if (!desk.open_case) {
    return false;
  }
  const casework::CaseView& view = *desk.open_case;
  return chart == "map"        ? !view.blocks.empty()
         : chart == "balance"  ? !view.suspects.empty()
         : chart == "readings" ? !view.readings.empty()
         : chart == "cost"     ? desk.mending.has_value() && !desk.mending->options.empty()
         : chart == "plan"     ? desk.plan.has_value()
                               : chart == "timeline" && !view.log.empty();
}

void draw_named(Sheet& sheet, Desk& desk, CommandQueue& queue) {
  if (desk.alone == "shop-causes") {
    return draw_cause_shares(sheet, desk.shop.page->causes);
  }
  if (desk.alone == "shop-readings") {
    return draw_readings_by_age(sheet, *desk.shop.page->readings);
  }
  const casework::CaseView& view = *desk.open_case;
  if (desk.alone == "map") {
    draw_block_map(sheet, view, desk.map);
  } else if (desk.alone == "balance") {
    const casework::SuspectView* suspect = suspect_in_hand(view, desk.suspects);
    say(sheet, Face::strong, sheet.theme.ink, suspect->title + ", " + percent(suspect->suspicion));
    draw_balance(sheet, *suspect);
  } else if (desk.alone == "readings") {
    draw_reading_scales(sheet, view, desk.readings);
  } else if (desk.alone == "cost") {
    for (std::size_t i = 0; i < desk.mending->options.size(); ++i) {
      say(sheet, Face::note, sheet.theme.ink,
          std::to_string(i + 1) + "  " + capitalised(desk.mending->options[i].title));
    }
    draw_cost_chart(sheet, *desk.mending, option_in_sight(*desk.mending, desk.mend));
  } else if (desk.alone == "plan") {
    draw_plan_tree(sheet, *desk.plan, queue);
  } else if (desk.alone == "timeline") {
    (void)draw_timeline(sheet, view.log, 0);
  }
}

std::string case_words(const casework::CaseView& view) {
  return (view.set_name.empty() ? "" : view.set_name + ", ") + view.equipment_title + ", case " +
         std::to_string(view.number);
}

/// The height that the chart takes, from two frames that nobody sees.
int height_of_chart(Desk& desk, int width) {
  WindowlessDesk measured(width, height_most);
  CommandQueue nobody;
  (void)measured.frame(desk, nobody);
  (void)measured.frame(desk, nobody);
  const Item* end = measured.items().find(end_name);
  return end == nullptr ? 0 : static_cast<int>(std::ceil(end->bottom));
}

}  // namespace

const std::vector<std::string>& chart_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    all.reserve(std::size(charts));
    for (const Chart& chart : charts) {
      all.emplace_back(chart.name);
    }
    return all;
  }();
  return names;
}

void save_chart_button(Sheet& sheet, const std::string& chart, CommandQueue& queue) {
  if (flow_button(sheet, "picture/" + chart, "Save the picture",
                  {.weight = Weight::quiet, .key = U'p', .face = Face::note})) {
    queue.push(SaveChart{chart});
  }
}

Box chart_begins() {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  return {at.x, at.y, at.x + ImGui::GetContentRegionAvail().x, at.y};
}

void chart_ends(Sheet& sheet, const std::string& chart, Box begun, CommandQueue& queue) {
  const Box box{begun.left, begun.top, begun.right, ImGui::GetCursorScreenPos().y};
  const std::string menu = "menu/" + chart;
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Right) &&
      ImGui::IsMouseHoveringRect(ImVec2(box.left, box.top), ImVec2(box.right, box.bottom)) &&
      ImGui::IsWindowHovered(ImGuiHoveredFlags_ChildWindows)) {
    ImGui::OpenPopup(menu.c_str());
  }
  if (ImGui::BeginPopup(menu.c_str())) {
    if (button(sheet, menu + "/save", "Save this picture", {.face = Face::note})) {
      queue.push(SaveChart{chart});
      ImGui::CloseCurrentPopup();
    }
    ImGui::EndPopup();
  }
}

void draw_alone(Sheet& sheet, Desk& desk, Box page, CommandQueue& queue) {
  const auto chart = std::find_if(charts.begin(), charts.end(),
                                  [&desk](const Chart& one) { return desk.alone == one.name; });
  if (chart == charts.end() || !has(desk, desk.alone)) {
    return;
  }
  begin_region(sheet, "alone", page, 28);
  say(sheet, Face::heading, sheet.theme.ink, chart->title);
  if (!is_of_shop(desk.alone)) {
    say(sheet, Face::note, sheet.theme.faint, case_words(*desk.open_case));
  }
  gap(sheet, 8);
  draw_named(sheet, desk, queue);
  const float below = ImGui::GetCursorScreenPos().y + sheet.px(28);
  sheet.items.note({end_name, "", 0, below, 1, below, false, true, false});
  end_region();
}

Result<Done> draw_chart_png(Desk& desk, const std::string& chart, const std::string& path) {
  if (!has(desk, chart)) {
    return Problem{"there is nothing to draw in this chart yet",
                   {},
                   quantities::excerpt(chart),
                   "a case that has it, one of: " + joined(chart_names())};
  }
  const float before = desk.scale;
  desk.alone = chart;
  desk.scale = std::max(before, 2.0F);
  const int width = static_cast<int>(picture_width * desk.scale);
  const int height = std::clamp(height_of_chart(desk, width), 320, height_most);
  Result<Done> drawn = draw_png(desk, width, height, path);
  desk.alone.clear();
  desk.scale = before;
  return drawn;
}

}  // namespace dryout::window
