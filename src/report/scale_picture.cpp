#include "report/scale_picture.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace dryout::report {
namespace {

constexpr double scale_left = 14.0;
constexpr double scale_right = picture_width - 14.0;
constexpr double head_height = 20.0;
constexpr double row_height = 31.0;
constexpr double track_below = 19.0;  // of a row's top
constexpr double axis_height = 22.0;
constexpr double scale_lettering = 8.0;
constexpr double bar_half = 7.0;
constexpr int decade_labels_max = 9;
constexpr int decades_max = 24;  // femto to giga; what lies below is drawn at the edge

bool drawable(const std::optional<double>& value) {
  return value && std::isfinite(*value) && *value > 0.0;
}

bool any_value(const ScaleRow& row) { return row.before || row.after; }

/// One row's worth of drawing after the other, under one axis.
class ScaleDrawing {
 public:
  ScaleDrawing(const ScaleOrder& order, const Decades& decades, std::size_t rows)
      : order_(order), decades_(decades) {
    picture_.width = picture_width;
    bottom_ = head_height + row_height * static_cast<double>(rows);
    picture_.height = bottom_ + axis_height;
  }

  /// Only the signs that occur.
  void draw_legend(const std::vector<ScaleRow>& rows) {
    double x = scale_left;
    const auto entry = [&](const std::string& words, double width) {
      say({x + 8.0, 10.0}, words, Words::Anchor::start, Ink::quiet, false);
      x += width;
    };
    const auto any = [&](std::optional<double> ScaleRow::*value) {
      return std::any_of(rows.begin(), rows.end(),
                         [&](const ScaleRow& row) { return (row.*value).has_value(); });
    };
    if (any(&ScaleRow::before)) {
      add(Mark{{x, 7.0}, Mark::Shape::ring, Ink::before, 3.5});
      entry("as it came in", 88.0);
    }
    if (any(&ScaleRow::after)) {
      add(Mark{{x, 7.0}, Mark::Shape::disc, Ink::after, 3.5});
      entry("after the repair", 96.0);
    }
    if (any(&ScaleRow::limit)) {
      add(Line{{x, 1.0}, {x, 13.0}, Ink::text, 1.5});
      entry("limit", 52.0);
      add(Box{{x - 6.0, 2.0}, 12.0, 10.0, Ink::beyond});
      entry(order_.high_is_bad ? "above the limit" : "below the limit", 84.0);
    }
    if (any(&ScaleRow::fresh)) {
      add(Mark{{x, 7.0}, Mark::Shape::ring, Ink::quiet, 2.5});
      entry("a fresh part", 64.0);
    }
    if (std::any_of(rows.begin(), rows.end(),
                    [](const ScaleRow& row) { return !row.tables.empty(); })) {
      draw_dashed(x, 7.0, 6.0);
      entry("a general table", 0.0);
    }
  }

  void draw_axis() {
    const int count = decades_.highest - decades_.lowest;
    const int step = std::max(1, (count + decade_labels_max - 1) / decade_labels_max);
    for (int exponent = decades_.lowest; exponent <= decades_.highest; ++exponent) {
      const double x = x_of(std::pow(10.0, exponent));
      add(Line{{x, bottom_}, {x, bottom_ + 4.0}, Ink::quiet, 0.75});
      if ((exponent - decades_.lowest) % step == 0) {
        label_decade(exponent, x);
      }
      for (int digit = 2; digit <= 9 && count <= 4 && exponent < decades_.highest; ++digit) {
        const double tick = x_of(digit * std::pow(10.0, exponent));
        add(Line{{tick, bottom_}, {tick, bottom_ + 2.5}, Ink::hairline, 0.5});
      }
    }
    add(Line{{scale_left, bottom_}, {scale_right, bottom_}, Ink::quiet, 0.75});
  }

  void draw_row(const ScaleRow& row, std::size_t index) {
    const double top = head_height + row_height * static_cast<double>(index);
    const double y = top + track_below;
    if (drawable(row.limit)) {
      draw_limit(*row.limit, y);
    }
    for (int exponent = decades_.lowest; exponent <= decades_.highest; ++exponent) {
      const double x = x_of(std::pow(10.0, exponent));
      add(Line{{x, y - bar_half}, {x, y + bar_half}, Ink::hairline, 0.5});
    }
    add(Line{{scale_left, y}, {scale_right, y}, Ink::hairline, 0.75});
    if (drawable(row.before) && drawable(row.after)) {
      add(Line{{x_of(*row.before), y}, {x_of(*row.after), y}, Ink::quiet, 1.25});
    }
    for (const double table : row.tables) {
      draw_dashed(x_of(table), y, bar_half);
    }
    if (drawable(row.fresh)) {
      add(Mark{{x_of(*row.fresh), y}, Mark::Shape::ring, Ink::quiet, 2.5});
    }
    draw_value(row.before, Mark::Shape::ring, Ink::before, y);
    draw_value(row.after, Mark::Shape::disc, Ink::after, y);
    const std::string figures = figures_of(row);
    const double figures_width = 0.62 * scale_lettering * static_cast<double>(figures.size());
    say({scale_right + 10.0, top + 8.0}, figures, Words::Anchor::end, Ink::text, true);
    const double title_width = scale_right - scale_left + 10.0 - figures_width;
    picture_.shapes.emplace_back(Words{{scale_left - 10.0, top + 8.0},
                                       fitted(row.title, scale_lettering + 1.0, title_width),
                                       scale_lettering + 1.0,
                                       Ink::text,
                                       Words::Anchor::start,
                                       false,
                                       true});
    picture_.told += ' ' + row.title + ": " + figures + '.';
  }

