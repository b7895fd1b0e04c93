#include "window/caution_panel.h"

#include <imgui.h>

#include "window/drawing.h"
#include "window/wording.h"

namespace dryout::window {

void draw_caution(Sheet& sheet, const casework::CautionView& caution, Face face) {
  const Theme& theme = sheet.theme;
  const Face title_face = face == Face::text ? Face::strong : Face::heading;
  const float width = ImGui::GetContentRegionAvail().x;
  const float pad = sheet.px(12);
  const float sign = sheet.px(26);
  const float text_width = width - 3 * pad - sign;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const std::string danger = danger_words(caution.danger);
  const bool said = caution.title.rfind(danger, 0) == 0;
  const std::string title = said ? caution.title : danger + ": " + caution.title;
  const float x = at.x + 2 * pad + sign;
  const float title_high = wrapped_height(sheet, title_face, text_width, title);
  const float text_high = wrapped_height(sheet, face, text_width, caution.wording);
  const Box box{at.x, at.y, at.x + width, at.y + title_high + text_high + 2 * pad + sheet.px(4)};
  fill(sheet, box, theme.caution, 5);
  caution_sign(sheet, at.x + pad, at.y + pad, sign, theme.next, theme.on_next);
  write_wrapped(sheet, title_face, theme.on_caution, x, at.y + pad, text_width, title);
  write_wrapped(sheet, face, theme.on_caution, x, at.y + pad + title_high + sheet.px(4), text_width,
                caution.wording);
  ImGui::Dummy(ImVec2(width, box.height()));
}

}  // namespace dryout::window
