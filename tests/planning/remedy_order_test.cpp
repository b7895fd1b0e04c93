#include "planning/remedy_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "invented_sets.h"

namespace dryout::planning {
namespace {

using quantities::minutes;

struct Trials {
  Bench bench;
  std::vector<double> blame;
};

Trials random_trials(unsigned seed, std::size_t size, bool behind_covers) {
  SetInventor random(seed);
  Trials trials;
  trials.bench.access = {{"lid", minutes(random.between(1, 10)), {}},
                         {"shield", minutes(random.between(1, 10)), {0}}};
  for (std::size_t i = 0; i < size; ++i) {
    trials.blame.push_back(random.between(0.0, 0.8));
    std::vector<std::size_t> access;
    if (behind_covers && random.unit() < 0.7) {
      access.push_back(random.unit() < 0.5 ? 0 : 1);
    }
    trials.bench.remedies.push_back({i, minutes(random.between(1, 30)), access});
  }
  trials.bench.give_up = minutes(random.between(20, 400));
  return trials;
}

/// The expected minutes of remedies in this order, giving up after the last.
double minutes_of(const Trials& trials, const std::vector<std::size_t>& order) {
  const RemedyOrder steps(trials.bench);
  std::vector<bool> open = steps.open_now();
  double total = 0.0;
  double fails = 1.0;
  for (const std::size_t r : order) {
    const auto opens = steps.opens(trials.bench.remedies[r].access, open);
    for (const std::size_t step : opens) {
      open[step] = true;
    }
    total +=
        fails * (quantities::in_minutes(trials.bench.remedies[r].effort) + steps.minutes_of(opens));
    fails *= 1.0 - trials.blame[r];
  }
  return total + fails * quantities::in_minutes(trials.bench.give_up);
}

/// The least over every order of every length.
double best_of_all_orders(const Trials& trials) {
  std::vector<std::size_t> order(trials.blame.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  double best = minutes_of(trials, {});
  do {
    for (std::size_t length = 1; length <= order.size(); ++length) {
      const auto end = order.begin() + static_cast<std::ptrdiff_t>(length);
      best = std::min(best, minutes_of(trials, {order.begin(), end}));
    }
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

double ours(const Trials& trials) {
  const RemedyOrder order(trials.bench);
  return order.course(trials.blame, order.open_now()).minutes;
}

// Optimal for independent trials without shared access (Mitten 1960, recalled).
TEST(RemedyOrder, EqualsTheBestOrderWhereNothingIsShared) {
  for (unsigned seed = 1; seed <= 100; ++seed) {
    const auto trials = random_trials(seed, 5, false);
    EXPECT_NEAR(ours(trials), best_of_all_orders(trials), 1e-9) << "seed " << seed;
  }
}

TEST(RemedyOrder, StaysNearTheBestOrderBehindSharedCovers) {
  double sum = 0.0;
  constexpr unsigned count = 200;
  for (unsigned seed = 1; seed <= count; ++seed) {
    const auto trials = random_trials(seed, 5, true);
    const double ratio = ours(trials) / best_of_all_orders(trials);
    EXPECT_GE(ratio, 1.0 - 1e-12);
    EXPECT_LE(ratio, 1.1) << "seed " << seed;
    sum += ratio;
  }
  EXPECT_LE(sum / count, 1.002);
}

TEST(RemedyOrder, OpensWhatIsNeededFirst) {
  Bench bench;
  bench.access = {{"board", minutes(9), {1}}, {"shield", minutes(4), {2}}, {"lid", minutes(1), {}}};
  const RemedyOrder order(bench);
  const std::vector<std::size_t> wanted = {0};
  EXPECT_EQ(order.opens(wanted, {false, false, false}), (std::vector<std::size_t>{2, 1, 0}));
  EXPECT_EQ(order.opens(wanted, {false, false, true}), (std::vector<std::size_t>{1, 0}));
  EXPECT_DOUBLE_EQ(order.minutes_of(order.opens(wanted, {false, false, false})), 14.0);
}

TEST(RemedyOrder, GivesUpWhereNobodyIsToBlame) {
  const auto trials = random_trials(1, 3, false);
  const RemedyOrder order(trials.bench);
  const auto course = order.course({0.0, 0.0, 0.0}, {});
  EXPECT_FALSE(course.first.has_value());
  EXPECT_DOUBLE_EQ(course.minutes, quantities::in_minutes(trials.bench.give_up));
}

}  // namespace
}  // namespace dryout::planning
