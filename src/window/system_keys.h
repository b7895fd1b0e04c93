// Listens to the window system: collects what was typed, and whether anything happened at all, so
// that the loop can sleep until something does.
#pragma once

#include <utility>

#include "window/keys.h"

struct GLFWwindow;

namespace dryout::window {

class SystemKeys {
 public:
  /// Sets the window's callbacks; the drawing library chains to them when it starts after this.
  explicit SystemKeys(GLFWwindow* window);
  SystemKeys(const SystemKeys&) = delete;
  SystemKeys& operator=(const SystemKeys&) = delete;

  [[nodiscard]] InputEvents take_events() { return std::exchange(events_, {}); }
  [[nodiscard]] bool take_dirty() { return std::exchange(dirty_, false); }
  /// The window was come back to: another one may have written to the store meanwhile.
  [[nodiscard]] bool take_returned() { return std::exchange(returned_, false); }

 private:
  static SystemKeys& of(GLFWwindow* window);
  void key(int key, int action, int modifiers);
  void letter(unsigned int code);

  InputEvents events_;
  bool dirty_ = true, returned_ = false, repeating_ = false;
};

}  // namespace dryout::window
