// Caveats: what can make a reading prove less (or more) than it seems to. Rules in data; each
// fires on typed conditions and stands beside the reading it touches.
//
// Files: DIR/rules/caveats/*.json, {"schema": 1, "caveats": [{"id", "title", "when", "effect",
// "because", "source"}]}. All conditions of `when` must hold; an absent one always does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "knowledge/rules.h"
#include "quantities/result.h"
#include "readings/limit.h"
#include "readings/reading.h"

namespace dryout::readings {

struct CaveatCondition {
  std::vector<Kind> kinds;
  std::vector<Across> across;
  std::vector<Body> bodies;
  std::vector<std::string> technologies;
  std::vector<Verdict> verdicts;
  std::vector<LimitSource> limit_sources;
  std::optional<bool> in_circuit;
  std::optional<bool> lead_zero_known;
  std::optional<double> value_below;  ///< SI of the kind
  std::optional<double>
      value_below_lead_zeros;  ///< value < n times the lead zero (0.1 ohm unknown)
  std::optional<double> temperature_below_C;
  std::optional<double> temperature_above_C;
  std::optional<double> capacitance_below_F;
  std::optional<double> capacitance_above_F;
  std::optional<double> rated_above_V;
  std::optional<double> frequency_below_Hz;
  std::optional<double> test_volts_above;  ///< fires also where the test volts are unknown
  std::optional<int> brothers_below;
  std::optional<int> brothers_from;
};

struct Caveat : knowledge::Entry {
  CaveatCondition when;
  std::string effect;  ///< what it does to what the reading proves
};

/// What is known about a reading when its caveats are looked for.
struct CaveatFacts {
  Kind kind = Kind::esr;
  Across across = Across::unknown;
  Body body = Body::unknown;
  std::string technology;
  Verdict verdict = Verdict::not_proven;
  std::optional<LimitSource> limit_source;
  bool in_circuit = true;
  std::optional<double> lead_zero_ohm;
  double value = 0.0;
  double temperature_C = 23.0;
  std::optional<double> capacitance_F;
  std::optional<double> rated_V;
  double frequency_Hz = 100e3;
  std::optional<double> test_volts;
  int brothers = 0;
};

[[nodiscard]] bool holds(const CaveatCondition& when, const CaveatFacts& facts);
[[nodiscard]] std::vector<const Caveat*> caveats_on(const std::vector<Caveat>& caveats,
                                                    const CaveatFacts& facts);
[[nodiscard]] quantities::Result<std::vector<Caveat>> load_caveats(
    const std::vector<std::string>& directories);

}  // namespace dryout::readings
