#include "window/timeline_view.h"

#include <imgui.h>

#include <algorithm>

#include "casework/timeline.h"
#include "window/drawing.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::LogLine;

constexpr float step_width = 24;
constexpr float lane_height = 20;
constexpr float names_width = 72;

/// Only the lanes in which something happened, so that a young case stays small.
std::vector<casework::Lane> lanes_used(const std::vector<LogLine>& log) {
  std::vector<casework::Lane> used;
  for (const casework::Lane& lane : casework::lanes()) {
    if (std::any_of(log.begin(), log.end(),
                    [&lane](const LogLine& step) { return step.lane == lane.id; })) {
      used.push_back(lane);
    }
  }
  return used;
}

std::string day(const LogLine& step) { return step.when.substr(0, step.when.find(' ')); }
std::string hour(const LogLine& step) {
  const std::size_t space = step.when.find(' ');
  return space == std::string::npos ? step.when : step.when.substr(space + 1);
}

void draw_sign(const Sheet& sheet, float x, float y, const LogLine& step) {
  ImDrawList& pen = *ImGui::GetWindowDrawList();
  const Theme& theme = sheet.theme;
  const float r = sheet.px(6);
  if (step.undone) {
    pen.AddCircle(ImVec2(x, y), r * 0.7F, theme.faint.packed(), 0, sheet.px(1));
  } else if (step.bearing == "bad") {
    pen.AddQuadFilled(ImVec2(x, y - r), ImVec2(x + r, y), ImVec2(x, y + r), ImVec2(x - r, y),
                      theme.accuses.packed());
  } else if (step.bearing == "good") {
    pen.AddCircleFilled(ImVec2(x, y), r * 0.85F, theme.clears.packed());
  } else {
    pen.AddCircle(ImVec2(x, y), r * 0.8F, theme.ink.packed(), 0, sheet.px(2));
  }
}

struct Band {
  std::size_t from = 0, to = 0;  ///< steps of the log
};

class Timeline {
 public:
  Timeline(Sheet& sheet, const std::vector<LogLine>& log)
      : sheet_(sheet), log_(log), lanes_(lanes_used(log)) {}

  TimelineTouch draw(const Band& band) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float first = at.x + sheet_.px(names_width);
    const float head = at.y + sheet_.px(22);
    const float width = static_cast<float>(band.to - band.from) * sheet_.px(step_width);
    for (std::size_t i = 0; i < lanes_.size(); ++i) {
      const float y = lane_y(head, i);
      write(sheet_, Face::note, sheet_.theme.faint, at.x, y - sheet_.px(9),
            std::string(lanes_[i].title));
      line(first, y, first + width, y, sheet_.theme.line, sheet_.px(1));
    }
    const float foot = lane_y(head, lanes_.size());
    TimelineTouch touched;
    for (std::size_t i = band.from; i < band.to; ++i) {
      const float x = first + (static_cast<float>(i - band.from) + 0.5F) * sheet_.px(step_width);
      draw_clock(band, i, x, at.y, foot);
      if (draw_step(log_[i], x, head)) {
        touched.pressed = log_[i].event;
      }
    }
    ImGui::SetCursorScreenPos(at);
    ImGui::Dummy(ImVec2(sheet_.px(names_width) + width, foot - at.y));
    return touched;
  }

 private:
  [[nodiscard]] float lane_y(float head, std::size_t lane) const {
    return head + (static_cast<float>(lane) + 0.5F) * sheet_.px(lane_height);
  }

  /// The day where it changes, and the hour where there is room since the last one.
  void draw_clock(const Band& band, std::size_t i, float x, float y, float foot) {
    const bool new_day = i == band.from || day(log_[i]) != day(log_[i - 1]);
    const float left = x - sheet_.px(step_width) / 2;
    if (new_day && i != band.from) {
      dashed(sheet_, left, y, left, foot, sheet_.theme.faint);
    }
    const std::string words = new_day ? day(log_[i]) + ' ' + hour(log_[i]) : hour(log_[i]);
    if (i == band.from) {
      free_from_ = left;
    }
    const float wide = width_of(sheet_, Face::figure_note, words);
    if (left + sheet_.px(3) >= free_from_ && (new_day || hour(log_[i]) != told_)) {
      write(sheet_, Face::figure_note, sheet_.theme.faint, left + sheet_.px(3), y, words);
      free_from_ = left + wide + sheet_.px(14);
      told_ = hour(log_[i]);
    }
  }

  bool draw_step(const LogLine& step, float x, float head) {
    const auto lane =
        std::find_if(lanes_.begin(), lanes_.end(),
                     [&step](const casework::Lane& known) { return known.id == step.lane; });
    if (lane == lanes_.end()) {
      return false;
    }
    const float y = lane_y(head, static_cast<std::size_t>(lane - lanes_.begin()));
    const float half = sheet_.px(lane_height) / 2;
    ImGui::SetCursorScreenPos(ImVec2(x - half, y - half));
    // No stop for Tab: the same steps stand below, one by one.
    const Touch touch = press_area(sheet_, "timeline/" + std::to_string(step.event), step.text,
                                   2 * half, 2 * half, {.tab_stop = false});
    draw_sign(sheet_, x, y, step);
    if (touch.hovered) {
      outline(sheet_, touch.box, sheet_.theme.ink, 1, 4);
      explain(sheet_, step.when + "\n" + step.text + (step.undone ? " (taken back)" : ""));
    }
    return touch.pressed;
  }

  Sheet& sheet_;
  const std::vector<LogLine>& log_;
  std::vector<casework::Lane> lanes_;
  float free_from_ = 0;
  std::string told_;
};

}  // namespace

TimelineTouch draw_timeline(Sheet& sheet, const std::vector<LogLine>& log, int bands) {
  const float room = ImGui::GetContentRegionAvail().x - sheet.px(names_width);
  const auto in_band = static_cast<std::size_t>(std::max(4.0F, room / sheet.px(step_width)));
  const std::size_t count = (log.size() + in_band - 1) / in_band;
  const std::size_t skipped = bands > 0 && count > static_cast<std::size_t>(bands)
                                  ? count - static_cast<std::size_t>(bands)
                                  : 0;
  if (skipped > 0) {
    say(sheet, Face::note, sheet.theme.faint,
        std::to_string(skipped * in_band) + " earlier steps stand in the log below.");
  }
  Timeline timeline(sheet, log);
  TimelineTouch touched;
  for (std::size_t i = skipped; i < count; ++i) {
    const TimelineTouch touch =
        timeline.draw({i * in_band, std::min(log.size(), (i + 1) * in_band)});
    touched = touch.pressed != 0 ? touch : touched;
    gap(sheet, 4);
  }
  return touched;
}

}  // namespace dryout::window
