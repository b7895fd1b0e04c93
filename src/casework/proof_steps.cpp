#include "casework/proof_steps.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "casework/wording.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

using knowledge::Board;
using knowledge::Equipment;
using knowledge::PartGroup;
using knowledge::Rail;

/// From this chance of electrolyte on the board the board is cleaned (judgement).
constexpr double clean_from = 0.2;

bool one_of(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_direct(const Rail& rail) {
  return one_of(rail.kind, {"raw", "regulated", "high-tension", "bias", "reference", "primary"});
}

bool stores_charge(const Rail& rail) {
  return one_of(rail.kind, {"raw", "high-tension", "primary", "extra-high-tension"});
}

bool polarised(const std::string& technology) {
  return one_of(technology, {"wet-aluminium", "surface-mount-aluminium", "solid-tantalum",
                             "polymer", "supercap"});
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  }
  return text;
}

class ProofWriter {
 public:
  ProofWriter(const CaseInHand& hand, const std::vector<std::size_t>& touched)
      : hand_(hand), equipment_(*hand.ground.equipment), touched_(touched) {}

  std::vector<ProofStep> write() {
    if (!touched_.empty()) {
      before_power();
      with_power();
    }
    retests();
    afterwards();
    return std::move(steps_);
  }

 private:
  void before_power();
  void look_over(const Board& board);
  void with_power();
  void prove_rail(const Rail& rail);
  void adjust();
  void retests();
  void afterwards();

  void add(const std::string& kind, const std::string& place, std::string title,
           std::string wording, std::string because, std::string_view caution = {});
  [[nodiscard]] bool has_hazard(std::string_view id) const;
  [[nodiscard]] const knowledge::Block& block_of(std::size_t item) const {
    return equipment_.blocks.at(hand_.ground.compiled.items[item].block);
  }
  [[nodiscard]] bool behind_mains() const;
  [[nodiscard]] bool smoothed_by_touched(const Rail& rail) const;
  [[nodiscard]] bool near_touched(const Rail& rail) const;

  const CaseInHand& hand_;
  const Equipment& equipment_;
  const std::vector<std::size_t>& touched_;
  std::vector<ProofStep> steps_;
};

