#include "report/svg.h"

#include "quantities/printed_number.h"
#include "quantities/shown_text.h"
#include "report/escape.h"

namespace dryout::report {
namespace {

/// Two decimals whatever the locale.
std::string number(double value) {
  constexpr double sheet_max = 1e9;  // a drawing has no place for "?" or an exponent
  const bool drawable = value > -sheet_max && value < sheet_max;
  return quantities::fixed_point(drawable ? value : 0.0, 2);
}

std::string attribute(const char* name, double value) {
  return std::string(" ") + name + "=\"" + number(value) + '"';
}

std::string colour(Ink ink) {
  constexpr const char* digits = "0123456789abcdef";
  const Rgb rgb = ink_of(ink);
  std::string text = "#";
  for (const unsigned channel : {rgb.red, rgb.green, rgb.blue}) {
    text += digits[channel >> 4U];
    text += digits[channel & 15U];
  }
  return text;
}

const char* anchor_word(Words::Anchor anchor) {
  switch (anchor) {
    case Words::Anchor::start:
      return "start";
    case Words::Anchor::middle:
      return "middle";
    case Words::Anchor::end:
      break;
  }
  return "end";
}

struct SvgWriter {
  std::string operator()(const Line& line) const {
    return "<line" + attribute("x1", line.from.x) + attribute("y1", line.from.y) +
           attribute("x2", line.to.x) + attribute("y2", line.to.y) + " stroke=\"" +
           colour(line.ink) + '"' + attribute("stroke-width", line.width) + "/>";
  }
  std::string operator()(const Box& box) const {
    return "<rect" + attribute("x", box.corner.x) + attribute("y", box.corner.y) +
           attribute("width", box.width) + attribute("height", box.height) + " fill=\"" +
           colour(box.ink) + "\"/>";
  }
  std::string operator()(const Mark& mark) const {
    if (mark.shape == Mark::Shape::ring || mark.shape == Mark::Shape::disc) {
      const bool ring = mark.shape == Mark::Shape::ring;
      return "<circle" + attribute("cx", mark.at.x) + attribute("cy", mark.at.y) +
             attribute("r", mark.radius) + " fill=\"" + colour(ring ? Ink::paper : mark.ink) +
             "\" stroke=\"" + colour(mark.ink) + "\" stroke-width=\"1.50\"/>";
    }
    const double side = mark.shape == Mark::Shape::pointer_left ? -mark.radius : mark.radius;
    const auto corner = [&](double dx, double dy) {
      return number(mark.at.x + dx) + ',' + number(mark.at.y + dy) + ' ';
    };
    return "<polygon points=\"" + corner(side, 0.0) + corner(-side, -mark.radius) +
           corner(-side, mark.radius) + "\" fill=\"" + colour(mark.ink) + "\"/>";
  }
  std::string operator()(const Words& words) const {
    return "<text" + attribute("x", words.at.x) + attribute("y", words.at.y) +
           attribute("font-size", words.size) + " fill=\"" + colour(words.ink) +
           "\" text-anchor=\"" + anchor_word(words.anchor) + '"' +
           (words.figures ? " class=\"figures\"" : "") +
           (words.strong ? " font-weight=\"600\"" : "") + '>' +
           escape_html(quantities::shown_line(words.text)) + "</text>";
  }
};

}  // namespace

std::string svg_of(const Picture& picture) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 " +
                    number(picture.width) + ' ' + number(picture.height) + "\"><title>" +
                    escape_html(quantities::shown_line(picture.told)) + "</title>\n";
  for (const Shape& shape : picture.shapes) {
    svg += std::visit(SvgWriter{}, shape) + '\n';
  }
  return svg + "</svg>";
}

}  // namespace dryout::report
