// Random small troubleshooting problems, the same for a seed on every platform: single faults,
// repairs that fix one or several, some faults without a repair, nested access shared by several
// steps, perfect and unreliable checks. Our own choice of generator, no published source.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "planning/troubleshooting_problem.h"

namespace dryout::planning {

struct ProblemSizes {
  int faults_max = 7, extra_repairs_max = 3, checks_max = 5, access_max = 4;
  double give_up_min = 40.0, give_up_max = 400.0;
};

class RandomProblem {
 public:
  explicit RandomProblem(unsigned seed) : random_(seed) {}

  TroubleshootingProblem make(const ProblemSizes& sizes = {}) {
    problem_ = {};
    const int faults = whole(2, sizes.faults_max);
    for (int f = 0; f < faults; ++f) {
      problem_.faults.push_back({"f" + std::to_string(f), minutes(0.02, 1.0)});
    }
    normalise();
    const int access = whole(0, sizes.access_max);
    for (int a = 0; a < access; ++a) {
      problem_.access.push_back({"a" + std::to_string(a), minutes(1.0, 15.0), {}});
      if (a > 0 && chance(0.5)) {
        problem_.access.back().needs.push_back(static_cast<std::size_t>(whole(0, a - 1)));
      }
    }
    add_repairs(faults, whole(0, sizes.extra_repairs_max));
    const int checks = whole(0, sizes.checks_max);
    for (int c = 0; c < checks; ++c) {
      add_check(c);
    }
    problem_.give_up_minutes = minutes(sizes.give_up_min, sizes.give_up_max);
    return problem_;
  }

  double unit() { return static_cast<double>(random_() >> 11U) * 0x1p-53; }
  bool chance(double p) { return unit() < p; }
  int whole(int low, int high) { return low + static_cast<int>(unit() * (high - low + 1)); }
  /// Log-uniform.
  double minutes(double low, double high) { return low * std::pow(high / low, unit()); }

 private:
  void normalise() {
    double total = 0.0;
    for (const Fault& fault : problem_.faults) {
      total += fault.prior;
    }
    for (Fault& fault : problem_.faults) {
      fault.prior /= total;
    }
  }

  std::vector<std::size_t> some_access() {
    std::vector<std::size_t> found;
    if (!problem_.access.empty() && chance(0.7)) {
      found.push_back(
          static_cast<std::size_t>(whole(0, static_cast<int>(problem_.access.size()) - 1)));
    }
    return found;
  }

  void add_repairs(int faults, int extra) {
    for (int f = 0; f < faults; ++f) {
      if (chance(0.92)) {
        problem_.repairs.push_back({"r" + std::to_string(f),
                                    {static_cast<std::size_t>(f)},
                                    minutes(2.0, 40.0),
                                    some_access()});
      }
    }
    for (int e = 0; e < extra; ++e) {
      Repair group{"g" + std::to_string(e), {}, minutes(5.0, 80.0), some_access()};
      for (int f = 0; f < faults; ++f) {
        if (chance(0.4)) {
          group.fixes.push_back(static_cast<std::size_t>(f));
        }
      }
      problem_.repairs.push_back(group);
    }
  }

  void add_check(int number) {
    Check check{"c" + std::to_string(number), minutes(0.5, 15.0), some_access(), {}, {}};
    const int outcomes = chance(0.75) ? 2 : 3;
    for (int o = 0; o < outcomes; ++o) {
      check.outcomes.push_back("o" + std::to_string(o));
    }
    const double noise = chance(0.4) ? 0.0 : 0.3 * unit();
    for (std::size_t f = 0; f < problem_.faults.size(); ++f) {
      std::vector<double> row(check.outcomes.size(), noise / (outcomes - 1));
      row[static_cast<std::size_t>(whole(0, outcomes - 1))] = 1.0 - noise;
      check.given.push_back(row);
    }
    problem_.checks.push_back(check);
  }

  std::mt19937_64 random_;
  TroubleshootingProblem problem_;
};

}  // namespace dryout::planning
