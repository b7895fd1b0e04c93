#include "window/desk.h"

#include <imgui.h>

#include <algorithm>
#include <array>

#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/far_view.h"
#include "window/help_view.h"
#include "window/suspicion_column.h"
#include "window/typed_text.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

constexpr std::array<std::pair<Key, Station>, 13> station_keys{{{Key::f1, Station::take_in},
                                                                {Key::f2, Station::symptoms},
                                                                {Key::f3, Station::probe},
                                                                {Key::f4, Station::suspects},
                                                                {Key::f5, Station::mend},
                                                                {Key::f6, Station::hand_over},
                                                                {Key::f7, Station::map},
                                                                {Key::f8, Station::readings},
                                                                {Key::f9, Station::log},
                                                                {Key::library, Station::library},
                                                                {Key::plan, Station::plan},
                                                                {Key::practice, Station::practice},
                                                                {Key::cases, Station::cases}}};

void answer_desk_keys(Sheet& sheet, const Desk& desk, CommandQueue& queue) {
  for (const auto& [key, station] : station_keys) {
    if (sheet.keys.take(key)) {
      queue.push(GoTo{station});
    }
  }
  if (sheet.keys.take(Key::larger)) {
    queue.push(ChangeScale{1});
  }
  if (sheet.keys.take(Key::smaller)) {
    queue.push(ChangeScale{-1});
  }
  if (sheet.keys.take(Key::picture)) {
    queue.push(SavePicture{});
  }
  if (ImGui::GetIO().WantTextInput) {
    return;
  }
  if (desk.open_case && sheet.keys.take(Key::undo)) {
    queue.push(Undo{});
  }
  if (desk.open_case && sheet.keys.take(Key::redo)) {
    queue.push(Redo{});
  }
}

/// Tab and the arrows walk, Enter presses, Escape leaves.
void answer_focus_keys(Sheet& sheet, const Desk& desk, CommandQueue& queue) {
  ItemRegister& items = sheet.items;
  const bool typing = ImGui::GetIO().WantTextInput;
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    items.drop_focus();
  }
  if (sheet.keys.take(Key::tab) || (!typing && sheet.keys.take(Key::down))) {
    items.step_focus(1);
  }
  if (sheet.keys.take(Key::back_tab) || (!typing && sheet.keys.take(Key::up))) {
    items.step_focus(-1);
  }
  if (typing) {
    sheet.keys.drop_typed();
    if (sheet.keys.take(Key::escape)) {
      items.drop_focus();
    }
    return;
  }
  if (!items.focus().empty() && sheet.keys.take(Key::enter)) {
    items.press(items.focus());
  }
  if (sheet.keys.take(Key::escape)) {
    items.drop_focus();
    if (desk.help) {
      queue.push(ToggleHelp{});
    } else if (desk.far) {
      queue.push(ToggleFar{});
    }
  }
}

/// In practice the lead is what the set showed last: where the case stands is to be found out.
std::string lead_of(const Desk& desk) {
  if (!desk.practice || desk.practice->over) {
    return desk.open_case->leading.sentence;
  }
  return desk.practice->word.empty() ? "Practice: the owner is waiting, and the set is yours."
                                     : desk.practice->word;
}

void draw_lead(Sheet& sheet, const Desk& desk) {
  const casework::CaseView& view = *desk.open_case;
  std::string title = view.set_name.empty() ? view.equipment_title : view.set_name;
  title += ", case " + std::to_string(view.number) + (view.closed ? ", closed" : "");
  say(sheet, Face::note, sheet.theme.faint, title);
  if (!view.contradiction.empty()) {
    say(sheet, Face::strong, sheet.theme.accuses, "These can't all be true: " + view.contradiction);
    say(sheet, Face::note, sheet.theme.faint, "Take one of them back in the bench log (F9).");
  } else {
    say(sheet, Face::strong, sheet.theme.ink, lead_of(desk));
  }
  if (desk.figures_due) {
    say(sheet, Face::strong, sheet.theme.accuses,
        "This was so before the last step. The figures are being worked out anew.");
  }
  for (const std::string& notice : view.notices) {
    say(sheet, Face::note, sheet.theme.faint, notice);
  }
  gap(sheet, 2);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  line(at.x, at.y, at.x + ImGui::GetContentRegionAvail().x, at.y, sheet.theme.line, sheet.px(1));
  gap(sheet, 6);
}

