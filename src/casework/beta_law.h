// The Beta law: what is believed of a share after some yeses and noes.
#pragma once

namespace dryout::casework {

/// P(share <= x) under Beta(a, b); a and b above zero, x from 0 to 1. The continued fraction of
/// the incomplete beta function (NIST Digital Library of Mathematical Functions, 8.17.22).
[[nodiscard]] double beta_below(double x, double a, double b);

/// The share below which it lies with probability p (0 < p < 1).
[[nodiscard]] double beta_quantile(double p, double a, double b);

}  // namespace dryout::casework
