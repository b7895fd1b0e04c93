#include "window/desk_painter.h"

#include <imgui.h>

#include "window/line_editor.h"

namespace dryout::window {

struct DeskPainter::Inside {
  ImGuiContext* context = nullptr;
  Fonts fonts;
  float scale = 0;
  bool dressed = false;
  ThemeName theme = ThemeName::dark;
  ItemRegister items;
  std::vector<std::string> words;
};

DeskPainter::DeskPainter() : inside_(std::make_unique<Inside>()) {
  inside_->context = ImGui::CreateContext();
  ImGui::SetCurrentContext(inside_->context);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;  // the desk has no layout of its own to remember
  io.LogFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;  // a blinking caret would keep the window awake
}

DeskPainter::~DeskPainter() { ImGui::DestroyContext(inside_->context); }

bool DeskPainter::match(const Desk& desk) {
  ImGui::SetCurrentContext(inside_->context);
  const bool rescaled = inside_->scale != desk.scale;
  if (rescaled) {
    inside_->scale = desk.scale;
    inside_->words.clear();
    inside_->fonts = load_fonts(*ImGui::GetIO().Fonts, desk.scale, inside_->words);
  }
  if (rescaled || !inside_->dressed || inside_->theme != desk.theme) {
    dress(theme_of(desk.theme), desk.scale);
    inside_->dressed = true;
    inside_->theme = desk.theme;
  }
  return rescaled;
}

void DeskPainter::compose(Desk& desk, InputEvents events, const Mouse& mouse, CommandQueue& queue) {
  ImGui::SetCurrentContext(inside_->context);
  feed_line_editor(events);
  ImGuiIO& io = ImGui::GetIO();
  io.MousePos = mouse.x < 0 ? ImVec2(-FLT_MAX, -FLT_MAX) : ImVec2(mouse.x, mouse.y);
  io.MouseDown[0] = mouse.down;
  io.MouseDown[1] = mouse.right;
  io.MouseWheel = mouse.wheel;
  ImGui::NewFrame();
  Keys keys(std::move(events));
  Sheet sheet{theme_of(desk.theme), inside_->fonts, desk.scale, inside_->items, keys};
  const ImVec2 size = io.DisplaySize;
  ImGui::PushFont(inside_->fonts[Face::text]);
  draw_desk(sheet, desk, size.x, size.y, queue);
  ImGui::PopFont();
  ImGui::Render();
}

bool DeskPainter::settling() const { return inside_->items.caret_asked(); }

const ItemRegister& DeskPainter::items() const { return inside_->items; }

const std::vector<std::string>& DeskPainter::words() const { return inside_->words; }

}  // namespace dryout::window
