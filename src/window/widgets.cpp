#include "window/widgets.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

#include "quantities/shown_text.h"
#include "window/drawing.h"

namespace dryout::window {
namespace {

Box last_box() {
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  return {low.x, low.y, high.x, high.y};
}

constexpr float padding_x = 14;
constexpr float padding_y = 8;
constexpr float key_gap = 8;

std::string key_word(char32_t key) {
  return std::string(1, static_cast<char>(key >= U'a' && key <= U'z' ? key - 32 : key));
}

struct ButtonColours {
  Colour ground, text, edge;
};

ButtonColours colours_of(const Theme& theme, const ButtonLook& look, bool hovered) {
  if (!look.enabled) {
    return {theme.paper.faded(0), theme.faint, theme.line};
  }
  switch (look.weight) {
    case Weight::next:
      return {theme.next, theme.on_next, hovered ? theme.ink : theme.next};
    case Weight::chosen:
      return {theme.ink, theme.paper, theme.ink};
    case Weight::quiet:
      return {hovered ? theme.card : theme.card.faded(0), theme.ink,
              hovered ? theme.faint : theme.line.faded(0)};
    case Weight::plain:
      break;
  }
  return {theme.card, theme.ink, hovered ? theme.ink : theme.line};
}

void draw_key(const Sheet& sheet, char32_t key, Colour colour, float right, float middle) {
  const std::string word = key_word(key);
  const float wide = width_of(sheet, Face::figure_note, word);
  const float high = height_of(sheet, Face::figure_note);
  const Box cap{right - wide - sheet.px(8), middle - high / 2 - sheet.px(1), right,
                middle + high / 2 + sheet.px(1)};
  outline(sheet, cap, colour, 1, 3);
  write(sheet, Face::figure_note, colour, cap.left + sheet.px(4), middle - high / 2, word);
}

}  // namespace

bool in_sight(Box box) {
  const ImVec2 middle((box.left + box.right) / 2, (box.top + box.bottom) / 2);
  return ImGui::IsRectVisible(middle, ImVec2(middle.x + 1, middle.y + 1));
}

Touch press_area(Sheet& sheet, const std::string& name, const std::string& label, float width,
                 float height, AreaLook look) {
  Touch touch;
  const bool clicked = ImGui::InvisibleButton(name.c_str(), ImVec2(width, height));
  touch.box = last_box();
  touch.hovered = look.enabled && ImGui::IsItemHovered();
  touch.focused = sheet.items.focused(name);
  if (sheet.items.arrived(name)) {
    ImGui::SetScrollHereY(0.5F);
  }
  const bool sighted = !look.key_needs_sight || in_sight(touch.box);
  const bool by_key = look.enabled && sighted && look.key != 0 && sheet.keys.take(look.key);
  const bool by_enter = sheet.items.take_press(name) && look.enabled;
  touch.pressed = (clicked && look.enabled) || by_key || by_enter;
  sheet.items.note({name, label, touch.box.left, touch.box.top, touch.box.right, touch.box.bottom,
                    look.enabled, in_sight(touch.box), look.tab_stop});
  return touch;
}

float button_width(const Sheet& sheet, const std::string& label, ButtonLook look) {
  float width = width_of(sheet, look.face, label) + 2 * sheet.px(padding_x);
  if (look.key != 0) {
    width += sheet.px(key_gap + 8) + width_of(sheet, Face::figure_note, key_word(look.key));
  }
  return width;
}

bool button(Sheet& sheet, const std::string& name, const std::string& label, ButtonLook look) {
  const float wanted = look.width > 0 ? look.width : button_width(sheet, label, look);
  const float width = std::min(wanted, ImGui::GetContentRegionAvail().x);
  float room = width - 2 * sheet.px(padding_x) + 1;  // a pixel of grace: it came from this text
  if (look.key != 0) {
    room -= sheet.px(key_gap + 8) + width_of(sheet, Face::figure_note, key_word(look.key));
  }
  const float high = wrapped_height(sheet, look.face, room, label);
  const Touch touch = press_area(sheet, name, label, width, high + 2 * sheet.px(padding_y),
                                 {look.key, look.enabled, look.tab_stop, look.key_needs_sight});
  const ButtonColours colours = colours_of(sheet.theme, look, touch.hovered);
  fill(sheet, touch.box, colours.ground, 5);
  outline(sheet, touch.box, colours.edge, look.weight == Weight::next ? 2 : 1, 5);
  const float middle = (touch.box.top + touch.box.bottom) / 2;
  if (look.key != 0) {
    draw_key(sheet, look.key, colours.text, touch.box.right - sheet.px(padding_x), middle);
  }
  write_wrapped(sheet, look.face, colours.text, touch.box.left + sheet.px(padding_x),
                middle - high / 2, room, label);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  return touch.pressed;
}

void flow(const Sheet& sheet, float width) {
  const float next_left = ImGui::GetItemRectMax().x + sheet.px(8);
  const float right = ImGui::GetWindowPos().x + ImGui::GetContentRegionMax().x;
  if (next_left + width <= right) {
    ImGui::SameLine(0, sheet.px(8));
  }
}

bool flow_button(Sheet& sheet, const std::string& name, const std::string& label, ButtonLook look) {
  flow(sheet, look.width > 0 ? look.width : button_width(sheet, label, look));
  return button(sheet, name, label, look);
}

bool row_button(Sheet& sheet, bool& begun, const std::string& name, const std::string& label,
                ButtonLook look) {
  return std::exchange(begun, true) ? flow_button(sheet, name, label, look)
                                    : button(sheet, name, label, look);
}

void say(const Sheet& sheet, Face face, Colour colour, const std::string& words) {
  const std::string text = quantities::shown_text(words);
  ImGui::PushFont(sheet.fonts[face]);
  ImGui::PushStyleColor(ImGuiCol_Text, colour.packed());
  ImGui::PushTextWrapPos(0.0F);
  ImGui::TextUnformatted(text.data(), text.data() + text.size());
  ImGui::PopTextWrapPos();
  ImGui::PopStyleColor();
  ImGui::PopFont();
}

void gap(const Sheet& sheet, float height) { ImGui::Dummy(ImVec2(1, sheet.px(height))); }

void section(const Sheet& sheet, const std::string& title) {
  gap(sheet, 10);
  say(sheet, Face::strong, sheet.theme.ink, title);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  line(at.x, at.y - sheet.px(2), at.x + ImGui::GetContentRegionAvail().x, at.y - sheet.px(2),
       sheet.theme.line, sheet.px(1));
  gap(sheet, 2);
}

void explain(const Sheet& sheet, const std::string& words) {
  const std::string text = quantities::shown_text(words);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(sheet.px(12), sheet.px(10)));
  ImGui::BeginTooltip();
  ImGui::PushTextWrapPos(sheet.px(420));
  ImGui::PushFont(sheet.fonts[Face::note]);
  ImGui::TextUnformatted(text.data(), text.data() + text.size());
  ImGui::PopFont();
  ImGui::PopTextWrapPos();
  ImGui::EndTooltip();
  ImGui::PopStyleVar();
}