bool ProofWriter::has_hazard(std::string_view id) const {
  const auto& hazards = equipment_.hazards;
  return std::find(hazards.begin(), hazards.end(), id) != hazards.end();
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
  if (const auto* caution = knowledge::find(hand_.ground.knowledge->cautions, caution_id)) {
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

void ProofWriter::before_power() {
  if (std::any_of(equipment_.rails.begin(), equipment_.rails.end(), stores_charge)) {
    add("discharge", "", "Discharged and measured",
        "Plug out, every large capacitor discharged through a resistor and measured below 5 V.",
        "Hands go back in for the next steps.", "stored-charge");
  }
  for (const Board& board : equipment_.boards) {
    if (std::any_of(touched_.begin(), touched_.end(),
                    [&](std::size_t item) { return block_of(item).board == board.id; })) {
      look_over(board);
    }
  }
  for (const Rail& rail : equipment_.rails) {
    if (is_direct(rail) && smoothed_by_touched(rail)) {
      add("rail-cold", rail.id, rail.title + ": resistance cold",
          "Ohms from the rail to its return, both ways round: it rises as the capacitors charge "
          "and stays well above a short.",
          "A reversed part or a bridge of solder is found here for nothing.", "stored-charge");
    }
  }
}

void ProofWriter::look_over(const Board& board) {
  std::vector<std::string> polar;
  std::vector<std::string> certified;
  double wet = 0.0;
  for (const std::size_t item : touched_) {
    if (block_of(item).board != board.id) {
      continue;
    }
    const PartGroup* group = hand_.ground.group_of(item);
    const std::string title = mid_sentence(hand_.ground.compiled.items[item].title);
    if (group == nullptr) {
      continue;
    }
    if (polarised(knowledge::technology_of(*hand_.ground.knowledge, *group))) {
      polar.push_back(title);
    }
    if (one_of(group->role, {"mains-x", "mains-y"})) {
      certified.push_back(title);
    }
    wet = std::max(wet, share_of_state(hand_.reasoning, item, "seeped"));
  }
  if (wet >= clean_from) {
    add("cleaning", board.id, board.title + ": electrolyte cleaned off",
        "Board washed and dried, tracks and plated holes under the old parts looked at with a "
        "loupe, wet tracks buzzed out.",
        "A part had probably seeped (" + percent(wet) + "); what it left goes on eating.",
        "electrolyte-cleaning");
  }
  if (!polar.empty()) {
    add("polarity", board.id, board.title + ": polarity checked",
        "Each new part held against the print and against the rail it stands on: " + joined(polar) +
            ".",
        "The print is wrong on some boards, and a reversed part fails warm or with a bang.",
        "vented-can");
  }
  if (!certified.empty()) {
    add("class-marks", board.id, board.title + ": safety class checked",
        "Class and test marks read on what went in: " + joined(certified) + ".",
        "Across the mains only certified parts fail safely.", "certified-xy-only");
  }
  add("joints", board.id, board.title + ": joints and plugs looked over",
      "New joints under the lamp, no splashes, no lifted pads; everything unplugged or unscrewed "
      "to get there is back in its place.",
      "Most faults after a repair are the repair's own.");
}

void ProofWriter::with_power() {
  if (equipment_.rails.empty()) {
    return;
  }
  if (behind_mains()) {
    const bool switcher = std::any_of(equipment_.rails.begin(), equipment_.rails.end(),
                                      [](const Rail& rail) { return rail.kind == "primary"; });
    add("first-power", "", "First power through a series lamp",
        std::string("Lamp in series, nobody bent over the set: a flash that dims, then the lamp "
                    "comes out.") +
            (switcher ? " A switch-mode supply may only hiccup on it: start it with a light load."
                      : ""),
        "A fault left in now costs a lamp's glow and not a transformer.",
        has_hazard("live-chassis") ? "live-chassis" : "series-lamp");
  } else {
    add("first-power", "", "First power on a limited supply",
        "Bench supply at its nominal voltage, current limit a little above what the set draws.",
        "A fault left in now stops at the limit.", "vehicle-supply");
  }
  for (const Rail& rail : equipment_.rails) {
    if (is_direct(rail) && near_touched(rail)) {
      prove_rail(rail);
    }
  }
  adjust();
}

void ProofWriter::prove_rail(const Rail& rail) {
  constexpr double extra_low = 60.0;
  const std::string_view danger = rail.kind == "primary" ? "primary-side"
                                  : rail.kind == "high-tension" || std::abs(rail.volts) > extra_low
                                      ? "high-tension"
                                      : "";
  const std::string nominal =
      rail.volts == 0.0 ? "the voltage on the diagram"
                        : quantities::format(quantities::Volt(rail.volts)) + " within 10 %";
  add("rail-volts", rail.id, rail.title + ": voltage",
      "Measure it: " + nominal + ", steady, and still so after five minutes.",
      "Whatever hangs on the rail is only as good as the rail.", danger);
  if (smoothed_by_touched(rail)) {
    add("ripple", rail.id, rail.title + ": ripple",
        "Measure it in the same manner as before the repair, under the same load, and write down "
        "both.",
        "The number before and after is the proof the owner can be shown.", danger);
  }
}

void ProofWriter::adjust() {
  std::set<std::string> told;
  for (const std::size_t item : touched_) {
    const knowledge::Block& block = block_of(item);
    const PartGroup* group = hand_.ground.group_of(item);
    if (one_of(block.kind, {"audio-power", "audio-output", "transmit-power"}) &&
        told.insert("idle" + block.id).second) {
      add("idle", block.id, block.title + ": idle current and offset",
          "Cold and after a quarter of an hour, by the maker's figure; a dummy load in place of "
          "the loudspeaker or the antenna until it is right.",
          "New parts move the working point, and an output stage shows it as heat.",
          "loudspeaker-off");
    }
    if (group != nullptr &&
        one_of(group->role, {"tank", "if-transformer-mica", "loop-filter", "ratio-detector"}) &&
        told.insert("realign" + block.id).second) {
      add("realign", block.id, block.title + ": alignment checked",
          "By the maker's procedure, with a marked generator; leave a core alone that needs no "
          "turning.",
          "A tuned circuit with a new part in it stands elsewhere.");
    }
  }
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
      "A part put in wrong, and a second fault, show when warm.", "hot-surfaces");
  if (behind_mains()) {
    add("close-up", "", "Closed, and safe to hand over",
        "Insulating sheets, clamps and screws back, mains lead sound, then the electrical safety "
        "test that your local code asks of a repaired appliance, by someone licensed where it asks "
        "that.",
        "What leaves the bench must be as safe as it was made.", "mains");
  }
}

}  // namespace

std::vector<ProofStep> proof_steps_of(const CaseInHand& hand,
                                      const std::vector<std::size_t>& touched) {
  return ProofWriter(hand, touched).write();
}

}  // namespace dryout::casework
