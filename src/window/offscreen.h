// An OpenGL context with no display behind it (EGL without a surface system), for pictures drawn
// where nobody sits at a screen.
#pragma once

#include <memory>

#include "quantities/result.h"

namespace dryout::window {

class Offscreen {
 public:
  /// Made current on this thread; drawings have this many pixels.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Offscreen>> open(int width, int height);
  Offscreen() = default;  ///< for open() alone: without it there is nothing to draw on
  ~Offscreen();
  Offscreen(const Offscreen&) = delete;
  Offscreen& operator=(const Offscreen&) = delete;

 private:
  // Handles of the system, void pointers in its own headers.
  void* display_ = nullptr;
  void* surface_ = nullptr;
  void* context_ = nullptr;
};

}  // namespace dryout::window
