#include "readings/cohort.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "quantities/check.h"
#include "readings/normal_law.h"

namespace dryout::readings {
namespace {

// A grid no coarser than this integrates a sound state's own spread of 0.22 to better than 1e-6.
constexpr double step_max = 0.26;
constexpr double reach = 3.5;  // spreads to either side

struct SharedGrid {
  std::vector<double> points;
  std::vector<double> weights;  // sum to 1
};

SharedGrid grid_of(double spread) {
  const auto half = static_cast<int>(std::ceil(reach * spread / step_max));
  SharedGrid grid;
  double total = 0.0;
  for (int i = -half; i <= half; ++i) {
    grid.points.push_back(reach * spread * i / half);
    grid.weights.push_back(normal_density(grid.points.back(), 0.0, spread));
    total += grid.weights.back();
  }
  for (double& weight : grid.weights) {
    weight /= total;
  }
  return grid;
}

/// All p(reading | state, level, shared) of a set of brothers, and the mixtures over states.
class JointTable {
 public:
  JointTable(const std::vector<EsrEvidence>& readings, const Priors& priors)
      : priors_(priors), grid_(grid_of(readings.front().shared_spread())) {
    for (const EsrEvidence& reading : readings) {
      given_.push_back(tabulate(reading));
      mixed_.push_back(mix(given_.back()));
    }
  }

  [[nodiscard]] std::size_t cells() const { return priors_.levels.size() * grid_.points.size(); }
  [[nodiscard]] std::size_t level_of(std::size_t cell) const { return cell / grid_.points.size(); }
  [[nodiscard]] double shared_of(std::size_t cell) const {
    return grid_.points[cell % grid_.points.size()];
  }

  /// P(level, shared) times what the readings say, `left_out` not counted; not normalised.
  [[nodiscard]] std::vector<double> cell_weights(std::vector<std::size_t> left_out) const {
    std::vector<double> weights(cells());
    for (std::size_t cell = 0; cell < cells(); ++cell) {
      double weight = priors_.levels[level_of(cell)] * grid_.weights[cell % grid_.points.size()];
      for (std::size_t r = 0; r < mixed_.size(); ++r) {
        if (std::find(left_out.begin(), left_out.end(), r) == left_out.end()) {
          weight *= mixed_[r][cell];
        }
      }
      weights[cell] = weight;
    }
    return weights;
  }

  /// P(state of one part | its own reading and the others but `left_out`).
  [[nodiscard]] std::vector<double> posterior(std::size_t part,
                                              std::optional<std::size_t> left_out = {}) const {
    std::vector<std::size_t> out{part};
    if (left_out) {
      out.push_back(*left_out);
    }
    const std::vector<double> weights = cell_weights(out);
    std::vector<double> states(priors_.states.size(), 0.0);
    double total = 0.0;
    for (std::size_t cell = 0; cell < cells(); ++cell) {
      for (std::size_t s = 0; s < states.size(); ++s) {
        const double joint = weights[cell] * priors_.given_level[level_of(cell)][s] *
                             given_[part][cell * states.size() + s];
        states[s] += joint;
        total += joint;
      }
    }
    for (double& state : states) {
      state /= total;
    }
    return states;
  }

