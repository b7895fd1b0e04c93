// What the kinds that are held against one reference share: inside of assess_ratio.
#pragma once

#include <optional>
#include <string>

#include "readings/assess_reading.h"
#include "readings/likelihood.h"

namespace dryout::readings {

/// Everything one of these readings is weighed with.
struct RatioSetting {
  const ReadingInput& input;
  const Priors& priors;
  const LimitsLibrary& library;
  const CorrectedReading& reading;
};

/// P(the figure is beyond its limit) and whether the circuit lets it convict, or acquit.
struct RatioFigures {
  double beyond = 0.5;
  bool may_convict = true;
  bool may_acquit = true;
  bool of_the_part = true;   ///< not of its rail: what is over a limit is then no conviction
  bool past_printed = true;  ///< on the bad side of the limit that is told
  /// Where that side begins, in the unit of the reading that is weighed: a reading farther past it
  /// than another leaves no more of sound.
  std::optional<double> past_from = std::nullopt;
};

/// Lifted, or nothing sits across it.
[[nodiscard]] bool is_alone(const ReadingInput& input);

/// Fills likelihood, posterior and verdict. What is not past the limit accuses of nothing; what is
/// past it and leaves the part likelier sound than one in ten is not proven; what may not acquit
/// moves nothing towards sound.
void weigh(const RatioSetting& setting, const RatioReference& reference,
           const RatioFigures& figures, Assessment& assessment);

/// The limit that the reading is judged by and that is told, in the kind's unit.
void tell_limit(const Limit& limit, const std::string& shown, Assessment& assessment);

[[nodiscard]] Assessment assess_capacitance(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_dissipation(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_leakage(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_insulation(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_dc_resistance(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_ripple(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_volts(const RatioSetting& setting, Assessment assessment);
[[nodiscard]] Assessment assess_hold_up(const RatioSetting& setting, Assessment assessment);

}  // namespace dryout::readings