  [[nodiscard]] Picture finish() && { return std::move(picture_); }
  void tell(const std::string& words) { picture_.told += words; }

 private:
  /// An upright in three strokes: a figure that is shown and not judged by.
  void draw_dashed(double x, double y, double half) {
    const double stroke = 2.0 * half / 5.0;
    for (int i = 0; i < 3; ++i) {
      const double from = y - half + 2.0 * stroke * i;
      add(Line{{x, from}, {x, from + stroke}, Ink::text, 1.0});
    }
  }
  void add(Shape shape) { picture_.shapes.push_back(std::move(shape)); }
  void say(Point at, const std::string& text, Words::Anchor anchor, Ink ink, bool figures) {
    add(Words{at, text, scale_lettering, ink, anchor, figures, false});
  }
  /// The outermost labels stay within the picture.
  void label_decade(int exponent, double x) {
    const bool first = exponent == decades_.lowest;
    const bool last = exponent == decades_.highest;
    const double shift = first ? -10.0 : (last ? 10.0 : 0.0);
    const auto anchor = first  ? Words::Anchor::start
                        : last ? Words::Anchor::end
                               : Words::Anchor::middle;
    say({x + shift, bottom_ + 14.0}, shown(std::pow(10.0, exponent)), anchor, Ink::quiet, true);
  }
  [[nodiscard]] double x_of(double value) const {
    const double share = std::clamp(place_on(decades_, value).value_or(0.0), 0.0, 1.0);
    return scale_left + (scale_right - scale_left) * share;
  }
  [[nodiscard]] std::string shown(double value) const {
    return quantities::format_engineering(value, order_.unit);
  }
  void draw_limit(double limit, double y) {
    const double x = x_of(limit);
    const double from = order_.high_is_bad ? x : scale_left;
    const double to = order_.high_is_bad ? scale_right : x;
    add(Box{{from, y - bar_half}, to - from, 2 * bar_half, Ink::beyond});
    add(Line{{x, y - bar_half}, {x, y + bar_half}, Ink::text, 1.5});
  }
  void draw_value(const std::optional<double>& value, Mark::Shape shape, Ink ink, double y) {
    if (drawable(value)) {
      add(Mark{{x_of(*value), y}, shape, ink, 4.0});
    } else if (value && !std::isnan(*value)) {
      const bool low = *value <= 0.0;
      add(Mark{{low ? scale_left : scale_right, y},
               low ? Mark::Shape::pointer_left : Mark::Shape::pointer_right,
               ink,
               4.0});
    }
  }
  [[nodiscard]] std::string figures_of(const ScaleRow& row) const {
    std::string text = row.before ? shown(*row.before) : "";
    if (row.after) {
      text += (row.before ? " \u2192 " : "after ") + shown(*row.after);
    }
    text += row.limit ? "  limit " + shown(*row.limit) : "";
    text += row.fresh ? "  fresh " + shown(*row.fresh) : "";
    for (const double table : row.tables) {
      text += "  table " + shown(table);
    }
    return text;
  }

  ScaleOrder order_;
  Decades decades_;
  Picture picture_;
  double bottom_ = 0.0;
};

}  // namespace

Decades decades_of(const std::vector<ScaleRow>& rows) {
  double lowest = HUGE_VAL;
  double highest = 0.0;
  for (const ScaleRow& row : rows) {
    const auto take = [&](const std::optional<double>& value) {
      if (drawable(value)) {
        lowest = std::min(lowest, *value);
        highest = std::max(highest, *value);
      }
    };
    for (const std::optional<double>& value : {row.before, row.after, row.limit, row.fresh}) {
      take(value);
    }
    for (const double table : row.tables) {
      take(table);
    }
  }
  if (highest == 0.0) {
    return {};
  }
  // A hair inside, so that a value on a decade's edge does not open another decade for rounding.
  constexpr double hair = 1e-9;
  Decades decades{static_cast<int>(std::floor(std::log10(lowest) + hair)),
                  static_cast<int>(std::ceil(std::log10(highest) - hair))};
  decades.highest = std::max(decades.highest, decades.lowest + 1);
  decades.lowest = std::max(decades.lowest, decades.highest - decades_max);
  return decades;
}

std::optional<double> place_on(const Decades& decades, double value) {
  if (!drawable(value)) {
    return std::nullopt;
  }
  return (std::log10(value) - decades.lowest) / (decades.highest - decades.lowest);
}

Picture scale_picture(const ScaleOrder& order, const std::vector<ScaleRow>& rows) {
  std::vector<ScaleRow> drawn;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(drawn), any_value);
  ScaleDrawing drawing(order, decades_of(drawn), drawn.size());
  drawing.tell(order.title + ", on a logarithmic scale.");
  drawing.draw_legend(drawn);
  drawing.draw_axis();
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    drawing.draw_row(drawn[i], i);
  }
  return std::move(drawing).finish();
}

}  // namespace dryout::report