void draw_page(Sheet& sheet, Desk& desk, bool wide, CommandQueue& queue) {
  const casework::CaseView& view = *desk.open_case;
  const casework::MendingView* mending = desk.mending ? &*desk.mending : nullptr;
  switch (desk.station) {
    case Station::take_in:
      return draw_intake(sheet, view, desk.catalogue, desk.intake, queue);
    case Station::symptoms:
      return draw_symptoms(sheet, view, desk.catalogue, desk.symptoms, queue);
    case Station::probe:
      return draw_probe(sheet, view, desk.catalogue, desk.probe, queue);
    case Station::suspects:
      draw_suspects(sheet, view, desk.suspects, queue);
      if (!wide) {
        draw_suspect_detail(sheet, view, desk.suspects, queue);
      }
      return;
    case Station::mend:
      return draw_mend(sheet, view, mending, desk.mend, queue);
    case Station::hand_over:
      return draw_hand_over(sheet, view, mending, desk.hand_over, queue);
    case Station::map:
      return draw_map(sheet, view, desk.map, queue);
    case Station::readings:
      return draw_readings(sheet, view, desk.catalogue, desk.readings, queue);
    case Station::log:
      return draw_log(sheet, view, desk.log, queue);
    case Station::plan:
      desk.ahead.being_made = !desk.thinking.empty();
      return draw_plan(sheet, desk.plan ? &*desk.plan : nullptr, desk.ahead, queue);
    case Station::practice:
      return draw_practice(sheet, *desk.practice, queue);
    case Station::cases:
    case Station::library:
    case Station::shop:
      return;
  }
}

/// The page is about the open case: not the shelf, the library, or a practice not yet begun.
bool page_of_case(const Desk& desk) {
  return desk.open_case &&
         (needs_case(desk.station) || (desk.station == Station::practice && desk.practice));
}

void draw_right_column(Sheet& sheet, Desk& desk, CommandQueue& queue) {
  if (desk.station == Station::suspects) {
    draw_suspect_detail(sheet, *desk.open_case, desk.suspects, queue);
  } else if (desk.practice && !desk.practice->over) {
    draw_practice_column(sheet, *desk.practice, queue);
  } else {
    draw_suspicion_column(sheet, *desk.open_case, desk.suspects.selected, queue);
  }
}

void scroll_by_key(Sheet& sheet) {
  const float page = ImGui::GetWindowHeight() * 0.8F;
  if (sheet.keys.take(Key::page_down)) {
    ImGui::SetScrollY(ImGui::GetScrollY() + page);
  }
  if (sheet.keys.take(Key::page_up)) {
    ImGui::SetScrollY(ImGui::GetScrollY() - page);
  }
}

/// One line that stands still while the rest of the desk goes on.
void draw_thinking(Sheet& sheet, const Desk& desk, Box box) {
  fill(sheet, box, sheet.theme.card);
  line(box.left, box.top, box.right, box.top, sheet.theme.line, sheet.px(1));
  write_wrapped(sheet, Face::text, sheet.theme.ink, box.left + sheet.px(20), box.top + sheet.px(8),
                box.width() - sheet.px(40), desk.thinking);
}

void draw_word(Sheet& sheet, const Desk& desk, Box box) {
  fill(sheet, box, desk.word_is_refusal ? sheet.theme.caution : sheet.theme.card);
  const Colour ink = desk.word_is_refusal ? sheet.theme.on_caution : sheet.theme.ink;
  write_wrapped(sheet, Face::text, ink, box.left + sheet.px(20), box.top + sheet.px(8),
                box.width() - sheet.px(40), desk.word);
}

float foot_height(const Sheet& sheet, const std::string& words, float width) {
  if (words.empty()) {
    return 0;
  }
  return wrapped_height(sheet, Face::text, width - sheet.px(40), words) + sheet.px(16);
}

