// The line to fill in. The library's own editor does the editing; reaching and leaving it by Tab
// is ours, so that the order of Tab is the order of the page.
#include <imgui.h>
#include <imgui_internal.h>  // ClearActiveID: the one way to leave an editor without a click
#include <imgui_stdlib.h>

#include "window/drawing.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

/// An editor entered by key puts the caret at the end instead of selecting everything: the figure
/// that opened it must not be overwritten by the one that follows.
int put_caret_at_end(ImGuiInputTextCallbackData* data) {
  bool& entered = *static_cast<bool*>(data->UserData);
  if (entered) {
    data->CursorPos = data->BufTextLen;
    data->SelectionStart = data->SelectionEnd = data->BufTextLen;
    entered = false;
  }
  return 0;
}

Colour echo_colour(const Sheet& sheet, const FieldLook& look) {
  return look.echo.taken ? sheet.theme.faint : sheet.theme.accuses;
}

/// Whether the echo has room behind what is typed; else it stands over the field.
bool echo_fits(const Sheet& sheet, const std::string& text, const FieldLook& look, float across) {
  const float words = width_of(sheet, look.face, text) + width_of(sheet, look.face, look.echo.told);
  return look.echo.told.empty() ||
         words + sheet.px(16) + 2 * ImGui::GetStyle().FramePadding.x <= across;
}

}  // namespace

bool number_field(Sheet& sheet, const std::string& name, const std::string& label,
                  std::string& text, const quantities::PhysicalRange& range, FieldLook look) {
  if (const auto understood = quantities::understood(text, range)) {
    look.echo = {understood->told, understood->taken};
  }
  return field(sheet, name, label, text, look);
}

bool field(Sheet& sheet, const std::string& name, const std::string& label, std::string& text,
           const FieldLook& look) {
  ImGui::BeginGroup();
  const float across = look.width > 0 ? look.width : ImGui::GetContentRegionAvail().x;
  const bool echo_inside = echo_fits(sheet, text, look, across);
  if (!label.empty()) {
    // Written by hand: a text item would sink to the base line of the field beside it.
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const Face face = look.face == Face::text ? Face::note : Face::heading;
    const float taken = echo_inside ? 0 : width_of(sheet, face, look.echo.told) + sheet.px(12);
    const std::string words = taken > 0 ? fitted(sheet, face, label, across - taken) : label;
    const float width = write(sheet, face, sheet.theme.faint, at.x, at.y, words);
    if (!echo_inside) {
      write(sheet, face, echo_colour(sheet, look), at.x + across - taken + sheet.px(12), at.y,
            look.echo.told);
    }
    ImGui::Dummy(ImVec2(width, height_of(sheet, face)));
  }
  ImGui::PushFont(sheet.fonts[look.face]);
  ImGui::SetNextItemWidth(look.width > 0 ? look.width : -1.0F);
  const std::string id = "##" + name;
  const ImGuiID key = ImGui::GetID(id.c_str());
  const bool active_before = ImGui::GetActiveID() == key;
  if (sheet.items.arrived(name) || sheet.items.take_press(name)) {
    ImGui::SetKeyboardFocusHere();
    sheet.items.ask_for_caret();
  } else if (active_before && !sheet.items.focused(name) && !sheet.items.focus().empty()) {
    ImGui::ClearActiveID();
  }
  bool entered = !active_before;
  const float room = across - 2 * ImGui::GetStyle().FramePadding.x;
  const std::string hint = fitted(sheet, look.face, look.hint, room);
  const bool done = ImGui::InputTextWithHint(
      id.c_str(), hint.c_str(), &text,
      ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_CallbackAlways, put_caret_at_end,
      &entered);
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  if (echo_inside && !look.echo.told.empty()) {
    const ImVec2 padding = ImGui::GetStyle().FramePadding;
    write(sheet, look.face, echo_colour(sheet, look),
          high.x - padding.x - width_of(sheet, look.face, look.echo.told), low.y + padding.y,
          look.echo.told);
  }
  sheet.items.note({name, label, low.x, low.y, high.x, high.y, true,
                    in_sight({low.x, low.y, high.x, high.y}), true});
  if (sheet.items.arrived(name)) {
    ImGui::SetScrollHereY(0.5F);
  }
  if (ImGui::IsItemActivated()) {
    sheet.items.focus_quietly(name);
  }
  if (ImGui::IsItemActive() || sheet.items.focused(name)) {
    focus_ring(sheet, {low.x, low.y, high.x, high.y});
  }
  ImGui::PopFont();
  ImGui::EndGroup();
  return done;
}

}  // namespace dryout::window
