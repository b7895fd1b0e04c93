#include "report/set_text.h"

#include "quantities/shown_text.h"

namespace dryout::report {
namespace {

constexpr double line_spacing = 1.12;  // of the face's own line height

Held<PangoFontDescription> font_of(const Lettering& lettering) {
  Held<PangoFontDescription> font(pango_font_description_new());
  pango_font_description_set_family(font.get(), lettering.figures
                                                    ? "JetBrains Mono, DejaVu Sans Mono, Monospace"
                                                    : "Inter, DejaVu Sans, Sans");
  pango_font_description_set_weight(font.get(),
                                    lettering.strong ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), lettering.size * PANGO_SCALE);
  return font;
}

Held<PangoLayout> layout_of(cairo_t* pen, const std::string& text, const Lettering& lettering) {
  Held<PangoLayout> layout(pango_cairo_create_layout(pen));
  pango_layout_set_font_description(layout.get(), font_of(lettering).get());
  // Figures of one width; no ligatures and no contextual forms, which would turn a typed "->" into
  // an arrow.
  Held<PangoAttrList> attributes(pango_attr_list_new());
  pango_attr_list_insert(attributes.get(),
                         pango_attr_font_features_new("tnum=1, calt=0, liga=0, clig=0"));
  pango_layout_set_attributes(layout.get(), attributes.get());
  pango_layout_set_line_spacing(layout.get(), static_cast<float>(line_spacing));
  const std::string shown = quantities::shown_text(text);
  pango_layout_set_text(layout.get(), shown.c_str(), static_cast<int>(shown.size()));
  return layout;
}

double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

std::vector<SetLine> lines_of(PangoLayout* layout) {
  std::vector<SetLine> lines;
  const Held<PangoLayoutIter> place(pango_layout_get_iter(layout));
  do {
    int top = 0;
    int bottom = 0;
    PangoRectangle logical{};
    pango_layout_iter_get_line_yrange(place.get(), &top, &bottom);
    pango_layout_iter_get_line_extents(place.get(), nullptr, &logical);
    lines.push_back({pango_layout_iter_get_line_readonly(place.get()), points(logical.x),
                     points(top), points(bottom),
                     points(pango_layout_iter_get_baseline(place.get()))});
  } while (pango_layout_iter_next_line(place.get()) != 0);
  return lines;
}

}  // namespace

SetText::SetText(cairo_t* pen, const std::string& text, const Lettering& lettering, double width)
    : layout_(layout_of(pen, text, lettering)), ink_(lettering.ink) {
  if (width > 0.0) {
    pango_layout_set_width(layout_.get(), static_cast<int>(width * PANGO_SCALE));
    pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(layout_.get(),
                               lettering.flush_right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  }
  lines_ = lines_of(layout_.get());
}

double SetText::width() const {
  PangoRectangle logical{};
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return points(logical.width);
}

void SetText::draw(cairo_t* pen, const SetLine& line, double x, double y) const {
  use_ink(pen, ink_);
  cairo_move_to(pen, x + line.x, y + line.baseline);
  pango_cairo_show_layout_line(pen, line.line);
}

void SetText::draw_all(cairo_t* pen, double x, double y) const {
  for (const SetLine& line : lines_) {
    draw(pen, line, x, y);
  }
}

double longest_word(cairo_t* pen, const std::string& text, const Lettering& lettering) {
  const Held<PangoLayout> layout = layout_of(pen, text, lettering);
  pango_layout_set_width(layout.get(), 0);
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD);
  PangoRectangle logical{};
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return points(logical.width);
}

void use_ink(cairo_t* pen, Ink ink) {
  constexpr double full = 255.0;
  const Rgb rgb = ink_of(ink);
  cairo_set_source_rgb(pen, rgb.red / full, rgb.green / full, rgb.blue / full);
}

}  // namespace dryout::report
