// Ordinary least squares with several regressors, small enough to do by normal equations.
#pragma once

#include <vector>

namespace dryout::readings {

struct LeastSquares {
  std::vector<double> coefficients;
  /// (X^T X)^-1, row by row: times the residual variance it is the covariance of the coefficients.
  std::vector<double> inverse;
  double residual = 0.0;  ///< standard deviation about the fit: sqrt(sum of squares / (n - k))
  int observations = 0;

  /// Standard deviation of one new observation at these regressors: residual sqrt(1 + x^T inverse
  /// x) (the prediction interval of any text on regression). It grows away from the data.
  [[nodiscard]] double spread_at(const std::vector<double>& regressors) const;
  [[nodiscard]] double value_at(const std::vector<double>& regressors) const;
};

/// One row of regressors an observation, all of one length; a constant is a regressor of 1. No
/// coefficients come back where there are no more observations than regressors or where the
/// regressors depend on each other.
[[nodiscard]] LeastSquares least_squares(const std::vector<std::vector<double>>& regressors,
                                         const std::vector<double>& observed);

}  // namespace dryout::readings
