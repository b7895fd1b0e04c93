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
  practice,
  take_proposal
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
  /// What begins like a number is one to its end: the letters of "4R7" are no keys, even where all
  /// of it arrives within one frame.
  explicit Keys(InputEvents events) : events_(std::move(events)) {
    const auto begin = std::find_if(events_.typed.begin(), events_.typed.end(), begins_number);
    figure_.assign(begin, events_.typed.end());
    events_.typed.erase(begin, events_.typed.end());
  }

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
  /// One digit by itself, where no field takes figures: the choice of that number.
  bool take_digit(char32_t digit) {
    if (figure_.size() != 1 || figure_.front() != digit) {
      return false;
    }
    figure_.clear();
    return true;
  }
  /// What was typed that begins like a number: the start of a reading, with its comma and its sign.
  [[nodiscard]] std::string take_figure() {
    std::string figure;
    for (const char32_t typed : figure_) {
      append_utf8(typed, figure);
    }
    figure_.clear();
    return figure;
  }
  /// While a field is being filled, letters belong to it.
  void drop_typed() {
    events_.typed.clear();
    figure_.clear();
  }

 private:
  static constexpr bool begins_number(char32_t c) {
    constexpr char32_t minus_sign = 0x2212;
    // "OL" is what a meter shows beyond its range.
    return (c >= U'0' && c <= U'9') || c == U'.' || c == U',' || c == U'-' || c == minus_sign ||
           c == U'O' || c == U'o';
  }
  static void append_utf8(char32_t c, std::string& text) {
    if (c < 0x80) {
      text += static_cast<char>(c);
    } else if (c < 0x800) {
      text += static_cast<char>(0xC0 | (c >> 6));
      text += static_cast<char>(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
      text += static_cast<char>(0xE0 | (c >> 12));
      text += static_cast<char>(0x80 | ((c >> 6) & 0x3F));
      text += static_cast<char>(0x80 | (c & 0x3F));
    }  // beyond are no figures, units or prefixes
  }
  static constexpr char32_t lower(char32_t c) { return c >= U'A' && c <= U'Z' ? c + 32 : c; }
  InputEvents events_;
  std::u32string figure_;
};

}  // namespace dryout::window
