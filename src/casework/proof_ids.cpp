// The ids of the steps of a proof: what kinds there are, where each may stand, what it is called.
#include "casework/proof_steps.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using knowledge::Equipment;
using quantities::Problems;

enum class Place { none, board, rail, block };

struct Kind {
  std::string_view word;
  Place place;
  std::string_view title;
};
constexpr Kind kinds[] = {{"discharge", Place::none, "discharged and measured"},
                          {"cleaning", Place::board, "electrolyte cleaned off"},
                          {"polarity", Place::board, "polarity"},
                          {"class-marks", Place::board, "safety class"},
                          {"joints", Place::board, "joints and plugs"},
                          {"rail-cold", Place::rail, "resistance cold"},
                          {"first-power", Place::none, "first power"},
                          {"rail-volts", Place::rail, "voltage"},
                          {"ripple", Place::rail, "ripple"},
                          {"idle", Place::block, "idle current and offset"},
                          {"realign", Place::block, "alignment"},
                          {"soak", Place::none, "soak"},
                          {"close-up", Place::none, "closed and safe"}};

struct Step {
  std::string kind, place;
};

Step split(const std::string& id) {
  const std::size_t at = id.find('@');
  return at == std::string::npos ? Step{id, ""} : Step{id.substr(0, at), id.substr(at + 1)};
}

template <class List>
const std::string* title_in(const List& list, const std::string& id) {
  const auto* found = knowledge::find(list, id);
  return found == nullptr ? nullptr : &found->title;
}

/// Title of the place; null where the equipment has no such place.
const std::string* title_of_place(const Equipment& equipment, Place place, const std::string& id) {
  switch (place) {
    case Place::board:
      return title_in(equipment.boards, id);
    case Place::rail:
      return title_in(equipment.rails, id);
    case Place::block:
      return title_in(equipment.blocks, id);
    case Place::none:
      break;
  }
  return nullptr;
}

}  // namespace

Problems check_proof_step(const std::string& step, const Ground& ground) {
  const auto [kind, place] = split(step);
  const std::string found = '"' + quantities::excerpt(step) + '"';
  if (kind == "retest") {
    return {{"a symptom tried again is told as such", {}, found, "retest " + place}};
  }
  std::string accepted;
  for (const Kind& each : kinds) {
    accepted += (accepted.empty() ? "" : ", ") + std::string(each.word);
    if (each.word != kind) {
      continue;
    }
    const bool fits = each.place == Place::none
                          ? place.empty()
                          : title_of_place(*ground.equipment, each.place, place) != nullptr;
    return fits ? Problems{}
                : Problems{{"this step of the proof has no such place",
                            {},
                            found,
                            "a step as the proof lists it"}};
  }
  return {{"no such step of the proof", {}, found, accepted}};
}

std::string title_of_proof_step(const std::string& step, const Ground& ground) {
  const auto [kind, place] = split(step);
  for (const Kind& each : kinds) {
    if (each.word == kind) {
      const std::string* where = title_of_place(*ground.equipment, each.place, place);
      return (where == nullptr ? "" : mid_sentence(*where) + ", ") + std::string(each.title);
    }
  }
  return step;
}

}  // namespace dryout::casework