std::string fitted(const Sheet& sheet, Face face, const std::string& words, float width) {
  std::string text = quantities::shown_line(words);
  // A pixel of grace: the room was often computed from this very text.
  if (width_of(sheet, face, text) <= width + 1) {
    return text;
  }
  sheet.items.note_cut(text);
  const std::string ellipsis = "\u2026";
  std::string cut = text;
  while (!cut.empty() && width_of(sheet, face, cut + ellipsis) > width) {
    // A letter may be several bytes: take its continuation bytes along.
    while (cut.size() > 1 && (static_cast<unsigned char>(cut.back()) & 0xC0U) == 0x80U) {
      cut.pop_back();
    }
    cut.pop_back();
  }
  return cut + ellipsis;
}

void begin_region(Sheet& sheet, const char* name, Box box, float padding) {
  ImGui::SetCursorScreenPos(ImVec2(box.left, box.top));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(sheet.px(padding), sheet.px(padding)));
  ImGui::BeginChild(name, ImVec2(box.width(), box.height()), false,
                    ImGuiWindowFlags_AlwaysUseWindowPadding);
  ImGui::PopStyleVar();
  ImGui::PushFont(sheet.fonts[Face::text]);
}

void end_region() {
  ImGui::PopFont();
  ImGui::EndChild();
}

}  // namespace dryout::window
