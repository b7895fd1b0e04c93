// Listens to the window system and keeps what the person did in its order: keys, letters, the
// mouse. Steps are handed out one a frame, so that a slow frame loses none, and a click lands where
// the pointer stood when the button went down, not where it has moved to since.
#pragma once

#include <deque>
#include <string>
#include <utility>
#include <vector>

#include "window/keys.h"

struct GLFWwindow;

namespace dryout::window {

struct InputStep {
  InputEvents events;
  Mouse mouse;  ///< as it stands after this step
};

class SystemInput {
 public:
  /// Sets the window's callbacks. The drawing library's back end must not set its own.
  explicit SystemInput(GLFWwindow* window);
  SystemInput(const SystemInput&) = delete;
  SystemInput& operator=(const SystemInput&) = delete;

  /// The oldest step not yet taken; when there is none, the mouse at rest.
  [[nodiscard]] InputStep take_next();
  /// The mouse as last taken: for a frame that must come between two steps.
  [[nodiscard]] InputStep rest() const { return {{}, taken_}; }
  [[nodiscard]] bool pending() const { return !steps_.empty(); }
  [[nodiscard]] bool take_dirty() { return std::exchange(dirty_, false); }
  /// The window was come back to: another one may have written to the store meanwhile.
  [[nodiscard]] bool take_returned() { return std::exchange(returned_, false); }
  /// Paths of files dropped on the window since last asked.
  [[nodiscard]] std::vector<std::string> take_dropped() { return std::exchange(dropped_, {}); }

 private:
  enum class Moved { no, yes };

  static SystemInput& of(GLFWwindow* window);
  void listen_to_mouse(GLFWwindow* window);
  void key(int key, int action, int modifiers);
  void letter(unsigned int code);
  void pointer(float x, float y);
  void add(InputEvents events, Moved moved = Moved::no);

  std::deque<InputStep> steps_;
  std::vector<std::string> dropped_;
  Mouse now_, taken_;
  bool last_was_move_ = false;
  bool dirty_ = true, returned_ = false, repeating_ = false;
};

}  // namespace dryout::window
