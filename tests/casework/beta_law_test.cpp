#include "casework/beta_law.h"

#include <gtest/gtest.h>

#include <cmath>

namespace dryout::casework {
namespace {

/// Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 2.4: 437 girls among 980 births,
/// flat prior, so Beta(438, 544). Digits as SciPy gives them, published in O. Lalten's commentary
/// on the book's demonstrations (lalten.org, "binomial_grid").
TEST(BetaLaw, AgreesWithThePublishedExampleOfBirths) {
  EXPECT_NEAR(beta_quantile(0.025, 438.0, 544.0), 0.41506549, 1e-8);
  EXPECT_NEAR(beta_quantile(0.975, 438.0, 544.0), 0.47719977, 1e-8);
}

/// Closed forms: Beta(a, 1) is x^a, Beta(1, b) is 1 - (1 - x)^b, and Beta(2, 2) is 3x^2 - 2x^3
/// (NIST Digital Library of Mathematical Functions, 8.17(ii)).
TEST(BetaLaw, AgreesWithItsClosedForms) {
  for (double x = 0.01; x < 1.0; x += 0.07) {
    EXPECT_NEAR(beta_below(x, 7.0, 1.0), std::pow(x, 7.0), 1e-13);
    EXPECT_NEAR(beta_below(x, 1.0, 900.0), 1.0 - std::pow(1.0 - x, 900.0), 1e-12);
    EXPECT_NEAR(beta_below(x, 2.0, 2.0), 3.0 * x * x - 2.0 * x * x * x, 1e-13);
    EXPECT_NEAR(beta_below(x, 0.5, 0.5), 2.0 / M_PI * std::asin(std::sqrt(x)), 1e-12);
  }
}

TEST(BetaLaw, AQuantileGoesBackToItsProbability) {
  for (const double a : {1.0, 3.5, 400.0, 90'000.0}) {
    for (const double b : {1.0, 20.0, 10'000.0}) {
      for (const double p : {0.05, 0.5, 0.95}) {
        EXPECT_NEAR(beta_below(beta_quantile(p, a, b), a, b), p, 1e-9) << a << ' ' << b;
      }
    }
  }
  EXPECT_EQ(beta_below(-1.0, 2.0, 3.0), 0.0);
  EXPECT_EQ(beta_below(2.0, 2.0, 3.0), 1.0);
}

}  // namespace
}  // namespace dryout::casework
