// The shop's history as the figures may use it, once the technician has switched it on: causes by
// family of equipment, and what sound parts of each type read. Read from the store when it is
// switched on; see learning.h for how it is weighed and what it can at most do.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "casework/learning.h"
#include "quantities/result.h"
#include "readings/assess_reading.h"

namespace dryout::casework {

class ShopHistory {
 public:
  [[nodiscard]] static quantities::Result<ShopHistory> read(const casestore::CaseStore& store);

  /// Closed cases of a family, by subject; those without a cause left out.
  [[nodiscard]] const std::vector<SubjectCases>& causes(const std::string& family) const;
  [[nodiscard]] const std::vector<SoundReadings>& sound_parts() const { return sound_parts_; }

  /// A limit for an ESR or impedance reading of a part whose own limit nobody knows: what sound
  /// parts of its type read here, worth what a fresh part measured now is worth. Only where the
  /// library knows something of the type that this is surer of, and from three readings on.
  [[nodiscard]] std::optional<double> limit_for(const readings::ReadingInput& input,
                                                const readings::LimitsLibrary& library) const;

 private:
  std::map<std::string, std::vector<SubjectCases>> causes_;
  std::vector<SoundReadings> sound_parts_;
};

/// What the library believes of a type's typical value, as ln; nothing where it knows no limit.
[[nodiscard]] std::optional<NormalBelief> typical_by_library(const readings::LimitsLibrary& library,
                                                             const readings::PartDescription& part,
                                                             readings::Kind kind);

/// Brings what was compiled in line with the history of the family; how many cases counted, and out
/// of how many.
struct HistoryUse {
  std::int64_t cases = 0;
  double counted = 0.0;
};
/// "The shop's own closed cases are in these figures: ..."
[[nodiscard]] std::string told(const HistoryUse& use);
[[nodiscard]] HistoryUse apply_history(const ShopHistory& history,
                                       const knowledge::Equipment& equipment,
                                       diagnosis::CompiledNetwork& compiled);

}  // namespace dryout::casework
