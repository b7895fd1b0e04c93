// Words set by pango: the faces, sizes and line breaks of the PDF. Internal to the room: the
// headers of cairo and pango stop here.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "report/picture.h"

namespace dryout::report {

struct Release {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
  void operator()(PangoAttrList* list) const { pango_attr_list_unref(list); }
  void operator()(PangoLayoutIter* place) const { pango_layout_iter_free(place); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* pen) const { cairo_destroy(pen); }
};
template <class Thing>
using Held = std::unique_ptr<Thing, Release>;

struct Lettering {
  double size = 10.0;  ///< points
  bool strong = false;
  bool figures = false;  ///< the face for numbers
  Ink ink = Ink::text;
  bool flush_right = false;
};

/// One line of set text: where it stands below the top of the whole, and how to draw it.
struct SetLine {
  PangoLayoutLine* line = nullptr;  ///< owned by the layout
  double x = 0.0;                   ///< from the left edge
  double top = 0.0, bottom = 0.0, baseline = 0.0;
};

class SetText {
 public:
  /// Breaks between words, and inside a word only where it is wider than `width`. Nothing in `text`
  /// is markup. A width of zero or below: one line.
  SetText(cairo_t* pen, const std::string& text, const Lettering& lettering, double width);

  [[nodiscard]] const std::vector<SetLine>& lines() const { return lines_; }
  [[nodiscard]] double height() const { return lines_.empty() ? 0.0 : lines_.back().bottom; }
  [[nodiscard]] double width() const;
  /// Draws one of its lines so that the top of the whole text would stand at (x, y).
  void draw(cairo_t* pen, const SetLine& line, double x, double y) const;
  void draw_all(cairo_t* pen, double x, double y) const;

 private:
  Held<PangoLayout> layout_;
  Ink ink_;
  std::vector<SetLine> lines_;
};

/// Width of the longest word, which a column needs at least.
[[nodiscard]] double longest_word(cairo_t* pen, const std::string& text,
                                  const Lettering& lettering);

void use_ink(cairo_t* pen, Ink ink);
void draw_picture(cairo_t* pen, const Picture& picture, double x, double y, double scale);

}  // namespace dryout::report
