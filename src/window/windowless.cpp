#include "window/windowless.h"

#include <imgui.h>

#include <algorithm>
#include <array>

namespace dryout::window {
namespace {

struct EditorKey {
  Key key;
  ImGuiKey_ editor;
};
/// Keys that the library's own line editor answers.
constexpr std::array<EditorKey, 8> editor_keys{{{Key::enter, ImGuiKey_Enter},
                                                {Key::escape, ImGuiKey_Escape},
                                                {Key::backspace, ImGuiKey_Backspace},
                                                {Key::remove, ImGuiKey_Delete},
                                                {Key::left, ImGuiKey_LeftArrow},
                                                {Key::right, ImGuiKey_RightArrow},
                                                {Key::home, ImGuiKey_Home},
                                                {Key::end, ImGuiKey_End}}};

}  // namespace

WindowlessDesk::WindowlessDesk(int width, int height) {
  ImGuiIO& io = ImGui::GetIO();
  io.DeltaTime = 1.0F / 60.0F;
  for (const EditorKey& key : editor_keys) {
    io.KeyMap[key.editor] = key.editor;
  }
  resize(width, height);
}

void WindowlessDesk::resize(int width, int height) {
  ImGui::GetIO().DisplaySize = ImVec2(static_cast<float>(width), static_cast<float>(height));
}

void WindowlessDesk::feed(const InputEvents& events, const Mouse& mouse) const {
  ImGuiIO& io = ImGui::GetIO();
  io.MousePos = mouse.x < 0 ? ImVec2(-FLT_MAX, -FLT_MAX) : ImVec2(mouse.x, mouse.y);
  io.MouseDown[0] = mouse.down;
  io.MouseWheel = mouse.wheel;
  for (const EditorKey& key : editor_keys) {
    io.KeysDown[key.editor] =
        std::find(events.keys.begin(), events.keys.end(), key.key) != events.keys.end();
  }
  for (const char32_t typed : events.typed) {
    io.AddInputCharacter(static_cast<unsigned>(typed));
  }
}

bool WindowlessDesk::frame(Desk& desk, CommandQueue& queue, const InputEvents& events,
                           const Mouse& mouse) {
  const bool baked = painter_.match(desk);
  feed(events, mouse);
  painter_.compose(desk, events, queue);
  if (painter_.settling()) {
    feed({}, mouse);
    painter_.compose(desk, {}, queue);
  }
  return baked;
}

}  // namespace dryout::window
