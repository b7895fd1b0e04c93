#include "readings/loss_fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "priors.h"

namespace dryout::readings {
namespace {

using namespace quantities;  // NOLINT: makers of quantities, in a test

// F. J. Anscombe, "Graphs in statistical analysis", The American Statistician 27 (1973), first
// data set (from memory): y = 3.00 + 0.500 x, standard error of the slope 0.118, residual sum of
// squares 13.75 with 9 degrees of freedom.
TEST(LeastSquares, WorksThePublishedExampleOfASimpleRegression) {
  const std::vector<double> xs{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5};
  const std::vector<double> ys{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68};
  std::vector<std::vector<double>> rows;
  for (const double x : xs) {
    rows.push_back({1.0, x});
  }
  const LeastSquares fit = least_squares(rows, ys);
  ASSERT_EQ(fit.coefficients.size(), 2U);
  EXPECT_NEAR(fit.coefficients[0], 3.0, 0.005);
  EXPECT_NEAR(fit.coefficients[1], 0.5, 0.0005);
  EXPECT_NEAR(fit.residual * fit.residual * 9.0, 13.75, 0.02);
  EXPECT_NEAR(fit.residual * std::sqrt(fit.inverse[3]), 0.118, 0.0005);
  // A new value at the mean of x has the spread s sqrt(1 + 1/n); further out more.
  EXPECT_NEAR(fit.spread_at({1.0, 9.0}), fit.residual * std::sqrt(1.0 + 1.0 / 11.0), 1e-9);
  EXPECT_GT(fit.spread_at({1.0, 30.0}), 2.0 * fit.spread_at({1.0, 9.0}));
}

TEST(LeastSquares, FindsAPlaneExactlyAndSaysWhereThereIsNone) {
  std::vector<std::vector<double>> rows;
  std::vector<double> observed;
  for (int i = 0; i < 9; ++i) {
    const double x = i % 3;
    const double z = i / 3;  // NOLINT: thirds are meant
    rows.push_back({1.0, x, z});
    observed.push_back(2.0 - 3.0 * x + 0.5 * z);
  }
  const LeastSquares fit = least_squares(rows, observed);
  ASSERT_EQ(fit.coefficients.size(), 3U);
  EXPECT_NEAR(fit.coefficients[0], 2.0, 1e-12);
  EXPECT_NEAR(fit.coefficients[1], -3.0, 1e-12);
  EXPECT_NEAR(fit.coefficients[2], 0.5, 1e-12);
  EXPECT_NEAR(fit.residual, 0.0, 1e-9);
  EXPECT_TRUE(least_squares({{1.0, 2.0}, {2.0, 4.0}, {3.0, 6.0}}, {1, 2, 3}).coefficients.empty());
  EXPECT_TRUE(least_squares({{1.0}}, {2.0}).coefficients.empty());
  EXPECT_TRUE(least_squares({}, {}).coefficients.empty());
}

// The constants in loss_fit.cpp come from the rules: whoever adds rows sees here what to put.
TEST(LossFit, TheShippedConstantsAreThoseOfTheShippedRows) {
  const LeastSquares again = fit_loss_step(shipped_knowledge().limits);
  const LeastSquares& shipped = shipped_loss_fit();
  std::printf("loss step, %d rows, spread %.4f:\n  ", again.observations, again.residual);
  for (const double c : again.coefficients) std::printf("%.4f, ", c);
  std::printf("\n  ");
  for (const double c : again.inverse) std::printf("%.5f, ", c);
  std::printf("\n");
  ASSERT_EQ(again.coefficients.size(), shipped.coefficients.size());
  ASSERT_EQ(again.inverse.size(), shipped.inverse.size());
  EXPECT_EQ(again.observations, shipped.observations);
  EXPECT_NEAR(again.residual, shipped.residual, 0.05 * shipped.residual);
  for (std::size_t i = 0; i < again.coefficients.size(); ++i) {
    EXPECT_NEAR(again.coefficients[i], shipped.coefficients[i],
                0.05 * std::abs(shipped.coefficients[i]));
  }
  for (std::size_t i = 0; i < again.inverse.size(); ++i) {
    EXPECT_NEAR(again.inverse[i], shipped.inverse[i], 0.05 * std::abs(shipped.inverse[i]) + 1e-4);
  }
}

TEST(LossFit, RestsOnRowsEnoughAndMissesFewOfThem) {
  const auto points = loss_points(shipped_knowledge().limits);
  EXPECT_GE(points.size(), 25U);
  int within_two = 0;
  for (const LossPoint& point : points) {
    const LossStep step =
        loss_step(*point.row->capacitance, point.row->rated, point.row->body, point.row->grade);
    within_two += std::abs(point.log_ratio - step.log_ratio) < 2.0 * step.log_spread ? 1 : 0;
    EXPECT_LT(std::abs(point.log_ratio - step.log_ratio), 3.0 * step.log_spread) << point.row->id;
  }
  EXPECT_GE(within_two, static_cast<int>(0.9 * static_cast<double>(points.size())));
}

// Rubycon ZL, 10 V: tan delta 0.19, and 0.30 ohm for 100 uF 5 x 11: 2.52 / 0.30 = 8.4. Nichicon
// UPW catalogue CAT.8100N: 0.12 and 0.030 ohm for 1,000 uF 35 V: 5.3 (0.159 / 0.030). Cornell
// Dubilier 381LX: 0.353 ohm at 120 Hz and 0.123 ohm at 20 kHz for 470 uF 450 V: 2.9.
TEST(LossFit, FollowsThePublishedPairs) {
  const auto ratio = [](double uF, double v, Body body, const char* grade) {
    return std::exp(loss_step(microfarads(uF), volts(v), body, grade).log_ratio);
  };
  EXPECT_NEAR(ratio(100, 10, Body::radial, "low-impedance") / 8.4, 1.0, 0.35);
  EXPECT_NEAR(ratio(1000, 35, Body::radial, "low-impedance") / 5.3, 1.0, 0.35);
  EXPECT_NEAR(ratio(470, 450, Body::can, "general") / 2.9, 1.0, 0.35);
}

TEST(LossFit, FallsWithTheValueAndNeverBelowOne) {
  double before = 1e9;
  for (double uF = 1.0; uF < 1e6; uF *= 2.2) {
    const LossStep step = loss_step(microfarads(uF), volts(50.0), Body::radial, "general");
    EXPECT_LE(step.log_ratio, before);
    EXPECT_GE(step.log_ratio, 0.0);
    before = step.log_ratio;
  }
  EXPECT_DOUBLE_EQ(before, 0.0);
}

TEST(LossFit, IsLessSureOutsideTheDataAndWhereLittleIsKnown) {
  const auto spread = [](double uF, double v, Body body, const char* grade) {
    return loss_step(microfarads(uF), volts(v), body, grade).log_spread;
  };
  const double amid = spread(330, 35, Body::radial, "low-impedance");
  EXPECT_GT(amid, 0.2);
  EXPECT_LT(amid, 0.4);
  EXPECT_GT(spread(100000, 35, Body::radial, "low-impedance"), amid);
  EXPECT_GT(spread(0.1, 35, Body::radial, "low-impedance"), amid);
  EXPECT_GT(spread(330, 35, Body::axial, "low-impedance"), amid);
  EXPECT_GT(spread(330, 35, Body::radial, ""), amid);
}

}  // namespace
}  // namespace dryout::readings
