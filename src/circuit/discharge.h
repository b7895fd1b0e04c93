// Emptying a charged capacitor through a resistor: V(t) = V0 exp(-t / RC), where R holds the part's
// own series resistance too: it slows the discharge, limits the current and takes its share of the
// energy. Everything a person
// needs before touching: how hard the resistor is hit, how long it takes, what is left, and how far
// the voltage climbs again by itself (dielectric absorption: it peaks 10 to 20 days after the
// discharge, Nippon Chemi-Con technical FAQ 29BDH12). A figure here never replaces the meter:
// measure before each touch, and keep a clip across a part that is stored.
#pragma once

#include "quantities/quantity.h"

namespace dryout::circuit {

struct Charged {
  quantities::Farad capacitance;  ///< above 0
  quantities::Volt volts;         ///< above 0
  /// Its own series resistance, in the way of the current: tens of ohms in a double-layer cell.
  quantities::Ohm esr{0.0};
};

[[nodiscard]] quantities::Joule stored_energy(const Charged& part);

/// (R + ESR) C, the time until 37 % are left.
[[nodiscard]] quantities::Second time_constant(const Charged& part, quantities::Ohm resistor);
/// RC ln(V0 / V); zero where the part already stands at or below `down_to`.
[[nodiscard]] quantities::Second time_to(const Charged& part, quantities::Ohm resistor,
                                         quantities::Volt down_to);
[[nodiscard]] quantities::Volt volts_left(const Charged& part, quantities::Ohm resistor,
                                          quantities::Second after);

struct DischargeStep {
  quantities::Ohm resistor;
  quantities::Ampere peak_current;
  quantities::Watt peak_power;
  quantities::Joule energy;  ///< stored; the resistor takes R / (R + ESR) of it
  quantities::Second hold;   ///< how long to hold the tips there: to `safe_volts`, at least 5 RC
  quantities::Volt left;     ///< after `hold`
  quantities::Volt rebound;  ///< may climb back to this: absorption times the former volts
  quantities::Watt rating;   ///< continuous rating to look for (energy spread over `hold`, twice)
  quantities::Volt voltage_rating;  ///< the resistor, or the string, must stand this
};

/// Fraction of the former voltage that comes back: wet aluminium (up to a tenth: a maker's note,
/// second-hand), polyester film (0.2 to 0.25 %: WIMA's table of dielectrics).
inline constexpr double wet_absorption = 0.1;
inline constexpr double film_absorption = 0.0025;
/// Hands and meters may come near below this (common practice).
inline constexpr quantities::Volt safe_to_touch{5.0};

[[nodiscard]] DischargeStep plan_discharge(const Charged& part, quantities::Ohm resistor,
                                           double absorption,
                                           quantities::Volt safe_volts = safe_to_touch);

/// The next rating above that is sold (0.5 W to 50 W, then in tens), and at least a tenth of the
/// peak: wire-wound resistors stand ten times their rating for some seconds (from memory).
[[nodiscard]] quantities::Watt rating_to_buy(const DischargeStep& step);

/// Whether this hurts hands, tips and part instead of emptying it: above 60 V, with a charge that
/// counts, more than 10 A at first (judgement: a bench resistor is chosen for well below one).
[[nodiscard]] bool next_to_a_short(const Charged& part, const DischargeStep& step);

/// The smallest resistor that keeps what flows at first moderate, at these volts whatever the
/// capacitance: 1 A and 20 W at most up to 100 V, 0.2 A from there on (common practice), and 80 W
/// from 400 V on (judgement: eight times what a usual 10 W wire-wound part is rated for). The
/// bounds meet where one takes over from another: no step anywhere.
[[nodiscard]] quantities::Ohm gentle_resistor(quantities::Volt volts);

/// That, or what takes about five seconds for five time constants (common practice) where it is
/// more: a large part is held longer instead of being hit harder. Rounded up to the E12 series (IEC
/// 60063); not for the five seconds' sake above 10 Mohm, beside which a meter of 10 Mohm would
/// count.
[[nodiscard]] quantities::Ohm discharge_resistor(const Charged& part);

struct Bleeder {
  quantities::Ohm resistance_max;  ///< t / (C ln(V0 / V))
  quantities::Watt power;          ///< lost in it all day, at full volts
};
/// A fixed bleeder that brings the part from its volts to `down_to` within `time`.
[[nodiscard]] Bleeder size_bleeder(const Charged& part, quantities::Volt down_to,
                                   quantities::Second time);

}  // namespace dryout::circuit
