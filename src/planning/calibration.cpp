#include "planning/calibration.h"

#include <algorithm>
#include <cmath>

namespace dryout::planning {

void Calibration::add(double predicted, bool came_true) {
  constexpr double probability_least = 1e-12;
  const double p = std::clamp(predicted, 0.0, 1.0);
  const double miss = (came_true ? 1.0 : 0.0) - p;
  ++count_;
  squares_ += miss * miss;
  logs_ -= std::log(std::max(came_true ? p : 1.0 - p, probability_least));
  const auto tenth = static_cast<std::size_t>(p * static_cast<double>(bins_count));
  Bin& bin = bins_[std::min(tenth, bins_count - 1)];
  ++bin.count;
  bin.predicted_sum += p;
  bin.came_true += came_true ? 1 : 0;
}

double Calibration::brier() const {
  return count_ == 0 ? 0.0 : squares_ / static_cast<double>(count_);
}

double Calibration::log_score() const {
  return count_ == 0 ? 0.0 : logs_ / static_cast<double>(count_);
}

}  // namespace dryout::planning
