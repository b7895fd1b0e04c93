// What may be fitted in place of a part: rules under rules/substitution/, by role and technology,
// each with its reason. Rules only ever narrow; where two apply, the stricter wins. What no rule
// allows is not proposed: a mains capacitor without a certified one, say.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "documents/parse.h"
#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::decision {

struct SubstitutionRule {
  std::string id, title, because, source;
  std::vector<std::string> roles;         ///< applies to these roles; empty = any
  std::vector<std::string> technologies;  ///< and these technologies; empty = any
  double capacitance_min = 1.0;           ///< factor on the old value
  double capacitance_max = 1.0;
  double volts_min = 1.0;                 ///< factor on the old rating
  std::optional<double> temperature_min;  ///< degrees Celsius
  std::optional<double> life_hours_min;
  std::string fit;         ///< technology to fit; "" = the same
  std::string esr;         ///< "", "low", "as-original"
  bool certified = false;  ///< safety class and mark required
  std::string advice;      ///< what to look at when fitting
};

struct SubstitutionRules {
  std::vector<SubstitutionRule> rules;
};

[[nodiscard]] quantities::Result<SubstitutionRules> load_substitution_rules(
    const std::vector<std::string>& directories);

/// A part that will be replaced.
struct PartNeed {
  std::string reference;  ///< "C12", or the group's title
  std::string board;
  std::string role;
  std::string technology;
  quantities::Farad capacitance;  ///< zero = to be read off the part
  quantities::Volt rated;         ///< zero = to be read off the part
  int count = 1;
};

/// What to buy for it.
struct Substitute {
  quantities::Farad capacitance;  ///< preferred value (E6) within the allowed band; zero = unknown
  quantities::Volt rated;         ///< next standard rating not below what is needed, of a certified
                                  ///< part in volts a.c.; zero = unknown
  std::string technology;
  std::optional<quantities::Celsius> temperature_min;
  std::optional<double> life_hours_min;
  std::string esr;
  bool certified = false;
  std::vector<std::string> advice;
  std::vector<std::string> rules;  ///< ids that shaped it
};

[[nodiscard]] Substitute substitute_for(const PartNeed& need, const SubstitutionRules& rules);

/// The standard rated voltage not below `needed` (makers' catalogues: 6.3 10 16 25 35 50 63 80 100
/// 160 200 250 350 400 450 500 630 1000).
[[nodiscard]] quantities::Volt standard_rating(quantities::Volt needed);
/// The same for parts across the mains, which are rated in volts of alternating current (makers'
/// catalogues, from memory: 250 275 300 305 310 330 400 440 500).
[[nodiscard]] quantities::Volt mains_rating(quantities::Volt needed);

}  // namespace dryout::decision
