#include "window/theme.h"

#include <imgui.h>

namespace dryout::window {

const Theme& theme_of(ThemeName name) {
  static constexpr Theme dark{
      .paper = hex(0x15181B),
      .margin = hex(0x1B1F23),
      .card = hex(0x23282D),
      .ink = hex(0xF3F0E8),
      .faint = hex(0xC4C2BA),
      .line = hex(0x4A525A),
      .next = hex(0xFFD54A),
      .on_next = hex(0x1B1600),
      .accuses = hex(0xFFB27D),
      .clears = hex(0x9ACFFF),
      .caution = hex(0xF3F0E8),
      .on_caution = hex(0x15181B),
  };
  static constexpr Theme light{
      .paper = hex(0xFBF8F1),
      .margin = hex(0xF1ECE0),
      .card = hex(0xFFFFFF),
      .ink = hex(0x1D1B18),
      .faint = hex(0x47443E),
      .line = hex(0xBDB4A1),
      .next = hex(0xFFD23F),
      .on_next = hex(0x1D1B18),
      .accuses = hex(0x7F2A00),
      .clears = hex(0x0A4479),
      .caution = hex(0x1D1B18),
      .on_caution = hex(0xFBF8F1),
  };
  return name == ThemeName::dark ? dark : light;
}

ThemeName theme_named(std::string_view name) {
  return name == "light" ? ThemeName::light : ThemeName::dark;
}

void dress(const Theme& theme, float scale) {
  ImGuiStyle style;
  style.WindowPadding = ImVec2(0, 0);
  style.WindowBorderSize = 0;
  style.ChildBorderSize = 0;
  style.FramePadding = ImVec2(10, 8);
  style.ItemSpacing = ImVec2(8, 6);
  style.FrameRounding = 5;
  style.FrameBorderSize = 1;
  style.ScrollbarSize = 12;
  style.PopupRounding = 5;
  style.ScaleAllSizes(scale);
  style.FrameBorderSize = scale;
  const auto set = [&style](int part, Colour colour) {
    style.Colors[part] = ImGui::ColorConvertU32ToFloat4(colour.packed());
  };
  set(ImGuiCol_Text, theme.ink);
  set(ImGuiCol_TextDisabled, theme.faint);
  set(ImGuiCol_WindowBg, theme.paper);
  set(ImGuiCol_ChildBg, theme.paper.faded(0));
  set(ImGuiCol_PopupBg, theme.card);
  set(ImGuiCol_Border, theme.line);
  set(ImGuiCol_FrameBg, theme.card);
  set(ImGuiCol_FrameBgHovered, theme.card);
  set(ImGuiCol_FrameBgActive, theme.card);
  set(ImGuiCol_ScrollbarBg, theme.paper.faded(0));
  set(ImGuiCol_ScrollbarGrab, theme.line);
  set(ImGuiCol_ScrollbarGrabHovered, theme.faint);
  set(ImGuiCol_ScrollbarGrabActive, theme.faint);
  set(ImGuiCol_TextSelectedBg, theme.next.faded(110));
  set(ImGuiCol_NavHighlight, theme.next.faded(0));
  ImGui::GetStyle() = style;
}

}  // namespace dryout::window
