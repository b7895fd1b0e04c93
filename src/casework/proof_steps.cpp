#include "casework/proof_steps.h"

#include <algorithm>

#include "casework/danger.h"
#include "casework/proof_writer.h"
#include "casework/wording.h"

namespace dryout::casework {

using knowledge::PartGroup;
using knowledge::Rail;

bool one_of(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_direct(const Rail& rail) {
  return one_of(rail.kind, {"raw", "regulated", "high-tension", "bias", "reference", "primary"});
}

bool ProofWriter::has_hazard(std::string_view id) const {
  const auto& hazards = equipment_.hazards;
  return std::find(hazards.begin(), hazards.end(), id) != hazards.end();
}

bool ProofWriter::has_valves() const {
  const auto* caution = knowledge::find(hand_.ground.knowledge->cautions, "hot-valves");
  return caution != nullptr && has_a_place(hand_.ground, *caution);
}

bool ProofWriter::behind_mains() const {
  const auto& rails = equipment_.rails;
  const auto& hazards = equipment_.hazards;
  return std::any_of(hazards.begin(), hazards.end(),
                     [&](const std::string& id) {
                       const auto* caution = knowledge::find(hand_.ground.knowledge->cautions, id);
                       return caution != nullptr && caution->danger == "mains";
                     }) ||
         std::any_of(rails.begin(), rails.end(),
                     [](const Rail& rail) { return rail.kind == "mains"; });
}

/// A touched capacitor stands on the rail, or in the block that makes it.
bool ProofWriter::smoothed_by_touched(const Rail& rail) const {
  return std::any_of(touched_.begin(), touched_.end(), [&](std::size_t item) {
    const PartGroup* group = hand_.ground.group_of(item);
    const auto& makes = block_of(item).makes;
    return (group != nullptr && group->rail == rail.id) ||
           std::find(makes.begin(), makes.end(), rail.id) != makes.end();
  });
}

bool ProofWriter::near_touched(const Rail& rail) const {
  return smoothed_by_touched(rail) ||
         std::any_of(touched_.begin(), touched_.end(), [&](std::size_t item) {
           const auto& fed = block_of(item).fed_by;
           return std::find(fed.begin(), fed.end(), rail.id) != fed.end();
         });
}

void ProofWriter::add(const std::string& kind, const std::string& place, std::string title,
                      std::string wording, std::string because, std::string_view caution_id) {
  ProofStep step;
  step.id = place.empty() ? kind : kind + '@' + place;
  step.title = std::move(title);
  step.wording = std::move(wording);
  step.because = std::move(because);
  const auto* caution = knowledge::find(hand_.ground.knowledge->cautions, caution_id);
  // A rig of fourteen volts is not warned of what it has not.
  if (caution != nullptr && has_a_place(hand_.ground, *caution)) {
    step.caution = caution->wording;
    step.caution_title = caution->title;
    step.danger = caution->danger;
  }
  for (const auto& told : hand_.state.proofs) {
    if (told.what.step == step.id && told.repairs == hand_.state.repairs.size()) {
      step.done = told.what.outcome == Proved::passed;
      step.failed = told.what.outcome == Proved::failed;
      step.skipped = told.what.outcome == Proved::skipped;
      step.remark = told.what.remark;
    }
  }
  steps_.push_back(std::move(step));
}

void ProofWriter::retests() {
  for (const auto& told : hand_.state.symptoms) {
    const auto* symptom = knowledge::find(hand_.ground.knowledge->symptoms, told.what.symptom);
    const auto same = [&](const ProofStep& step) { return step.symptom == told.what.symptom; };
    if (told.what.seen != Seen::yes || symptom == nullptr ||
        std::any_of(steps_.begin(), steps_.end(), same)) {
      continue;
    }
    add("retest", symptom->id, "Is it gone: " + mid_sentence(symptom->title),
        symptom->quick_test.empty() ? "Bring about what the owner complained of."
                                    : symptom->quick_test,
        "This is what the owner came with.");
    ProofStep& step = steps_.back();
    step.symptom = symptom->id;
    for (const auto& retest : hand_.state.retests) {
      if (retest.what.symptom == symptom->id && retest.repairs == hand_.state.repairs.size()) {
        step.failed = retest.what.still_there;
        step.done = !step.failed;
      }
    }
  }
}

void ProofWriter::afterwards() {
  if (equipment_.rails.empty()) {
    return;
  }
  add("soak", "", "Soak",
      "An hour as the owner uses it, longer if the fault took longer to come; lids loose but on, "
      "so that it gets as warm as at home. Then cans and heat sinks by thermometer.",
      "A part put in wrong, and a second fault, show when warm.",
      has_valves() ? "hot-valves" : "hot-surfaces");
  if (behind_mains()) {
    add("close-up", "", "Closed, and safe to hand over",
        "Insulating sheets, clamps and screws back, mains lead sound, then the electrical safety "
        "test that your local code asks of a repaired appliance, by someone licensed where it asks "
        "that.",
        "What leaves the bench must be as safe as it was made.", "mains");
  }
}

std::vector<ProofStep> proof_steps_of(const CaseInHand& hand,
                                      const std::vector<std::size_t>& touched) {
  return ProofWriter(hand, touched).write();
}

}  // namespace dryout::casework
