#include "casework/plain_view.h"

#include <algorithm>

#include "casework/apply_command.h"
#include "casework/plain_log.h"
#include "casework/timeline.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

std::vector<LogLine> plain_lines(const Journal& journal, const Standing& standing) {
  std::vector<LogLine> lines;
  for (const Entry& entry : journal) {
    if (const auto* command = std::get_if<Command>(&entry.act)) {
      const auto& in_force = standing.in_force;
      const bool undone = std::find(in_force.begin(), in_force.end(), &entry) == in_force.end();
      const casestore::NewEvent event = to_event(entry);
      lines.push_back({entry.sequence, local_time(entry.at),
                       event.kind + ": " + plain_text(event.body), undone,
                       std::string(lane_of(*command)), std::string(bearing_of(*command))});
    }
  }
  return lines;
}

}  // namespace

CaseView headed_view(std::int64_t number, const CaseState& state, const Standing& standing) {
  CaseView view;
  view.number = number;
  view.equipment = state.intake.equipment;
  view.equipment_title = state.intake.equipment;
  view.set_name = state.intake.set_name;
  view.owner = state.intake.owner;
  view.complaint = state.intake.complaint;
  view.year_built = state.intake.year_built;
  view.closed = state.closed.has_value();
  view.cause = view.closed ? state.closed->what.cause : "";
  view.can_undo = standing.undo.has_value();
  view.can_redo = standing.redo.has_value();
  return view;
}

CaseView plain_view(std::int64_t number, const KnownCase& known, const quantities::Problems& why) {
  const Standing standing = standing_of(known.journal);
  CaseView view = headed_view(number, state_of(known.journal), standing);
  view.log = plain_lines(known.journal, standing);
  view.figures.refused = quantities::describe(why.front());
  view.figures.sentence = "There are no figures, for the rules of this set are not at hand (" +
                          view.figures.refused +
                          "). It can be shown, noted in, exported, and corrected to another "
                          "equipment.";
  view.leading.sentence = "What to check cannot be said: the rules of this set are not at hand.";
  view.notices.push_back(view.figures.sentence);
  return view;
}

}  // namespace dryout::casework
