// Volts as they stand on a part: of direct current ("400", "400Vdc") or of alternating current
// ("275~", "275Vac"), which charges it to the peak, 1.414 times that.
#pragma once

#include <string>

#include "quantities/quantity.h"

namespace dryout::app {

struct TypedVolts {
  std::string number;        ///< what is left to read as a number
  bool alternating = false;  ///< said so
  bool direct = false;       ///< said so
};

/// Takes the sign of the kind of current off the end: ~ Vac V~ "V a.c." = Vdc "V d.c." V=.
[[nodiscard]] TypedVolts read_kind_of_volts(const std::string& text);

/// The peak of a sine of so many volts r.m.s.
[[nodiscard]] quantities::Volt peak_of(quantities::Volt alternating);

}  // namespace dryout::app
