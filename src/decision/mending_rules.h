// What a shop knows of mending beside the figures: rules/decision/remedies.json says what is bought
// for a cause that is no capacitor, rules/decision/on_sight.json which parts are replaced whatever
// they measure. The technician's own files are laid over the shipped ones by id.
#pragma once

#include <string>
#include <vector>

#include "documents/parse.h"
#include "quantities/result.h"

namespace dryout::decision {

/// What is bought to mend one cause. Its bench time stands with the cause (rules/causes/).
struct Remedy {
  std::string cause;    ///< id of the cause
  std::string buy;      ///< "Rectifier diodes, at least ..."; "" = nothing is bought
  double price = 0.0;   ///< in the currency of the shipped figures
  std::string look_at;  ///< what to mind when fitting; "" = nothing special
  std::string because, source;
  quantities::Place place = {};
};

/// Parts that an old hand replaces before power comes on, whatever they measure; or, once they are
/// convicted, whatever it costs.
struct OnSight {
  std::string id, title;
  std::vector<std::string> roles;
  std::vector<std::string> technologies;  ///< empty = any
  double age_years_min = 0.0;
  bool once_convicted = false;  ///< only what is not sound goes so
  std::string because;          ///< one sentence, as it is told
  std::string source;
  quantities::Place place = {};
};

struct MendingRules {
  std::vector<Remedy> remedies;
  std::vector<OnSight> on_sight;

  [[nodiscard]] const Remedy* remedy_for(const std::string& cause) const;
  /// The rule by which such a part goes first; null where none does.
  [[nodiscard]] const OnSight* first_to_go(const std::string& role, const std::string& technology,
                                           double age_years) const;
  /// The rule by which such a part, once it is convicted, goes whatever it costs; or null.
  [[nodiscard]] const OnSight* once_convicted(const std::string& role,
                                              const std::string& technology,
                                              double age_years) const;
};

/// From knowledge trees, the shipped one first. A tree need not have these files.
[[nodiscard]] quantities::Result<MendingRules> load_mending_rules(
    const std::vector<std::string>& directories);

}  // namespace dryout::decision
