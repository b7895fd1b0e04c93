// What a capacitor from the mains to metal that people touch lets through them: I = 2 pi f C U.
// Limits as in the check "touch current from the case" (rules/checks/): 0.25 mA where nothing
// earths the metal, 0.75 mA where a third wire does (in-service limits, from memory; the standard
// where you are decides). Reckoned a tenth over the nominal mains, as far as supplies may rise (EN
// 50160, from memory).
//
// Whoever touches the metal closes the way of all the parts that bridge from the mains to it, so
// the limit is one for their sum (IEC 60990 measures the whole set, from memory).
#pragma once

#include <vector>

#include "quantities/quantity.h"

namespace dryout::decision {

struct Mains {
  quantities::Volt volts{230.0};  ///< nominal

  /// 60 Hz below 150 V, else 50 Hz: what goes with such mains in most countries.
  [[nodiscard]] quantities::Hertz frequency() const;
  [[nodiscard]] quantities::Volt highest() const { return volts * 1.1; }
};

inline constexpr quantities::Ampere touch_limit_unearthed{0.25e-3};
inline constexpr quantities::Ampere touch_limit_earthed{0.75e-3};

[[nodiscard]] quantities::Ampere touch_current(quantities::Farad capacitance, const Mains& mains);
/// The capacitance that lets just that current through.
[[nodiscard]] quantities::Farad capacitance_for(quantities::Ampere current, const Mains& mains);

/// Shares `allowed` out among parts that want so much each: who wants no more than an even share of
/// what is left has it, the others have an even share. Zero wants all it may have. In the order of
/// `wanted`; the sum is never above `allowed`.
[[nodiscard]] std::vector<quantities::Farad> share_out(
    quantities::Farad allowed, const std::vector<quantities::Farad>& wanted);

}  // namespace dryout::decision
