// Random failure rates of capacitors by MIL-HDBK-217F, section 10: base rate by stress and
// temperature, times factors for capacitance, quality and environment (and series resistance for
// solid tantalum). The handbook is old and its absolute rates are high; ratios between parts and
// temperatures are what a bench can use.
#pragma once

#include "quantities/celsius.h"
#include "quantities/quantity.h"

namespace dryout::decision {

enum class Style {
  solid_tantalum,   ///< 10.12, CSR
  wet_tantalum,     ///< 10.13, CL and CLR
  aluminium_oxide,  ///< 10.14, CU and CUR
  aluminium_dry,    ///< 10.15, CE
};

struct Stress {
  Style style = Style::aluminium_dry;
  quantities::Farad capacitance;
  double voltage_ratio = 0.5;  ///< (d.c. + peak a.c.) over rated, 0 to 1
  quantities::Celsius ambient;
  quantities::Celsius rated_at{85.0};
  double quality = 10.0;           ///< pi_Q; 10 = commercial ("lower")
  double environment = 1.0;        ///< pi_E; 1 = ground, benign
  double series_resistance = 1.0;  ///< pi_SR; only for solid tantalum
};

/// lambda_b, failures in a million hours before the factors.
[[nodiscard]] double base_rate(const Stress& stress);
/// lambda_p, failures in a million hours.
[[nodiscard]] double failures_per_million_hours(const Stress& stress);

}  // namespace dryout::decision
