#include "window/caution_panel.h"

#include <imgui.h>

#include <algorithm>

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

void draw_unread(Sheet& sheet, const std::vector<casework::CautionView>& cautions,
                 const std::string& reminder, Face face) {
  const Face large = face == Face::text ? Face::text : Face::heading;
  if (!reminder.empty()) {
    const float pad = sheet.px(8);
    const float sign = sheet.px(20);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float words = width - 3 * pad - sign;
    const Face small = face == Face::text ? Face::note : Face::heading;
    const float high = std::max(sign, wrapped_height(sheet, small, words, reminder));
    fill(sheet, {at.x, at.y, at.x + width, at.y + high + 2 * pad}, sheet.theme.caution, 5);
    caution_sign(sheet, at.x + pad, at.y + pad, sign, sheet.theme.next, sheet.theme.on_next);
    write_wrapped(sheet, small, sheet.theme.on_caution, at.x + 2 * pad + sign, at.y + pad, words,
                  reminder);
    ImGui::Dummy(ImVec2(width, high + 2 * pad));
  }
  for (const casework::CautionView& caution : cautions) {
    if (!caution.read) {
      draw_caution(sheet, caution, large);
    }
  }
}

}  // namespace dryout::window
