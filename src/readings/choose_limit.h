// Which limit an ESR or |Z| reading is held against: what was typed, else what the library knows of
// parts like it, else what is usual for the family. Inside of assess_reading.
#pragma once

#include <optional>
#include <string>

#include "readings/assess_reading.h"

namespace dryout::readings {

struct ChosenLimit {
  std::optional<Limit> limit;
  std::string refusal;   ///< why there is none: what this kind of part is judged by instead
  std::string accepted;  ///< what would be taken
  /// Whose figure it is; null where it was typed, or is what is usual of such parts.
  const LimitRow* row = nullptr;
};
[[nodiscard]] ChosenLimit choose_limit(const ReadingInput& input, const LimitsLibrary& library);

/// How the reading was taken, for esr_limit_under.
[[nodiscard]] Conditions conditions_of(const ReadingInput& input);

/// The loss at the reading's frequency that the nearest row of the library allows, as a limit on D;
/// nothing where no row was measured near that frequency.
[[nodiscard]] std::optional<Limit> nearest_loss_row(const ReadingInput& input,
                                                    const LimitsLibrary& library);

/// The marked value, or the netlist's target's.
[[nodiscard]] std::optional<quantities::Farad> capacitance_of(const ReadingInput& input);

}  // namespace dryout::readings
