// Two sets of colours: lamp-lit bench (dark) and paper by day (light). Every text colour stands at
// least 7:1 against every ground it is used on (the tests compute it by WCAG 2.1's relative
// luminance). One highlighter colour means "do this next" and nothing else. Evidence against a
// suspect is orange, evidence for its innocence blue: the pair that the common colour-vision
// deficiencies leave apart; both are also told by side, hatch and number.
#pragma once

#include <string_view>

#include "window/colour.h"

namespace dryout::window {

enum class ThemeName { dark, light };

struct Theme {
  Colour paper;       ///< the page
  Colour margin;      ///< the strip of stations and the column of suspicion
  Colour card;        ///< raised surfaces and entry fields
  Colour ink;         ///< text
  Colour faint;       ///< lesser text, still 7:1
  Colour line;        ///< rules and outlines (no text)
  Colour next;        ///< highlighter: do this next
  Colour on_next;     ///< text on the highlighter
  Colour accuses;     ///< raises suspicion
  Colour clears;      ///< lowers suspicion
  Colour caution;     ///< ground of cautions
  Colour on_caution;  ///< text of cautions
};

[[nodiscard]] const Theme& theme_of(ThemeName name);
/// "dark", "light"; anything else is dark.
[[nodiscard]] ThemeName theme_named(std::string_view name);

/// Colours and spacing of the library's own parts (fields, scroll bars) to match.
void dress(const Theme& theme, float scale);

}  // namespace dryout::window
