// The few parts every page is made of. Each notes itself in the register of items, takes its own
// key, and can be reached by Tab and pressed with Enter: whatever the mouse can do, the keyboard
// can, by construction.
#pragma once

#include <string>
#include <string_view>

#include "quantities/measure.h"
#include "window/sheet.h"

namespace dryout::window {

/// A rectangle in pixels.
struct Box {
  float left = 0, top = 0, right = 0, bottom = 0;
  [[nodiscard]] float width() const { return right - left; }
  [[nodiscard]] float height() const { return bottom - top; }
};

/// What a press area saw this frame.
struct Touch {
  bool pressed = false;
  bool hovered = false;
  bool focused = false;  ///< by Tab
  Box box;
};

struct AreaLook {
  char32_t key = 0;  ///< letter that presses it, 0 = none
  bool enabled = true;
  bool tab_stop = true;
  bool key_needs_sight = false;  ///< its letter is dead while it is scrolled out of sight
};

/// Whether the middle of a rectangle is scrolled into sight: what can be pointed at.
[[nodiscard]] bool in_sight(Box box);
/// The base of all that can be pressed: an invisible area of this size at the cursor, noted,
/// focusable, with its letter. The caller draws inside.
Touch press_area(Sheet& sheet, const std::string& name, const std::string& label, float width,
                 float height, AreaLook look = {});

enum class Weight { plain, next, chosen, quiet };

struct ButtonLook {
  Weight weight = Weight::plain;
  char32_t key = 0;
  bool enabled = true;
  Face face = Face::text;
  bool tab_stop = true;
  bool key_needs_sight = false;
  float width = 0;  ///< 0 = as wide as its words
};

/// Moves the cursor beside the last item when `width` still fits there, else to the next line.
void flow(const Sheet& sheet, float width);
[[nodiscard]] float button_width(const Sheet& sheet, const std::string& label,
                                 ButtonLook look = {});
bool button(Sheet& sheet, const std::string& name, const std::string& label, ButtonLook look = {});
/// A button that stands beside the one before where there is room.
bool flow_button(Sheet& sheet, const std::string& name, const std::string& label,
                 ButtonLook look = {});

/// A button in a row: the first begins it, the others stand beside it where there is room.
bool row_button(Sheet& sheet, bool& begun, const std::string& name, const std::string& label,
                ButtonLook look = {});

/// How the text of a field is understood, told in it while it is typed: "= 0.47 Ω".
struct Echo {
  std::string told;
  bool taken = true;  ///< not: it would be refused
};

struct FieldLook {
  std::string hint;
  float width = 0;  ///< 0 = to the right edge
  Face face = Face::text;
  Echo echo = {};
};

/// A line to fill in, its title above it. True when Enter closed it.
bool field(Sheet& sheet, const std::string& name, const std::string& label, std::string& text,
           const FieldLook& look = {});

/// A line for a number of this range, which says what was understood while it is typed.
bool number_field(Sheet& sheet, const std::string& name, const std::string& label,
                  std::string& text, const quantities::PhysicalRange& range, FieldLook look = {});

/// Words, wrapped at the right edge of the page.
void say(const Sheet& sheet, Face face, Colour colour, const std::string& text);
void gap(const Sheet& sheet, float height);
/// A title with a thin rule under it.
void section(const Sheet& sheet, const std::string& title);
/// Shows words beside the pointer.
void explain(const Sheet& sheet, const std::string& text);
/// The text, cut with an ellipsis where it is wider than `width`; where it can be, text wraps
/// instead.
[[nodiscard]] std::string fitted(const Sheet& sheet, Face face, const std::string& text,
                                 float width);

/// A scrolling region of its own at a place on the desk. `end_region` follows always.
void begin_region(Sheet& sheet, const char* name, Box box, float padding);
void end_region();

}  // namespace dryout::window
