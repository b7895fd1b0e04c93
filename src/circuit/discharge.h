// Emptying a charged capacitor through a resistor: V(t) = V0 exp(-t / RC). Everything a person
// needs before touching: how hard the resistor is hit, how long it takes, what is left, and how far
// the voltage climbs again by itself (dielectric absorption). A figure here never replaces the
// meter: measure before you touch, and again after ten minutes.
#pragma once

#include "quantities/quantity.h"

namespace dryout::circuit {

struct Charged {
  quantities::Farad capacitance;  ///< above 0
  quantities::Volt volts;         ///< above 0
};

[[nodiscard]] quantities::Joule stored_energy(const Charged& part);

/// RC ln(V0 / V); zero where the part already stands at or below `down_to`.
[[nodiscard]] quantities::Second time_to(const Charged& part, quantities::Ohm resistor,
                                         quantities::Volt down_to);
[[nodiscard]] quantities::Volt volts_left(const Charged& part, quantities::Ohm resistor,
                                          quantities::Second after);

struct DischargeStep {
  quantities::Ohm resistor;
  quantities::Ampere peak_current;
  quantities::Watt peak_power;
  quantities::Joule energy;  ///< all of it ends in the resistor
  quantities::Second hold;   ///< how long to hold the tips there: to `safe_volts`, at least 5 RC
  quantities::Volt left;     ///< after `hold`
  quantities::Volt rebound;  ///< may climb back to this: absorption times the former volts
  quantities::Watt rating;   ///< continuous rating to look for (energy spread over `hold`, twice)
  quantities::Volt voltage_rating;  ///< the resistor, or the string, must stand this
};

/// `absorption`: fraction of the former voltage that comes back. 0.1 for wet aluminium (up to a
/// tenth in 100 to 1000 s, makers' notes), 0.002 for polyester film (dielectric tables), else
/// stated by the caller.
[[nodiscard]] DischargeStep plan_discharge(const Charged& part, quantities::Ohm resistor,
                                           double absorption,
                                           quantities::Volt safe_volts = quantities::volts(10.0));

/// A resistor that keeps the peak current at or below 0.2 A above 100 V and takes about five
/// seconds for five time constants (common practice), rounded up to the E12 series (IEC 60063).
[[nodiscard]] quantities::Ohm discharge_resistor(const Charged& part);

struct Bleeder {
  quantities::Ohm resistance_max;  ///< t / (C ln(V0 / V))
  quantities::Watt power;          ///< lost in it all day, at full volts
};
/// A fixed bleeder that brings the part from its volts to `down_to` within `time`.
[[nodiscard]] Bleeder size_bleeder(const Charged& part, quantities::Volt down_to,
                                   quantities::Second time);

}  // namespace dryout::circuit
