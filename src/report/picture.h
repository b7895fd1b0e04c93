// A drawing as plain data, in points (1/72 inch) from its upper left corner. Whoever composes a
// picture knows nothing of paper or screen; render_pdf.cpp and svg.cpp each draw the same list.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace dryout::report {

/// What the text of an A4 page leaves between its margins, in points: pictures fill it.
inline constexpr double picture_width = 487.0;

/// What a colour is for; its value is in ink_of(), the same on paper and screen. No meaning is
/// carried by colour alone: shapes and words say it too.
enum class Ink { text, quiet, hairline, wash, beyond, paper, before, after };

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
};
[[nodiscard]] Rgb ink_of(Ink ink);

struct Point {
  double x = 0.0, y = 0.0;
};

struct Line {
  Point from, to;
  Ink ink = Ink::hairline;
  double width = 0.5;
};

/// A filled rectangle.
struct Box {
  Point corner;
  double width = 0.0, height = 0.0;
  Ink ink = Ink::wash;
};

/// A sign at a place of the scale: an open ring for before, a filled disc for after, a pointer for
/// a value that lies off the scale on that side.
struct Mark {
  enum class Shape { ring, disc, pointer_left, pointer_right };
  Point at;
  Shape shape = Shape::disc;
  Ink ink = Ink::text;
  double radius = 4.0;
};

/// One line of words; `at` lies on the baseline.
struct Words {
  enum class Anchor { start, middle, end };
  Point at;
  std::string text;
  double size = 8.0;
  Ink ink = Ink::text;
  Anchor anchor = Anchor::start;
  bool figures = false;  ///< the face for numbers
  bool strong = false;
};

using Shape = std::variant<Line, Box, Mark, Words>;

struct Picture {
  double width = 0.0, height = 0.0;
  std::vector<Shape> shapes;  ///< later ones lie on top
  std::string told;           ///< the picture in words, for those who cannot see it
};

/// Shortens a line so that it surely fits, with an ellipsis where it was cut. Widths are estimated
/// on the wide side, since nobody knows which face the reader has.
[[nodiscard]] std::string fitted(const std::string& text, double size, double width_max);

}  // namespace dryout::report
