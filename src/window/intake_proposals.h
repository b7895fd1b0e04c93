// What the owner's words sound like, told while they are typed: symptoms to take, the likely kind
// of equipment, and what is not this program's field.
#pragma once

#include <string>
#include <vector>

#include "complaints/complaint_reader.h"
#include "window/sheet.h"

namespace dryout::window {

struct ProposalsState {
  std::vector<std::string> taken;  ///< ids, to be noted when the set is taken in
  std::string heard_for;           ///< the words and kind that `heard` answers
  complaints::Heard heard;
};

/// Symptoms in `told` are noted already and not proposed again. The id of a kind of equipment that
/// was pressed, "" for none.
[[nodiscard]] std::string draw_proposals(Sheet& sheet, const complaints::ComplaintReader& reader,
                                         const std::string& said, const complaints::Beside& beside,
                                         const std::vector<std::string>& told,
                                         ProposalsState& state);

}  // namespace dryout::window
