// Priors and inputs for tests. The figures of the technologies are this test's own, of the order
// of the shipped ones, so that editing the rules does not move the tests.
#pragma once

#include "readings/assess_reading.h"
#include "readings/choose_limit.h"

namespace dryout::readings {

/// A wet part in a set some thirty years old, three ageing levels.
inline Priors wet_priors() {
  return {{"sound", "tired", "dried", "leaky", "shorted", "open", "seeped"},
          {0.4, 0.38, 0.22},
          {{0.9855, 0.01, 0.001, 0.002, 0.0005, 0.0005, 0.0005},
           {0.8695, 0.1, 0.015, 0.006, 0.001, 0.0015, 0.007},
           {0.5735, 0.26, 0.1, 0.015, 0.0015, 0.01, 0.04}}};
}

/// The trade's example: 10 uF 16 V, surface mount, 100 kHz, leads zeroed.
inline ReadingInput surface_mount_10u() {
  ReadingInput input;
  input.technology = "surface-mount-aluminium";
  input.body = Body::smd;
  input.capacitance = quantities::microfarads(10.0);
  input.rated = quantities::volts(16.0);
  input.across = Across::nothing;
  input.lead_zero = quantities::ohms(0.0);
  input.limit = 3.0;
  return input;
}

inline const ReadingKnowledge& shipped_knowledge() {
  static const ReadingKnowledge knowledge = [] {
    auto loaded = load_reading_knowledge({DRYOUT_SOURCE_DIR});
    return loaded.ok() ? *loaded : ReadingKnowledge{};
  }();
  return knowledge;
}

/// A reading that must be accepted.
inline Assessment assessed(const ReadingInput& input) {
  auto assessment = assess_reading(input, wet_priors(), shipped_knowledge());
  return assessment.ok() ? *assessment : Assessment{};
}

inline Assessment assessed(ReadingInput input, double value) {
  input.value = value;
  return assessed(input);
}

/// What the reading leaves of a state; -1 for a state that there is not.
inline double share(const Assessment& a, const std::string& state) {
  for (std::size_t s = 0; s < a.states.size(); ++s) {
    if (a.states[s] == state) {
      return a.after[s];
    }
  }
  return -1.0;
}

/// What an ESR reading of such a part, alone at 100 kHz, would be held against.
inline std::optional<Limit> chosen_limit(const LimitsLibrary& library,
                                         const PartDescription& part) {
  ReadingInput input;
  input.technology = part.technology;
  input.body = part.body;
  input.capacitance = part.capacitance;
  input.rated = part.rated;
  return choose_limit(input, library).limit;
}

}  // namespace dryout::readings
