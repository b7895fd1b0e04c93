#include "window/drawing.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "quantities/shown_text.h"

namespace dryout::window {
namespace {

ImDrawList& pen() { return *ImGui::GetWindowDrawList(); }

/// Strokes of a hatch lie this far apart at full suspicion, and further the less there is.
constexpr float densest_px = 5;
constexpr float sparsest_px = 22;
constexpr double blank_below = 0.02;

}  // namespace

void fill(const Sheet& sheet, Box box, Colour colour, float rounding) {
  pen().AddRectFilled(ImVec2(box.left, box.top), ImVec2(box.right, box.bottom), colour.packed(),
                      sheet.px(rounding));
}

void outline(const Sheet& sheet, Box box, Colour colour, float thickness, float rounding) {
  pen().AddRect(ImVec2(box.left, box.top), ImVec2(box.right, box.bottom), colour.packed(),
                sheet.px(rounding), 0, sheet.px(thickness));
}

void line(float x0, float y0, float x1, float y1, Colour colour, float thickness) {
  pen().AddLine(ImVec2(x0, y0), ImVec2(x1, y1), colour.packed(), thickness);
}

void dashed(const Sheet& sheet, float x0, float y0, float x1, float y1, Colour colour) {
  const float length = std::hypot(x1 - x0, y1 - y0);
  const float step = sheet.px(9);
  const int dashes = static_cast<int>(std::ceil(length / step));
  for (int dash = 0; dash < dashes; ++dash) {
    const float at = static_cast<float>(dash) * step;
    const float from = at / length;
    const float to = std::min(1.0F, (at + sheet.px(5)) / length);
    line(x0 + (x1 - x0) * from, y0 + (y1 - y0) * from, x0 + (x1 - x0) * to, y0 + (y1 - y0) * to,
         colour, sheet.px(1.5F));
  }
}

float width_of(const Sheet& sheet, Face face, const std::string& words) {
  const std::string text = quantities::shown_line(words);
  ImFont* font = sheet.fonts[face];
  return font->CalcTextSizeA(font->FontSize, FLT_MAX, 0, text.data(), text.data() + text.size()).x;
}

float height_of(const Sheet& sheet, Face face) { return sheet.fonts[face]->FontSize; }

float write(const Sheet& sheet, Face face, Colour colour, float x, float y,
            const std::string& words) {
  const std::string text = quantities::shown_line(words);
  ImFont* font = sheet.fonts[face];
  pen().AddText(font, font->FontSize, ImVec2(x, y), colour.packed(), text.data(),
                text.data() + text.size());
  return width_of(sheet, face, text);
}

float write_wrapped(const Sheet& sheet, Face face, Colour colour, float x, float y, float width,
                    const std::string& words) {
  const std::string text = quantities::shown_text(words);
  ImFont* font = sheet.fonts[face];
  pen().AddText(font, font->FontSize, ImVec2(x, y), colour.packed(), text.data(),
                text.data() + text.size(), width);
  return wrapped_height(sheet, face, width, text);
}

float wrapped_height(const Sheet& sheet, Face face, float width, const std::string& words) {
  const std::string text = quantities::shown_text(words);
  const ImFont* font = sheet.fonts[face];
  return font->CalcTextSizeA(font->FontSize, FLT_MAX, width, text.data(), text.data() + text.size())
      .y;
}

void hatch(const Sheet& sheet, Box box, quantities::Probability suspicion) {
  const double p = suspicion.value();
  if (p < blank_below || box.width() <= 0) {
    return;
  }
  const auto share = static_cast<float>(p);
  fill(sheet, box, sheet.theme.accuses.faded(static_cast<std::uint8_t>(20 + 60 * share)));
  const float step = sheet.px(sparsest_px + (densest_px - sparsest_px) * share);
  const float high = box.height();
  pen().PushClipRect(ImVec2(box.left, box.top), ImVec2(box.right, box.bottom), true);
  const int strokes = static_cast<int>(std::ceil((box.width() + high) / step));
  for (int stroke = 0; stroke < strokes; ++stroke) {
    const float x = box.left - high + static_cast<float>(stroke) * step;
    line(x, box.bottom, x + high, box.top, sheet.theme.accuses.faded(150), sheet.px(1.0F + share));
  }
  pen().PopClipRect();
}

void suspicion_bar(const Sheet& sheet, Box box, quantities::Probability suspicion) {
  fill(sheet, box, sheet.theme.card);
  Box part = box;
  part.right = box.left + box.width() * static_cast<float>(suspicion.value());
  fill(sheet, part, sheet.theme.accuses.faded(70));
  hatch(sheet, part, suspicion);
  line(part.right, box.top, part.right, box.bottom, sheet.theme.accuses, sheet.px(2));
  outline(sheet, box, sheet.theme.line);
}

void arrow(const Sheet& sheet, float x0, float y0, float x1, float y1, Colour colour,
           float thickness) {
  const float length = std::max(1.0F, std::hypot(x1 - x0, y1 - y0));
  const float ux = (x1 - x0) / length;
  const float uy = (y1 - y0) / length;
  const float tip = sheet.px(9);
  line(x0, y0, x1 - ux * tip, y1 - uy * tip, colour, thickness);
  const float half = sheet.px(4.5F);
  pen().AddTriangleFilled(
      ImVec2(x1, y1), ImVec2(x1 - ux * tip - uy * half, y1 - uy * tip + ux * half),
      ImVec2(x1 - ux * tip + uy * half, y1 - uy * tip - ux * half), colour.packed());
}

void caution_sign(const Sheet& sheet, float x, float y, float size, Colour colour, Colour ground) {
  pen().AddTriangleFilled(ImVec2(x + size / 2, y), ImVec2(x + size, y + size * 0.9F),
                          ImVec2(x, y + size * 0.9F), colour.packed());
  const float centre = x + size / 2;
  line(centre, y + size * 0.3F, centre, y + size * 0.6F, ground, sheet.px(2.5F));
  pen().AddCircleFilled(ImVec2(centre, y + size * 0.74F), sheet.px(1.6F), ground.packed());
}

void focus_ring(const Sheet& sheet, Box box) {
  const float out = sheet.px(3);
  outline(sheet, {box.left - out, box.top - out, box.right + out, box.bottom + out},
          sheet.theme.ink, 2, 7);
}

}  // namespace dryout::window
