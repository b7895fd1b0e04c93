#include "window/line_editor.h"

#include <imgui.h>

#include <algorithm>
#include <array>

namespace dryout::window {
namespace {

struct EditorKey {
  Key key;
  ImGuiKey_ editor;
  bool control;
};
constexpr std::array<EditorKey, 14> editor_keys{{{Key::enter, ImGuiKey_Enter, false},
                                                 {Key::escape, ImGuiKey_Escape, false},
                                                 {Key::backspace, ImGuiKey_Backspace, false},
                                                 {Key::remove, ImGuiKey_Delete, false},
                                                 {Key::left, ImGuiKey_LeftArrow, false},
                                                 {Key::right, ImGuiKey_RightArrow, false},
                                                 {Key::home, ImGuiKey_Home, false},
                                                 {Key::end, ImGuiKey_End, false},
                                                 {Key::copy, ImGuiKey_C, true},
                                                 {Key::paste, ImGuiKey_V, true},
                                                 {Key::cut, ImGuiKey_X, true},
                                                 {Key::select_all, ImGuiKey_A, true},
                                                 {Key::undo, ImGuiKey_Z, true},
                                                 {Key::redo, ImGuiKey_Y, true}}};

}  // namespace

void feed_line_editor(const InputEvents& events) {
  ImGuiIO& io = ImGui::GetIO();
  std::fill(std::begin(io.KeyMap), std::end(io.KeyMap), -1);
  io.KeyCtrl = false;
  for (const EditorKey& key : editor_keys) {
    const bool down =
        std::find(events.keys.begin(), events.keys.end(), key.key) != events.keys.end();
    io.KeyMap[key.editor] = key.editor;
    io.KeysDown[key.editor] = down;
    io.KeyCtrl = io.KeyCtrl || (down && key.control);
  }
  for (const char32_t typed : events.typed) {
    io.AddInputCharacter(static_cast<unsigned>(typed));
  }
}

}  // namespace dryout::window
