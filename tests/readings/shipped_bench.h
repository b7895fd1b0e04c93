// A reading at the bench with the shipped rules: technologies, ageing, limits.
#pragma once

#include <gtest/gtest.h>

#include "knowledge/load.h"
#include "listed_parts.h"
#include "priors.h"

namespace dryout::readings {

inline const knowledge::KnowledgeBase& rules_as_shipped() {
  static const knowledge::KnowledgeBase rules = *knowledge::load({DRYOUT_SOURCE_DIR});
  return rules;
}

/// With the part's own priors at the age that the input says.
inline Assessment read_as_shipped(ReadingInput input, double value) {
  input.value = value;
  const knowledge::KnowledgeBase& rules = rules_as_shipped();
  const auto* technology = find(rules.technologies, input.technology);
  const auto a =
      assess_reading(input, priors_of(*technology, rules.ageing, input.years), shipped_knowledge());
  EXPECT_TRUE(a.ok()) << (a.ok() ? "" : describe(a.problems()));
  return a.ok() ? *a : Assessment{};
}

/// One leg off the board, the meter zeroed, nothing typed but what is printed on the part.
inline ReadingInput lifted_and_zeroed(Kind kind, const ListedPart& part) {
  ReadingInput input;
  input.kind = kind;
  input.technology = part.technology;
  input.body = part.body;
  input.capacitance = quantities::microfarads(part.microfarad);
  input.rated = quantities::volts(part.volts);
  input.in_circuit = false;
  input.lead_zero = quantities::ohms(0.0);
  input.frequency = usual_frequency(kind, part.technology);
  return input;
}

inline std::string name_of_part(const ListedPart& part) {
  return std::to_string(part.microfarad) + " uF " + std::to_string(part.volts) + " V " +
         part.technology;
}

/// Solid tantalum, polymer and double-layer parts that benches meet (common practice, no source).
inline const std::vector<ListedPart>& listed_solid_parts() {
  static const std::vector<ListedPart> parts{
      {0.1, 35, "solid-tantalum", Body::radial}, {1, 35, "solid-tantalum", Body::radial},
      {2.2, 35, "solid-tantalum", Body::radial}, {4.7, 35, "solid-tantalum", Body::radial},
      {10, 16, "solid-tantalum", Body::radial},  {10, 35, "solid-tantalum", Body::radial},
      {22, 16, "solid-tantalum", Body::radial},  {47, 10, "solid-tantalum", Body::radial},
      {10, 16, "solid-tantalum", Body::smd},     {100, 10, "solid-tantalum", Body::smd},
      {100, 16, "polymer", Body::smd},           {220, 6.3, "polymer", Body::smd},
      {330, 16, "polymer", Body::smd},           {470, 16, "polymer", Body::radial},
      {560, 4, "polymer", Body::radial},         {820, 2.5, "polymer", Body::radial}};
  return parts;
}

}  // namespace dryout::readings