void draw_without_case(Sheet& sheet, Desk& desk, CommandQueue& queue) {
  if (desk.station == Station::shop) {
    draw_shop(sheet, desk.catalogue, desk.shop, queue);
  } else if (desk.station == Station::library) {
    draw_library(sheet, desk.catalogue, desk.library);
  } else if (desk.station == Station::practice) {
    draw_practice_start(sheet, desk.catalogue, desk.practising, queue);
  } else if (desk.cases_state.taking_in) {
    draw_new_case(sheet, desk.catalogue, desk.new_case, queue);
  } else {
    draw_cases(sheet, desk.shelf, desk.cases_state, queue);
  }
}

void draw_spread(Sheet& sheet, Desk& desk, Box page, CommandQueue& queue) {
  const bool in_case = page_of_case(desk);
  const bool on_suspects = desk.station == Station::suspects;
  const float column = sheet.px(on_suspects ? 440 : 290);
  // The plan takes the whole width; and the end of a practice lays two ways side by side.
  const bool whole = desk.station == Station::plan || desk.station == Station::practice;
  const bool wide = !whole && page.width() > sheet.px(on_suspects ? 800 : 760);
  Box centre = page;
  if (in_case && wide) {
    centre.right -= column;
    const Box right{centre.right, page.top, page.right, page.bottom};
    fill(sheet, right, sheet.theme.margin);
    begin_region(sheet, "right", right, 16);
    draw_right_column(sheet, desk, queue);
    end_region();
  }
  // A page of its own for each station, so that each keeps its own place when scrolled.
  const std::string name = "centre" + std::to_string(static_cast<int>(desk.station));
  begin_region(sheet, name.c_str(), centre, 20);
  scroll_by_key(sheet);
  if (in_case) {
    draw_lead(sheet, desk);
    draw_page(sheet, desk, wide, queue);
    if (!wide && !on_suspects && !whole) {
      section(sheet, "");
      draw_right_column(sheet, desk, queue);
    }
  } else {
    draw_without_case(sheet, desk, queue);
  }
  gap(sheet, 16);
  end_region();
}

}  // namespace

void draw_desk(Sheet& sheet, Desk& desk, float width, float height, CommandQueue& queue) {
  sheet.items.begin_frame();
  desk.typed = typed_text(desk);
  if (!desk.waiting.empty() && sheet.keys.take(Key::escape)) {
    desk.waiting.clear();
    desk.word = "The step waits no longer: nothing was noted, what was typed is in its field.";
  }
  if (!desk.thinking.empty() && !ImGui::GetIO().WantTextInput && sheet.keys.take(Key::escape)) {
    queue.push(StopThinking{});
  }
  answer_desk_keys(sheet, desk, queue);
  answer_focus_keys(sheet, desk, queue);
  ImGui::SetNextWindowPos(ImVec2(0, 0));
  ImGui::SetNextWindowSize(ImVec2(width, height));
  ImGui::Begin("desk", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus |
                   ImGuiWindowFlags_NoScrollWithMouse);
  const float foot = foot_height(sheet, desk.word, width);
  const float thinking = foot_height(sheet, desk.thinking, width);
  Box page{0, 0, width, height - foot - thinking};
  if (!desk.alone.empty()) {
    draw_alone(sheet, desk, page, queue);
  } else if (desk.help || desk.far) {
    begin_region(sheet, desk.help ? "help" : "far", page, 28);
    scroll_by_key(sheet);
    if (desk.help) {
      draw_help(sheet, queue);
    } else {
      draw_far(sheet, *desk.open_case, desk.catalogue, desk.probe, queue);
    }
    end_region();
  } else {
    const Box strip{0, 0, std::min(sheet.px(172), width * 0.3F), page.bottom};
    draw_stations(sheet, desk, strip, queue);
    page.left = strip.right;
    draw_spread(sheet, desk, page, queue);
  }
  if (thinking > 0) {
    draw_thinking(sheet, desk, {0, height - foot - thinking, width, height - foot});
  }
  if (foot > 0) {
    draw_word(sheet, desk, {0, height - foot, width, height});
  }
  ImGui::End();
  sheet.items.end_frame();
}

}  // namespace dryout::window