  /// P(reading | level, state), the type's resistance as the other readings leave it.
  [[nodiscard]] std::vector<std::vector<double>> among_others(std::size_t part) const {
    const std::size_t states = priors_.states.size();
    const std::vector<double> told = cell_weights({part});
    std::vector<std::vector<double>> rows;
    for (std::size_t level = 0; level < priors_.levels.size(); ++level) {
      std::vector<double> row(states, 0.0);
      double weight = 0.0, alone = 0.0, among = 0.0;
      for (std::size_t point = 0; point < grid_.points.size(); ++point) {
        const std::size_t cell = level * grid_.points.size() + point;
        weight += told[cell];
        for (std::size_t s = 0; s < states; ++s) {
          row[s] += told[cell] * given_[part][cell * states + s];
        }
        alone += grid_.weights[point] * mixed_[part][cell];
        among += told[cell] * mixed_[part][cell];
      }
      if (!(weight > 0.0) || !(among > 0.0)) {
        return {};  // a level that the others rule out: nothing can be said of it
      }
      // row / weight, times what the level weighs by the reading alone over what it would now.
      for (double& density : row) {
        density *= alone / among;
      }
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  [[nodiscard]] std::vector<double> tabulate(const EsrEvidence& reading) const {
    std::vector<double> table;
    for (std::size_t cell = 0; cell < cells(); ++cell) {
      for (std::size_t s = 0; s < priors_.states.size(); ++s) {
        table.push_back(reading.given(s, level_of(cell), shared_of(cell)));
      }
    }
    return table;
  }
  [[nodiscard]] std::vector<double> mix(const std::vector<double>& given) const {
    const std::size_t states = priors_.states.size();
    std::vector<double> mixed(cells(), 0.0);
    for (std::size_t cell = 0; cell < cells(); ++cell) {
      for (std::size_t s = 0; s < states; ++s) {
        mixed[cell] += priors_.given_level[level_of(cell)][s] * given[cell * states + s];
      }
    }
    return mixed;
  }

  const Priors& priors_;
  SharedGrid grid_;
  std::vector<std::vector<double>> given_;  // [reading][cell * states + state]
  std::vector<std::vector<double>> mixed_;  // [reading][cell]
};

double median_of_others(const std::vector<double>& values, std::size_t left_out) {
  std::vector<double> others;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (i != left_out || values.size() == 1) {
      others.push_back(values[i]);
    }
  }
  std::sort(others.begin(), others.end());
  const std::size_t half = others.size() / 2;
  return others.size() % 2 == 1 ? others[half] : std::sqrt(others[half - 1] * others[half]);
}

}  // namespace

double times_median_of_others(const std::vector<double>& values, std::size_t which) {
  return values[which] / median_of_others(values, which);
}

namespace {

double odds_not_sound(const std::vector<double>& posterior) {
  return (1.0 - posterior.front()) / posterior.front();
}

/// Levels and the type's typical resistance, given every reading.
void summarise(const JointTable& table, const Priors& priors, CohortAssessment& answer) {
  const std::vector<double> weights = table.cell_weights({});
  answer.levels.assign(priors.levels.size(), 0.0);
  double total = 0.0;
  double mean = 0.0;
  double square = 0.0;
  for (std::size_t cell = 0; cell < table.cells(); ++cell) {
    const double shared = table.shared_of(cell);
    answer.levels[table.level_of(cell)] += weights[cell];
    total += weights[cell];
    mean += weights[cell] * shared;
    square += weights[cell] * shared * shared;
  }
  for (double& level : answer.levels) {
    level /= total;
  }
  mean /= total;
  answer.typical_factor = std::exp(mean);
  answer.typical_log_spread = std::sqrt(std::max(square / total - mean * mean, 0.0));
}

}  // namespace

CohortAssessment assess_cohort(const std::vector<EsrEvidence>& readings,
                               const std::vector<double>& values, const Priors& priors) {
  CHECK(!readings.empty());
  CHECK(readings.size() == values.size());
  const JointTable table(readings, priors);
  CohortAssessment answer;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    Brother brother;
    brother.value = values[r];
    brother.posterior = table.posterior(r);
    brother.times_median = times_median_of_others(values, r);
    const double times = std::max(brother.times_median, 1.0 / brother.times_median);
    brother.outlier = values.size() > 1 && times >= outlier_times;
    if (r > 0) {
      const double with_it = odds_not_sound(table.posterior(0));
      const double without_it = odds_not_sound(table.posterior(0, r));
      brother.weight_on_first = 10.0 * std::log10(with_it / without_it);
    }
    answer.brothers.push_back(std::move(brother));
  }
  answer.likelihood = table.among_others(0);
  summarise(table, priors, answer);
  return answer;
}

}  // namespace dryout::readings
