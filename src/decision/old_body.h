// The body of the old part as it is read off with a rule and off its sleeve, in one line:
//   "10x16 pitch 5 radial 105C 0.6A"
// diameter x height in millimetres, lead pitch in millimetres, lead style, temperature grade,
// ripple current. Any of them may be missing, in any order; a comma between two is taken as a
// space.
#pragma once

#include <optional>
#include <string>

#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::decision {

struct OldBody {
  std::optional<double> diameter_mm;
  std::optional<double> height_mm;  ///< of an axial part its length
  std::optional<double> pitch_mm;
  std::string leads;  ///< radial, axial, snap-in, screw, surface-mount, chassis-can; "" = not said
  std::optional<quantities::Celsius> grade;
  std::optional<quantities::Ampere> ripple;

  [[nodiscard]] bool said_nothing() const;
  friend bool operator==(const OldBody&, const OldBody&) = default;
};

/// "" says nothing. Accepted: 0.5 to 200 mm, 40 to 200 degrees, 1 mA to 100 A.
[[nodiscard]] quantities::Result<OldBody> parse_old_body(const std::string& text);

/// What fits in its place: "radial, pitch 5 mm, at most 10 x 16 mm"; the pitch of a radial part
/// that nobody measured follows from its diameter (makers' drawings, from memory: 5 mm 2, 6.3
/// mm 2.5, 8 mm 3.5, 10 and 12.5 mm 5, 16 and 18 mm 7.5). Grade and ripple are told by the part's
/// own words.
[[nodiscard]] std::string fits_in_place_of(const OldBody& body);

}  // namespace dryout::decision
