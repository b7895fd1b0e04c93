// Ripple of a rectifier into a capacitor with a steady load current.
//
// First order: dV = I / (f C) half wave, I / (2 f C) full wave (any power-supply handbook); it
// takes the recharge as instant and so overstates large ripple. Settled: the piecewise linear
// circuit (source with resistance, ideal diode with a forward drop, C with ESR) stepped in time
// until a cycle repeats itself.
#pragma once

#include <optional>

#include "quantities/quantity.h"

namespace dryout::circuit {

struct CapacitorInputFilter {
  quantities::Hertz mains{50.0};
  bool full_wave = true;
  quantities::Volt peak;                   ///< of the winding, before the diode
  quantities::Volt diode_drop{0.8};        ///< all diodes in the path together
  quantities::Ohm source_resistance{0.5};  ///< winding and diode; above 0
  quantities::Farad capacitance;           ///< above 0
  quantities::Ohm esr;
  quantities::Ampere load;
};

/// Peak to peak, instant recharge, ESR left out.
[[nodiscard]] quantities::Volt first_order_ripple(const CapacitorInputFilter& filter);

/// Of the triangle of first order: Vpp / (2 sqrt 3) (power-supply handbooks).
[[nodiscard]] quantities::Volt triangle_rms(quantities::Volt peak_to_peak);

struct SettledRipple {
  quantities::Volt peak_to_peak;
  quantities::Volt lowest;  ///< the trough: what a regulator has to live on
  quantities::Volt mean;
  quantities::Ampere diode_peak;
  quantities::Ampere capacitor_rms;
  bool settled =
      false;  ///< false: the source can't carry this load, or 2000 cycles were not enough
};
[[nodiscard]] SettledRipple settled_ripple(const CapacitorInputFilter& filter,
                                           int steps_per_cycle = 4000);

/// The capacitance that explains a measured ripple, by first order: C = I / (f dV). More than is
/// there, as the recharge takes time, as long as no ESR adds to the ripple.
[[nodiscard]] quantities::Farad capacitance_behind(quantities::Volt ripple,
                                                   const CapacitorInputFilter& filter);
/// The same by the settled ripple turned round: the capacitance behind this winding, source and ESR
/// that ripples so much (within a thousandth; the filter's own is not looked at). Nothing where
/// none does: the ESR alone makes more, or this winding can not ripple so much under this load.
[[nodiscard]] std::optional<quantities::Farad> settled_capacitance_behind(
    quantities::Volt ripple, const CapacitorInputFilter& filter);

}  // namespace dryout::circuit
