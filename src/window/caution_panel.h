// Cautions, set apart so that no eye slides over them: reversed ground, a sign, the danger's name.
#pragma once

#include "casework/case_view.h"
#include "window/sheet.h"

namespace dryout::window {

/// `face` sets the words; the title stands in the next heavier one.
void draw_caution(Sheet& sheet, const casework::CautionView& caution, Face face = Face::text);

/// What was read earlier in the case as one line, the others in full.
void draw_unread(Sheet& sheet, const std::vector<casework::CautionView>& cautions,
                 const std::string& reminder, Face face = Face::text);

}  // namespace dryout::window
