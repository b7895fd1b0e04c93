// Listens to the window system: collects what was typed, and whether anything happened at all, so
// that the loop can sleep until something does.
#pragma once

#include <deque>
#include <utility>

#include "window/keys.h"

struct GLFWwindow;

namespace dryout::window {

class SystemKeys {
 public:
  /// Sets the window's callbacks; those of the mouse pass on to the drawing library's back end,
  /// which must not set its own.
  explicit SystemKeys(GLFWwindow* window);
  SystemKeys(const SystemKeys&) = delete;
  SystemKeys& operator=(const SystemKeys&) = delete;

  /// The oldest thing typed: one a frame, so that a slow frame neither loses nor reorders any.
  [[nodiscard]] InputEvents take_next();
  [[nodiscard]] bool pending() const { return !events_.empty(); }
  [[nodiscard]] bool take_dirty() { return std::exchange(dirty_, false); }
  /// The window was come back to: another one may have written to the store meanwhile.
  [[nodiscard]] bool take_returned() { return std::exchange(returned_, false); }

 private:
  static SystemKeys& of(GLFWwindow* window);
  void key(int key, int action, int modifiers);
  void letter(unsigned int code);

  std::deque<InputEvents> events_;
  bool dirty_ = true, returned_ = false, repeating_ = false;
};

}  // namespace dryout::window
