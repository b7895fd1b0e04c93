// Sits at a desk without a window and works it by name, as a person would by eye: press this,
// type that. Wishes that concern only the desk are answered; those that concern the case are kept
// for the test to read.
#pragma once

#include <string>
#include <vector>

#include "window/sample.h"
#include "window/windowless.h"

namespace dryout::window {

class Driver {
 public:
  explicit Driver(Desk desk, int width = 1280, int height = 800);

  void frames(int count = 1);
  void key(Key key);
  void type(const std::string& text);          ///< ASCII, one letter a frame
  void type_at_once(const std::string& text);  ///< all of it within one frame, as after a stall
  /// Scrolls the item into sight and clicks its middle; the test fails when it is not there.
  void click(const std::string& name);
  /// Tab until the item has the focus, then Enter.
  void tab_to(const std::string& name);
  void press_by_key(const std::string& name);
  void hover(const std::string& name);

  [[nodiscard]] bool shows(const std::string& name) const;
  [[nodiscard]] std::string label(const std::string& name) const;
  [[nodiscard]] const ItemRegister& items() const { return window_.items(); }
  [[nodiscard]] Desk& desk() { return desk_; }
  /// Wishes about the case since last asked.
  [[nodiscard]] std::vector<Intention> wishes() { return std::exchange(kept_, {}); }
  /// The only wish there was, which must be a command of this kind.
  template <class Kind>
  [[nodiscard]] Kind only() {
    const std::vector<Intention> wishes = this->wishes();
    if (wishes.size() == 1 && std::holds_alternative<casework::Command>(wishes.front())) {
      const auto& command = std::get<casework::Command>(wishes.front());
      if (const Kind* kind = std::get_if<Kind>(&command)) {
        return *kind;
      }
    }
    fail("not the one command that was expected, of " + std::to_string(wishes.size()));
    return {};
  }

 private:
  static void fail(const std::string& why);
  void frame(const InputEvents& events = {});
  void answer();

  Desk desk_;
  WindowlessDesk window_;
  CommandQueue queue_;
  Mouse mouse_;
  std::vector<Intention> kept_;
};

}  // namespace dryout::window
