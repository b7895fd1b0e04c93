// The desk without a window: the same frames, driven by hand. Tests and benchmarks drive it;
// snapshots take their draw lists from it.
#pragma once

#include "window/desk_painter.h"

namespace dryout::window {

class WindowlessDesk {
 public:
  WindowlessDesk(int width, int height);

  /// Draws one frame (two where a field needs one to open). True if the faces were baked anew.
  bool frame(Desk& desk, CommandQueue& queue, const InputEvents& events = {},
             const Mouse& mouse = {});
  void resize(int width, int height);
  [[nodiscard]] const ItemRegister& items() const { return painter_.items(); }

 private:
  DeskPainter painter_;
};

}  // namespace dryout::window
