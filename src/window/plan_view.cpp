#include "window/plan_view.h"

#include <imgui.h>

#include <algorithm>
#include <string>

#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::PlanStep;

constexpr int depth_most = 4;          ///< deeper trees are wider than a screen
constexpr float plan_box_least = 104;  ///< narrower boxes hold no words
constexpr float step_least = 58;       ///< height
constexpr float step_gap = 16;
constexpr float gutter = 92;  ///< between columns: room for "good < 1 %"

int depth_of(const PlanStep& step) {
  int deepest = 0;
  for (const PlanStep& next : step.then) {
    deepest = std::max(deepest, 1 + depth_of(next));
  }
  return deepest;
}

class Tree {
 public:
  Tree(Sheet& sheet, CommandQueue& queue, int columns) : sheet_(sheet), queue_(queue) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    left_ = at.x;
    top_ = at.y;
    const float room = ImGui::GetContentRegionAvail().x;
    // On a narrow page the far end of the plan is left out rather than cut.
    const float least = sheet.px(plan_box_least + gutter);
    columns_ =
        std::clamp(columns, 1, std::max(1, static_cast<int>((room + sheet.px(gutter)) / least)));
    const auto count = static_cast<float>(columns_);
    box_width_ = std::clamp((room - (count - 1) * sheet.px(gutter)) / count,
                            sheet.px(plan_box_least), sheet.px(250));
  }

  [[nodiscard]] int columns() const { return columns_; }

  void draw(const PlanStep& first) {
    box_height_ = std::max(sheet_.px(step_least), height_for(first, 0));
    place(first, 0, "plan");
    ImGui::SetCursorScreenPos(ImVec2(left_, top_));
    ImGui::Dummy(ImVec2(1, static_cast<float>(ends_) * end_height()));
  }

 private:
  /// Draws the step and all that follows; the height of its middle.
  float place(const PlanStep& step, int column, const std::string& name) {
    const float left = left_ + static_cast<float>(column) * (box_width_ + sheet_.px(gutter));
    float middle = 0;
    if (step.leaf || step.then.size() < 2 || column + 1 == columns_) {
      middle = top_ + (static_cast<float>(ends_++) + 0.5F) * end_height();
    } else {
      const float upper = place(step.then[0], column + 1, name + "/bad");
      const float lower = place(step.then[1], column + 1, name + "/good");
      middle = (upper + lower) / 2;
      connect(left + box_width_, middle, upper, "bad " + percent(step.then[0].reached));
      connect(left + box_width_, middle, lower, "good " + percent(step.then[1].reached));
    }
    box(step, left, middle, name);
    return middle;
  }

  void connect(float from, float at, float to, const std::string& words) {
    const float elbow = from + sheet_.px(8);
    const float thick = sheet_.px(1.5F);
    line(from, at, elbow, at, sheet_.theme.faint, thick);
    line(elbow, at, elbow, to, sheet_.theme.faint, thick);
    arrow(sheet_, elbow, to, from + sheet_.px(gutter), to, sheet_.theme.faint, thick);
    write(sheet_, Face::note, sheet_.theme.ink, elbow + sheet_.px(4), to - sheet_.px(18),
          fitted(sheet_, Face::note, words, sheet_.px(gutter - 16)));
  }

  void box(const PlanStep& step, float left, float middle, const std::string& name) {
    const Theme& theme = sheet_.theme;
    ImGui::SetCursorScreenPos(ImVec2(left, middle - box_height_ / 2));
    const std::string words = shown(step);
    const Touch touch = press_area(sheet_, name, words, box_width_, box_height_);
    const float round = step.leaf ? 16 : 3;
    fill(sheet_, touch.box, theme.card, round);
    const bool first = name == "plan";
    outline(sheet_, touch.box, touch.hovered || first ? theme.ink : theme.line, first ? 2.5F : 1.2F,
            round);
    const float text = wrapped_height(sheet_, Face::note, inner_width(), words);
    write_wrapped(sheet_, Face::note, theme.ink, left + sheet_.px(8), middle - text / 2,
                  inner_width(), words);
    if (touch.focused) {
      focus_ring(sheet_, touch.box);
    }
    if (touch.hovered) {
      explain(sheet_, words_of(step));
    }
    if (touch.pressed) {
      if (step.leaf) {
        queue_.push(ShowSuspect{step.suspect});
      } else {
        queue_.push(ShowCheck{step.check, step.place});
      }
    }
  }

  [[nodiscard]] float inner_width() const { return box_width_ - sheet_.px(16); }
  [[nodiscard]] float end_height() const { return box_height_ + sheet_.px(step_gap); }

  static std::string shown(const PlanStep& step) {
    return step.leaf ? percent(step.suspicion) + "  " + step.suspect_title : step.title;
  }

  /// What the longest words among the boxes that are drawn take.
  [[nodiscard]] float height_for(const PlanStep& step, int column) const {
    float high = wrapped_height(sheet_, Face::note, inner_width(), shown(step)) + sheet_.px(12);
    if (!step.leaf && column + 1 < columns_) {
      for (const PlanStep& next : step.then) {
        high = std::max(high, height_for(next, column + 1));
      }
    }
    return high;
  }

  static std::string words_of(const PlanStep& step) {
    const std::string here = "\nThe case comes here with " + percent(step.reached) + '.';
    return step.leaf ? "Look to: " + step.suspect_title + "\nnot sound with " +
                           percent(step.suspicion) + here
                     : "Check: " + step.title + "\nMost to blame here: " + step.suspect_title +
                           ", " + percent(step.suspicion) + here;
  }

  Sheet& sheet_;
  CommandQueue& queue_;
  float left_ = 0, top_ = 0, box_width_ = 0, box_height_ = 0;
  int columns_ = 1;
  std::size_t ends_ = 0;
};

}  // namespace

void draw_plan_tree(Sheet& sheet, const PlanStep& first, CommandQueue& queue) {
  const int columns = depth_of(first) + 1;
  Tree tree(sheet, queue, columns);
  tree.draw(first);
  if (tree.columns() < columns) {
    say(sheet, Face::note, sheet.theme.faint,
        "The page is too narrow for all of it; the saved picture shows the whole plan.");
  }
}

void draw_plan(Sheet& sheet, const PlanStep* first, const PlanState& state, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Plan ahead");
  say(sheet, Face::note, sheet.theme.faint, "Checks in a row");
  bool begun = false;
  for (int depth = 1; depth <= depth_most; ++depth) {
    const std::string number = std::to_string(depth);
    const ButtonLook look{.weight = depth == state.depth ? Weight::chosen : Weight::plain,
                          .face = Face::note};
    if (row_button(sheet, begun, "plan/depth/" + number, number, look)) {
      queue.push(ChangeDepth{depth});
    }
  }
  if (first == nullptr || first->leaf) {
    gap(sheet, 6);
    if (state.being_made) {
      return say(sheet, Face::text, sheet.theme.faint, "The plan is being made.");
    }
    say(sheet, Face::text, sheet.theme.faint,
        "No check is worth its minutes now, so there is nothing to plan.");
    return;
  }
  save_chart_button(sheet, "plan", queue);
  say(sheet, Face::note, sheet.theme.faint,
      "Before each check read its cautions on the probing page: discharge and measure, mains off "
      "where the check does not need it. Local codes and licensed practice come first.");
  gap(sheet, 6);
  const Box chart = chart_begins();
  draw_plan_tree(sheet, *first, queue);
  chart_ends(sheet, "plan", chart, queue);
}

}  // namespace dryout::window
