#include "window/windowless.h"

#include <imgui.h>

namespace dryout::window {

WindowlessDesk::WindowlessDesk(int width, int height) {
  ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
  resize(width, height);
}

void WindowlessDesk::resize(int width, int height) {
  ImGui::GetIO().DisplaySize = ImVec2(static_cast<float>(width), static_cast<float>(height));
}

bool WindowlessDesk::frame(Desk& desk, CommandQueue& queue, const InputEvents& events,
                           const Mouse& mouse) {
  const bool baked = painter_.match(desk);
  ImGuiIO& io = ImGui::GetIO();
  io.MousePos = mouse.x < 0 ? ImVec2(-FLT_MAX, -FLT_MAX) : ImVec2(mouse.x, mouse.y);
  io.MouseDown[0] = mouse.down;
  io.MouseWheel = mouse.wheel;
  painter_.compose(desk, events, queue);
  if (painter_.settling()) {
    painter_.compose(desk, {}, queue);
  }
  return baked;
}

}  // namespace dryout::window
