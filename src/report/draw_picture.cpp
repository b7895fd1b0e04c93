// A picture on paper: the same list of shapes that svg.cpp writes for the screen.
#include <numbers>

#include "quantities/shown_text.h"
#include "report/set_text.h"

namespace dryout::report {
namespace {

class PaperPainter {
 public:
  explicit PaperPainter(cairo_t* pen) : pen_(pen) {}

  void operator()(const Line& line) const {
    use_ink(pen_, line.ink);
    cairo_set_line_width(pen_, line.width);
    cairo_move_to(pen_, line.from.x, line.from.y);
    cairo_line_to(pen_, line.to.x, line.to.y);
    cairo_stroke(pen_);
  }
  void operator()(const Box& box) const {
    use_ink(pen_, box.ink);
    cairo_rectangle(pen_, box.corner.x, box.corner.y, box.width, box.height);
    cairo_fill(pen_);
  }
  void operator()(const Mark& mark) const {
    if (mark.shape == Mark::Shape::ring || mark.shape == Mark::Shape::disc) {
      round(mark);
    } else {
      pointer(mark, mark.shape == Mark::Shape::pointer_left ? -mark.radius : mark.radius);
    }
  }
  void operator()(const Words& words) const {
    const Lettering lettering{words.size, words.strong, words.figures, words.ink, false};
    const SetText text(pen_, quantities::shown_line(words.text), lettering, 0.0);
    const double shift = words.anchor == Words::Anchor::start    ? 0.0
                         : words.anchor == Words::Anchor::middle ? text.width() / 2.0
                                                                 : text.width();
    text.draw_all(pen_, words.at.x - shift, words.at.y - text.lines().front().baseline);
  }

 private:
  void round(const Mark& mark) const {
    cairo_new_sub_path(pen_);
    cairo_arc(pen_, mark.at.x, mark.at.y, mark.radius, 0.0, 2.0 * std::numbers::pi);
    use_ink(pen_, mark.shape == Mark::Shape::ring ? Ink::paper : mark.ink);
    cairo_fill_preserve(pen_);
    use_ink(pen_, mark.ink);
    cairo_set_line_width(pen_, 1.5);
    cairo_stroke(pen_);
  }
  void pointer(const Mark& mark, double side) const {
    use_ink(pen_, mark.ink);
    cairo_move_to(pen_, mark.at.x + side, mark.at.y);
    cairo_line_to(pen_, mark.at.x - side, mark.at.y - mark.radius);
    cairo_line_to(pen_, mark.at.x - side, mark.at.y + mark.radius);
    cairo_close_path(pen_);
    cairo_fill(pen_);
  }

  cairo_t* pen_;
};

}  // namespace

void draw_picture(cairo_t* pen, const Picture& picture, double x, double y, double scale) {
  cairo_save(pen);
  cairo_translate(pen, x, y);
  cairo_scale(pen, scale, scale);
  for (const Shape& shape : picture.shapes) {
    std::visit(PaperPainter(pen), shape);
  }
  cairo_restore(pen);
}

}  // namespace dryout::report
