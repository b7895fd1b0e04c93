// What was typed since the last frame. Letters arrive as characters, so that they mean what the
// keyboard's own layout says; the other keys by name. A key held down is not typed again: an
// outcome must not be recorded twice because a finger rested.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

namespace dryout::window {

enum class Key {
  enter,
  escape,
  tab,
  back_tab,
  up,
  down,
  left,
  right,
  page_up,
  page_down,
  home,
  end,
  backspace,
  remove,
  f1,
  f2,
  f3,
  f4,
  f5,
  f6,
  f7,
  f8,
  f9,
  undo,
  redo,
  larger,
  smaller,
  copy,
  paste,
  cut,
  select_all,
  picture,
  cases,
  library,
  plan,
  practice
};

struct InputEvents {
  std::vector<Key> keys;
  std::u32string typed;
};

struct Mouse {
  float x = -1, y = -1;  ///< pixels from the upper left corner; negative = not over the desk
  bool down = false;
  bool right = false;  ///< the other button
  float wheel = 0;
};

/// The events of one frame; whoever answers a key takes it, so that it is answered once.
class Keys {
 public:
  explicit Keys(InputEvents events) : events_(std::move(events)) {}

  bool take(Key key) {
    const auto found = std::find(events_.keys.begin(), events_.keys.end(), key);
    if (found == events_.keys.end()) {
      return false;
    }
    events_.keys.erase(found);
    return true;
  }
  /// Upper and lower case are one key.
  bool take(char32_t letter) {
    const auto found =
        std::find_if(events_.typed.begin(), events_.typed.end(),
                     [letter](char32_t typed) { return lower(typed) == lower(letter); });
    if (letter == 0 || found == events_.typed.end()) {
      return false;
    }
    events_.typed.erase(found);
    return true;
  }
  /// A figure or a decimal point: the start of a reading.
  [[nodiscard]] std::string take_figure() {
    std::string figure;
    for (const char32_t typed : events_.typed) {
      if ((typed >= U'0' && typed <= U'9') || typed == U'.') {
        figure += static_cast<char>(typed);
      }
    }
    if (!figure.empty()) {
      events_.typed.clear();
    }
    return figure;
  }
  /// While a field is being filled, letters belong to it.
  void drop_typed() { events_.typed.clear(); }

 private:
  static constexpr char32_t lower(char32_t c) { return c >= U'A' && c <= U'Z' ? c + 32 : c; }
  InputEvents events_;
};

}  // namespace dryout::window
