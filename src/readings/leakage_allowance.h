// How much direct current a part may pass: by the rows of the library near it, else by what is
// promised of its dielectric. One allowance for a leakage in amperes and for an insulation in ohms.
#pragma once

#include "readings/assess_reading.h"

namespace dryout::readings {

struct LeakageAllowance {
  Limit limit;             ///< in amperes at `volts`
  quantities::Volt volts;  ///< at which it holds: of the test, else of the mark
  /// Whose figure it is; null where it was typed, or is what is usual of such parts.
  const LimitRow* row = nullptr;
  /// What it takes falls for half an hour and more (double-layer parts), and nobody says how long
  /// it was left: no reading convicts.
  bool still_falling = false;
  bool volts_unsaid =
      false;                 ///< ohms, and nobody said at how many volts: less said convicts nobody
  double sound_times = 1.0;  ///< where a sound part of a dry dielectric lies, against the limit
};

/// For a reading of leakage or of insulation. A limit that was typed counts before all others, in
/// the unit of the reading's kind. Insulation that was read at unknown volts is held against what
/// the fewest telling volts would ask, and convicts nobody. Aluminium parts older than thirty years
/// are allowed more, up to what JAN-C-62 did (rows of grade pre-1965) from fifty-five years on.
[[nodiscard]] LeakageAllowance leakage_allowance(const ReadingInput& input,
                                                 const LimitsLibrary& library);

/// The test volts are known and at least half the rating: below, a pass says little.
[[nodiscard]] bool telling_volts(const ReadingInput& input);
/// Why a pass at other volts clears nobody, and what to do.
[[nodiscard]] std::string too_few_volts(const ReadingInput& input);

}  // namespace dryout::readings
