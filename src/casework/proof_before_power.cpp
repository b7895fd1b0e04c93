// Proof of a repair before power comes on: discharged, cleaned, polarity, joints, cold rails.
#include <algorithm>

#include "casework/parts_list.h"
#include "casework/proof_writer.h"
#include "casework/word_list.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using knowledge::Board;
using knowledge::PartGroup;
using knowledge::Rail;

/// From this chance of electrolyte on the board the board is cleaned (judgement).
constexpr double clean_from = 0.2;

bool stores_charge(const Rail& rail) {
  return one_of(rail.kind, {"raw", "high-tension", "primary", "extra-high-tension"});
}

bool polarised(const std::string& technology) {
  return one_of(technology, {"wet-aluminium", "surface-mount-aluminium", "solid-tantalum",
                             "polymer", "supercap"});
}

}  // namespace

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
  first_capacitor();
  for (const Rail& rail : equipment_.rails) {
    if (is_direct(rail) && smoothed_by_touched(rail)) {
      add("rail-cold", rail.id, rail.title + ": resistance cold",
          "Ohms from the rail to its return, both ways round: it rises as the capacitors charge "
          "and stays well above a short.",
          "A reversed part or a bridge of solder is found here for nothing.", "stored-charge");
    }
  }
}

/// What went in where the rectifier valve charges it in gulps.
void ProofWriter::first_capacitor() {
  const knowledge::Block* valve = rectifier_valve_of(equipment_);
  if (valve == nullptr) {
    return;
  }
  std::vector<std::string> first;
  for (const std::size_t item : touched_) {
    const PartGroup* group = hand_.ground.group_of(item);
    const auto* rail = group == nullptr ? nullptr : knowledge::find(equipment_.rails, group->rail);
    const auto& makes = block_of(item).makes;
    const bool made_here =
        rail != nullptr && std::find(makes.begin(), makes.end(), rail->id) != makes.end();
    if (made_here && rail->kind == "high-tension" && block_of(item).kind == "rectifier" &&
        one_of(group->role, {"reservoir", "multi-section-can", "smoothing"})) {
      first.push_back(mid_sentence(group->title));
    }
  }
  if (!first.empty()) {
    add("first-capacitor", "", valve->title + ": first capacitor within its maximum",
        "Type read on the valve that is in it, its own sheet's maximum for the first capacitor "
        "looked up, and what was fitted held against it, all parts in parallel together: " +
            listed(first) + ".",
        "More than its maximum pulls more from the cathode at each peak than it stands: it arcs "
        "over, and takes the mains transformer with it.",
        "high-tension");
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
        "Each new part held against the print and against the rail it stands on: " + listed(polar) +
            ".",
        "The print is wrong on some boards, and a reversed part fails warm or with a bang.",
        "vented-can");
  }
  if (!certified.empty()) {
    add("class-marks", board.id, board.title + ": safety class checked",
        "Class and test marks read on what went in: " + listed(certified) + ".",
        "Across the mains only certified parts fail safely.", "certified-xy-only");
  }
  add("joints", board.id, board.title + ": joints and plugs looked over",
      "New joints under the lamp, no splashes, no lifted pads; everything unplugged or unscrewed "
      "to get there is back in its place.",
      "Most faults after a repair are the repair's own.");
}

}  // namespace dryout::casework
