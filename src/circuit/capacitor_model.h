// A wet capacitor over frequency, temperature and wear: one series chain,
//   Z(f, T) = R_core g(T) + tan_d_film / (2 pi f C(T)) + j (2 pi f L - 1 / (2 pi f C(T)))
// R_core: electrolyte, paper and foil at 20 C. tan_d_film: loss of the oxide film, about flat in
// frequency, so its resistance falls as 1/f. That is why an ESR derived from tan delta at 120 Hz
// is several times what the same part shows at 100 kHz.
//
// g(T) = w + (1 - w) exp(B (1/T - 1/T20)): a share w (foil, tabs) hardly changes, the electrolyte
// follows an activation law. w = 0.35, B = 4780 K are judged, to lie between bench figures recalled
// (2 to 4 times at 0 C, 5 to 10 times at -20 C, down by half or a little more near 85 C).
#pragma once

#include <complex>

#include "quantities/celsius.h"
#include "quantities/quantity.h"

namespace dryout::circuit {

/// How the core's resistance answers to temperature.
enum class Core { wet, solid };

struct CapacitorModel {
  quantities::Farad capacitance;        ///< at 20 C, now (after any loss)
  quantities::Ohm core_resistance;      ///< at 20 C, now
  double film_loss = 0.0;               ///< tan delta of the dielectric alone
  quantities::Henry series_inductance;  ///< 13 to 18 nH for radial cans (Vishay 28309)
  Core core = Core::wet;
  double capacitance_slope = 0.0;  ///< relative change per kelvin
  /// Leakage at rated volts and 20 C after two to five minutes.
  quantities::Ampere leakage;
};

/// g(T): resistance of the core over its value at 20 C. Only meant for -40 to 105 C.
[[nodiscard]] double core_factor(Core core, quantities::Celsius temperature);

[[nodiscard]] quantities::Farad capacitance_at(const CapacitorModel& model,
                                               quantities::Celsius temperature);
[[nodiscard]] quantities::Ohm esr_at(const CapacitorModel& model, quantities::Hertz frequency,
                                     quantities::Celsius temperature);
[[nodiscard]] std::complex<double> impedance_at(const CapacitorModel& model,
                                                quantities::Hertz frequency,
                                                quantities::Celsius temperature);
/// Frequency at which the reactances cancel and |Z| = ESR: 1 / (2 pi sqrt(LC)).
[[nodiscard]] quantities::Hertz self_resonance(const CapacitorModel& model);

/// The same part after wear: resistance times `esr_factor`, capacitance times `kept`.
[[nodiscard]] CapacitorModel worn(const CapacitorModel& fresh, double esr_factor, double kept);

/// ESR = tan delta / (2 pi f C) (definition; Vishay 28309, KEMET A4001).
[[nodiscard]] quantities::Ohm esr_from_tan_delta(double tan_delta, quantities::Hertz frequency,
                                                 quantities::Farad capacitance);
/// 1 / (2 pi f C).
[[nodiscard]] quantities::Ohm reactance(quantities::Farad capacitance, quantities::Hertz frequency);

}  // namespace dryout::circuit
