// Proof of a repair with power on: the first minutes, every rail near it, what must be adjusted.
#include <algorithm>
#include <cmath>
#include <set>

#include "casework/proof_writer.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {

using knowledge::PartGroup;
using knowledge::Rail;

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

}  // namespace dryout::casework
