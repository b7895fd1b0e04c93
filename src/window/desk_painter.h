// Turns the desk into draw lists: owns the drawing library's context, the faces and the register
// of items. A window or a picture puts the draw lists on pixels; neither is needed to draw.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "window/desk.h"

namespace dryout::window {

class DeskPainter {
 public:
  DeskPainter();
  ~DeskPainter();
  DeskPainter(const DeskPainter&) = delete;
  DeskPainter& operator=(const DeskPainter&) = delete;

  /// Matches faces and colours to the desk. True when the faces were baked anew: a renderer must
  /// then take the new texture before the next frame.
  bool match(const Desk& desk);
  /// One frame. The display's size and the time were told to the library before; keys and mouse
  /// reach it only through here, with or without a window.
  void compose(Desk& desk, InputEvents events, const Mouse& mouse, CommandQueue& queue);
  /// The next frame must come before more keys are read.
  [[nodiscard]] bool settling() const;

  [[nodiscard]] const ItemRegister& items() const;
  /// What could not be found on this machine.
  [[nodiscard]] const std::vector<std::string>& words() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace dryout::window
