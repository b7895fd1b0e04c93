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
  painter_.compose(desk, events, mouse, queue);
  if (painter_.settling()) {
    painter_.compose(desk, {}, {mouse.x, mouse.y, mouse.down, mouse.right, 0}, queue);
  }
  return baked;
}

}  // namespace dryout::window
