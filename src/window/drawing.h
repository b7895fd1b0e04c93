// Drawing by hand: the hatches, bars and arrows that pictures are made of. Straight to the draw
// list of the current region; nothing here can be pressed.
#pragma once

#include <string>

#include "quantities/probability.h"
#include "window/sheet.h"
#include "window/widgets.h"

namespace dryout::window {

void fill(const Sheet& sheet, Box box, Colour colour, float rounding = 0);
void outline(const Sheet& sheet, Box box, Colour colour, float thickness = 1, float rounding = 0);
void line(float x0, float y0, float x1, float y1, Colour colour, float thickness);
void dashed(const Sheet& sheet, float x0, float y0, float x1, float y1, Colour colour);
/// Text of one line with its upper left corner at x, y; returns its width.
float write(const Sheet& sheet, Face face, Colour colour, float x, float y,
            const std::string& text);
[[nodiscard]] float width_of(const Sheet& sheet, Face face, const std::string& text);
[[nodiscard]] float height_of(const Sheet& sheet, Face face);
/// Text wrapped at `width`; returns its height.
float write_wrapped(const Sheet& sheet, Face face, Colour colour, float x, float y, float width,
                    const std::string& text);
[[nodiscard]] float wrapped_height(const Sheet& sheet, Face face, float width,
                                   const std::string& text);

/// Slanted strokes, the denser the higher the probability; told apart without any colour.
void hatch(const Sheet& sheet, Box box, quantities::Probability suspicion);
/// A horizontal bar whose filled part is the probability, filled with its hatch.
void suspicion_bar(const Sheet& sheet, Box box, quantities::Probability suspicion);
/// From tail to head with a filled tip.
void arrow(const Sheet& sheet, float x0, float y0, float x1, float y1, Colour colour,
           float thickness);
/// The triangle with the stroke that stands before every caution.
void caution_sign(const Sheet& sheet, float x, float y, float size, Colour colour, Colour ground);
void focus_ring(const Sheet& sheet, Box box);

}  // namespace dryout::window
