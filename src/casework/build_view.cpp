#include "casework/build_view.h"

#include <algorithm>

#include "casework/caution_views.h"
#include "casework/danger.h"
#include "casework/plain_view.h"
#include "casework/timeline.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

std::vector<LogLine> log_of(const Journal& journal, const Standing& standing,
                            const Ground& ground) {
  std::vector<LogLine> lines;
  for (const Entry& entry : journal) {
    if (const auto* command = std::get_if<Command>(&entry.act)) {
      const auto& in_force = standing.in_force;
      const bool undone = std::find(in_force.begin(), in_force.end(), &entry) == in_force.end();
      lines.push_back({entry.sequence, local_time(entry.at), line_of(*command, ground), undone,
                       std::string(lane_of(*command)), std::string(bearing_of(*command))});
    }
  }
  return lines;
}

std::vector<CautionView> hazards_of(const Ground& ground) {
  std::vector<const knowledge::Caution*> hazards;
  for (const std::string& id : ground.equipment->hazards) {
    const auto* caution = knowledge::find(ground.knowledge->cautions, id);
    if (caution != nullptr && has_a_place(ground, *caution)) {
      hazards.push_back(caution);
    }
  }
  return views_of(hazards);
}

}  // namespace

CaseView build_view(std::int64_t number, const Journal& journal, const CaseInHand& hand) {
  const Standing standing = standing_of(journal);
  CaseView view = headed_view(number, hand.state, standing);
  view.equipment_title = hand.ground.equipment->title;
  view.symptoms = symptoms_of(hand);
  view.places = places_of(hand);
  view.has_volume = knowledge::find(hand.ground.equipment->controls, "volume") != nullptr;
  view.suspects = suspects_of(hand);
  for (const knowledge::PartGroup& group : hand.ground.equipment->groups) {
    view.groups.push_back({group.id, group.title});
  }
  view.boards = boards_of(hand);
  view.blocks = blocks_of(hand);
  view.next = next_checks_of(hand);
  view.declined = declined_checks_of(hand);
  view.access = accesses_of(hand);
  view.readings = readings_of(hand);
  view.measuring = measuring_of(hand.ground, hand.state, heeded_of(hand.ground, hand.state));
  view.hazards = hazards_of(hand.ground);
  view.high_tension = has_high_tension(*hand.ground.equipment);
  view.log = log_of(journal, standing, hand.ground);
  view.leading = leading_of(hand, view.suspects, view.next);
  view.advice = advice_of(hand);
  view.contradiction = contradiction_of(hand);
  view.notices = hand.reasoning.evidence.notices;
  view.figures.refused = hand.reasoning.refused;
  view.figures.draws = hand.reasoning.precision.draws;
  view.figures.set_aside = hand.reasoning.precision.set_aside;
  view.figures.within = hand.reasoning.precision.within;
  view.figures.sentence = told(hand.reasoning);
  if (!view.figures.sentence.empty()) {
    view.notices.push_back(view.figures.sentence);
  }
  if (hand.ground.history != nullptr) {
    view.notices.push_back(told(hand.ground.history_use));
  }
  return view;
}

}  // namespace dryout::casework
