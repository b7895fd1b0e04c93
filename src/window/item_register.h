// Every button, row and field notes itself here each frame: its name, its words, where it lies.
// Three things live on it: the ring that Tab walks through, tests that drive the desk by name,
// and the window's report of its own layout (`--describe-items`).
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace dryout::window {

struct Item {
  std::string name;  ///< "probe/looked-bad"; unique within a frame
  std::string label;
  float left = 0, top = 0, right = 0, bottom = 0;  ///< pixels from the window's upper left corner
  bool enabled = true;
  bool visible = true;  ///< its middle is scrolled into sight
  bool tab_stop = true;
};

class ItemRegister {
 public:
  void begin_frame();
  void note(Item item);
  /// A text that had to be cut to its room; there should be none on any page at any size.
  void note_cut(std::string text) { cut_.push_back(std::move(text)); }
  [[nodiscard]] const std::vector<std::string>& cut() const { return cut_; }
  /// Closes the frame: what was noted in it is what find() and all() answer from now on.
  void end_frame();

  [[nodiscard]] const Item* find(std::string_view name) const;
  [[nodiscard]] const std::vector<Item>& all() const { return shown_; }
  [[nodiscard]] int frame() const { return frame_; }

  /// Steps to the neighbour in the order of drawing; from nowhere to the first (or last).
  void step_focus(int step);
  void focus_on(std::string name);
  /// Focus that came by the mouse: nothing needs to scroll.
  void focus_quietly(std::string name) { focus_ = std::move(name); }
  void drop_focus();
  [[nodiscard]] bool focused(std::string_view name) const {
    return !name.empty() && focus_ == name;
  }
  [[nodiscard]] const std::string& focus() const { return focus_; }
  /// True in the frame after focus came by key, so that the item scrolls itself into sight.
  [[nodiscard]] bool arrived(std::string_view name) const { return arrived_ && focused(name); }
  /// Enter was pressed on this item.
  void press(std::string name) { pressed_ = std::move(name); }
  [[nodiscard]] bool take_press(std::string_view name);
  /// A field asked for the caret this frame and has it only in the next one: until then, what is
  /// typed must wait.
  void ask_for_caret() { caret_asked_ = true; }
  [[nodiscard]] bool caret_asked() const { return caret_asked_; }

 private:
  std::vector<Item> noted_, shown_;
  std::vector<std::string> cut_;
  std::string focus_, pressed_;
  bool arrived_ = false, caret_asked_ = false;
  int frame_ = 0;
};

/// One JSON object a line: frame, name, label and rectangle of each item in sight.
[[nodiscard]] std::string describe_items(const ItemRegister& items);

}  // namespace dryout::window
