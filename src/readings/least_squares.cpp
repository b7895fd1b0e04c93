#include "readings/least_squares.h"

#include <cmath>
#include <utility>

namespace dryout::readings {

namespace {

constexpr double singular = 1e-12;

/// Inverts a square matrix, row by row in one vector, in place of `unit`; false where it has none.
bool invert(std::vector<double> matrix, std::vector<double>& unit, std::size_t n) {
  for (std::size_t column = 0; column < n; ++column) {
    std::size_t pivot = column;
    for (std::size_t row = column + 1; row < n; ++row) {
      if (std::abs(matrix[row * n + column]) > std::abs(matrix[pivot * n + column])) {
        pivot = row;
      }
    }
    const double at_pivot = matrix[pivot * n + column];
    if (std::abs(at_pivot) < singular) {
      return false;
    }
    for (std::size_t k = 0; k < n; ++k) {
      std::swap(matrix[column * n + k], matrix[pivot * n + k]);
      std::swap(unit[column * n + k], unit[pivot * n + k]);
      matrix[column * n + k] /= at_pivot;
      unit[column * n + k] /= at_pivot;
    }
    for (std::size_t row = 0; row < n; ++row) {
      const double factor = row == column ? 0.0 : matrix[row * n + column];
      for (std::size_t k = 0; k < n && factor != 0.0; ++k) {
        matrix[row * n + k] -= factor * matrix[column * n + k];
        unit[row * n + k] -= factor * unit[column * n + k];
      }
    }
  }
  return true;
}

}  // namespace

double LeastSquares::value_at(const std::vector<double>& regressors) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < coefficients.size(); ++i) {
    sum += coefficients[i] * regressors[i];
  }
  return sum;
}

double LeastSquares::spread_at(const std::vector<double>& regressors) const {
  const std::size_t n = coefficients.size();
  double leverage = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      leverage += regressors[i] * inverse[i * n + j] * regressors[j];
    }
  }
  return residual * std::sqrt(1.0 + leverage);
}

LeastSquares least_squares(const std::vector<std::vector<double>>& regressors,
                           const std::vector<double>& observed) {
  LeastSquares fit;
  fit.observations = static_cast<int>(observed.size());
  const std::size_t n = regressors.empty() ? 0 : regressors.front().size();
  if (n == 0 || observed.size() <= n) {
    return fit;
  }
  std::vector<double> normal(n * n, 0.0);
  std::vector<double> right(n, 0.0);
  for (std::size_t row = 0; row < observed.size(); ++row) {
    for (std::size_t i = 0; i < n; ++i) {
      right[i] += regressors[row][i] * observed[row];
      for (std::size_t j = 0; j < n; ++j) {
        normal[i * n + j] += regressors[row][i] * regressors[row][j];
      }
    }
  }
  std::vector<double> inverse(n * n, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    inverse[i * n + i] = 1.0;
  }
  if (!invert(std::move(normal), inverse, n)) {
    return fit;
  }
  fit.coefficients.assign(n, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      fit.coefficients[i] += inverse[i * n + j] * right[j];
    }
  }
  double squares = 0.0;
  for (std::size_t row = 0; row < observed.size(); ++row) {
    const double miss = observed[row] - fit.value_at(regressors[row]);
    squares += miss * miss;
  }
  fit.residual = std::sqrt(squares / static_cast<double>(observed.size() - n));
  fit.inverse = std::move(inverse);
  return fit;
}

}  // namespace dryout::readings
