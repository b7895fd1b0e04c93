#include "readings/likelihood.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "quantities/check.h"
#include "readings/normal_law.h"

namespace dryout::readings {
namespace {

// The grid of ln(resistance): a milliohm to ten megohms. A step of the meter's own spread
// integrates normal laws of that width to better than 1e-8.
constexpr double log_from = -6.907755278982137;
constexpr double log_to = 16.11809565095832;
constexpr double log_step_max = 0.05;
constexpr double law_reach = 7.0;         // spreads, beyond which a normal law is nothing
constexpr double least_kept = 1e-6;       // of a law: what is cut off whole is no law any more
constexpr double nothing_below = 1e-14;   // of the largest density
constexpr double explained_above = 1e-7;  // density of ln(reading): less is beyond five spreads

double age_of(std::size_t level, std::size_t levels) {
  return levels < 2 ? 0.0 : static_cast<double>(level) / static_cast<double>(levels - 1);
}

double with_slips(double density, double slip) { return (1.0 - slip) * density + slip / slip_span; }

double slip_of(Kind kind) {
  const bool clamped = kind == Kind::capacitance || kind == Kind::dc_resistance ||
                       kind == Kind::dissipation || kind == Kind::leakage_current ||
                       kind == Kind::insulation;
  return clamped ? slip_clamped : slip_probability;
}

}  // namespace

double Cut::kept_at(double x) const {
  const double above = normal_below(offset + slope * x);
  return side == Side::within ? above : 1.0 - above;
}

double ReadingKernel::log_at(std::size_t i) const {
  return log_from + step_ * static_cast<double>(i);
}

/// The first point of the grid at or above a value, kept inside what counts.
std::size_t ReadingKernel::index_of(double log_value) const {
  const double index = std::ceil((log_value - log_from) / step_);
  return static_cast<std::size_t>(
      std::clamp(index, static_cast<double>(first_), static_cast<double>(last_)));
}

ReadingKernel::ReadingKernel(const Setting& setting, const CorrectedReading& reading, double kept)
    : step_(std::min(reading.relative, log_step_max)),
      density_(static_cast<std::size_t>((log_to - log_from) / step_) + 1, 0.0) {
  const double log_value = std::log(reading.value);
  const double own_spread = reading.spread_at(reading.value);
  double highest_expected = 0.0;
  // A law this far off adds nothing, and that is known without a logarithm: what lies a reach
  // times sqrt(2) away by the relative and by the absolute part of the spread, each taken alone,
  // lies beyond the reach by both together.
  constexpr double far = law_reach * std::numbers::sqrt2;
  const double times = std::exp(far * reading.relative);
  const double apart = far * reading.absolute;
  const double too_far_above = std::max(reading.value * times, reading.value + apart);
  const double too_far_below = std::min(reading.value / times, reading.value - apart);
  for (std::size_t i = 0; i < density_.size(); ++i) {
    const double resistance = std::exp(log_at(i));
    for (std::size_t c = 0; c < setting.circuits(); ++c) {
      const double expected = setting.reading(c, resistance, kept);
      highest_expected = std::max(highest_expected, expected);
      if (expected > too_far_above || expected < too_far_below) {
        continue;
      }
      const double spread = reading.spread_between(expected);
      const double log_expected = std::log(expected);
      if (std::abs(log_value - log_expected) < law_reach * spread) {
        const double z = (log_value - log_expected) / spread;
        density_[i] += setting.weight(c) * normal_density(z, 0.0, 1.0) / own_spread;
      }
    }
  }
  too_high_ = reading.value > highest_expected;
  const double highest = *std::max_element(density_.begin(), density_.end());
  const auto counts = [&](double d) { return d > nothing_below * highest; };
  first_ = static_cast<std::size_t>(std::find_if(density_.begin(), density_.end(), counts) -
                                    density_.begin());
  last_ = density_.size() -
          static_cast<std::size_t>(std::find_if(density_.rbegin(), density_.rend(), counts) -
                                   density_.rbegin());
  if (highest > explained_above) {
    total_ = std::accumulate(density_.begin(), density_.end(), 0.0);
  }
}

double ReadingKernel::averaged(double log_median, double log_spread, const Cut& cut) const {
  const std::size_t from = index_of(log_median - law_reach * log_spread);
  const std::size_t to = index_of(log_median + law_reach * log_spread);
  if (from >= to) {
    return 0.0;
  }
  // A normal law on an even grid: each value is the one before times a ratio that itself falls by
  // a constant factor, so no exponential is needed inside the loop.
  const double h = step_ / log_spread;
  const double z = (log_at(from) - log_median) / log_spread;
  double law = normal_density(log_at(from), log_median, log_spread);
  double ratio = std::exp(-h * (z + 0.5 * h));
  const double fall = std::exp(-h * h);
  double sum = 0.0;
  const double* const density = density_.data();
  if (cut.side == Side::either) {
    for (std::size_t i = from; i < to; ++i) {
      sum += density[i] * law;
      law *= ratio;
      ratio *= fall;
    }
    return sum * step_;
  }
  for (std::size_t i = from; i < to; ++i) {
    sum += density[i] * law * cut.kept_at(log_at(i));
    law *= ratio;
    ratio *= fall;
  }
  return sum * step_;
}

double ReadingKernel::exceedance(const BelievedLimit& limit) const {
  if (!explains()) {
    return too_high_ ? 1.0 : 0.0;
  }
  const double log_limit = std::log(limit.median);
  double over = 0.0;
  for (std::size_t i = first_; i < last_; ++i) {
    over += density_[i] * normal_below((log_at(i) - log_limit) / limit.log_spread);
  }
  return std::min(over / total_, 1.0);
}

EsrEvidence::EsrEvidence(const Setting& setting, const CorrectedReading& reading,
                         const BelievedLimit& limit, const Priors& priors, double slip)
    : priors_(priors), limit_(limit), slip_(slip) {
  CHECK(limit.median > 0.0);
  kept_ = {1.0};
  kernels_.emplace_back(setting, reading, 1.0);
  for (const std::string& state : priors_.states) {
    const double kept = capacitance_kept(state);
    auto at = std::find(kept_.begin(), kept_.end(), kept);
    if (at == kept_.end()) {
      kernels_.emplace_back(setting, reading, kept);
      at = kept_.insert(kept_.end(), kept);
    }
    kernel_index_.push_back(static_cast<std::size_t>(at - kept_.begin()));
  }
}

double EsrEvidence::shared_spread() const { return std::hypot(limit_.log_spread, type_log_spread); }

double EsrEvidence::kept_of(const std::string& state, double age) const {
  const StateSpread spread = resistance_spread(state, age);
  const double within =
      normal_below(-std::log(spread.median) / std::hypot(spread.log_spread, type_log_spread));
  switch (side_of(state)) {
    case Side::within:
      return within;
    case Side::beyond:
      return 1.0 - within;
    case Side::either:
      break;
  }
  return 1.0;
}

double EsrEvidence::given(std::size_t state, std::size_t level, double shared) const {
  const std::string& name = priors_.states[state];
  const double age = age_of(level, priors_.levels.size());
  const StateSpread spread = resistance_spread(name, age);
  const double base = is_absolute(name) ? 0.0 : std::log(limit_.median) + shared;
  // What is shared is the limit's error and the type's place below its limit; of the two the limit
  // has the part that goes with its variance, and the rest is left as doubt.
  const double wide = shared_spread();
  const double part = limit_.log_spread / wide;
  const double doubt = limit_.log_spread * type_log_spread / wide;
  const Cut cut{side_of(name), (std::log(limit_.median) + part * part * shared) / doubt,
                -1.0 / doubt};
  const double density = kernels_[kernel_index_[state]].averaged(base + std::log(spread.median),
                                                                 spread.log_spread, cut);
  return with_slips(density / kept_of(name, age), slip_);
}

std::vector<std::vector<double>> EsrEvidence::likelihood() const {
  std::vector<std::vector<double>> rows;
  for (std::size_t level = 0; level < priors_.levels.size(); ++level) {
    const double age = age_of(level, priors_.levels.size());
    rows.emplace_back();
    for (std::size_t state = 0; state < priors_.states.size(); ++state) {
      const std::string& name = priors_.states[state];
      const StateSpread spread = resistance_spread(name, age);
      // Normal laws add up: `shared` is integrated out by widening the state's own spread.
      const double base = is_absolute(name) ? 0.0 : std::log(limit_.median);
      const double wide =
          is_absolute(name) ? spread.log_spread : std::hypot(spread.log_spread, shared_spread());
      // A part far off where its state puts it tells that the limit was believed too low or high:
      // the limit's share of the whole spread goes along with it.
      const double share = limit_.log_spread * limit_.log_spread / (wide * wide);
      const double doubt = limit_.log_spread * std::sqrt(1.0 - share);
      const Cut cut{
          side_of(name),
          (std::log(limit_.median) * (1.0 - share) - share * std::log(spread.median)) / doubt,
          (share - 1.0) / doubt};
      const double density =
          kernels_[kernel_index_[state]].averaged(base + std::log(spread.median), wide, cut);
      rows.back().push_back(with_slips(density / kept_of(name, age), slip_));
    }
  }
  return rows;
}

double EsrEvidence::exceedance() const { return kernels_.front().exceedance(limit_); }

namespace {

/// The end of what a part passes that does not leak by what its state means, softly as far as the
/// limit is only believed and parts need forming.
double share_that_may_be_tight(std::string_view state, const CorrectedReading& reading,
                               const RatioReference& reference) {
  constexpr double forming_log_spread = 0.3;  // judged
  const bool leaks = state == "leaky" || state == "shorted" || state == "seeped" ||
                     (state == "tired" && reference.tired_times > 1.0);
  if (leaks || reference.tight_at_most == 0.0) {
    return 1.0;
  }
  const double spread =
      std::hypot(std::hypot(reference.log_spread, forming_log_spread), reading.log_spread);
  return normal_below(std::log(reference.tight_at_most * reference.value / reading.value) / spread);
}

}  // namespace

std::vector<std::vector<double>> ratio_likelihood(Kind kind, const CorrectedReading& reading,
                                                  const RatioReference& reference,
                                                  const Priors& priors) {
  std::vector<double> row;
  for (const std::string& state : priors.states) {
    const bool closer = reference.sound && state == "sound";
    const StateSpread spread = closer ? *reference.sound : ratio_spread(kind, state);
    double expected = spread.median * reference.value;
    if (side_of(state) == Side::within && state != "leaky") {
      expected *= reference.sound_times;
    }
    if (state == "tired") {
      expected *= reference.tired_times;
    }
    if (reference.parallel) {  // ohms in parallel; farads and amperes add up
      expected = kind == Kind::dc_resistance ? 1.0 / (1.0 / expected + 1.0 / *reference.parallel)
                                             : expected + *reference.parallel;
    }
    const double wide = std::hypot(std::hypot(spread.log_spread, reference.log_spread),
                                   reading.spread_at(expected));
    const double density = normal_density(std::log(reading.value), std::log(expected), wide) *
                           share_that_may_be_tight(state, reading, reference);
    row.push_back(with_slips(density + reference.by_others, slip_of(kind)));
  }
  return std::vector<std::vector<double>>(priors.levels.size(), row);
}

void hold_sound_to(double most_sound, const Priors& priors,
                   std::vector<std::vector<double>>& likelihood) {
  const double sound = posterior_of(priors, likelihood).front();
  if (sound <= most_sound || sound >= 1.0) {
    return;
  }
  const double less = most_sound / (1.0 - most_sound) * (1.0 - sound) / sound;
  for (std::vector<double>& row : likelihood) {
    row.front() *= less;
  }
}

void hold_below_conviction(const Priors& priors, std::vector<std::vector<double>>& likelihood) {
  constexpr double least = 0.15;
  const double sound = posterior_of(priors, likelihood).front();
  if (sound >= least) {
    return;
  }
  const double more = least / (1.0 - least) * (1.0 - sound) / sound;
  for (std::vector<double>& row : likelihood) {
    row.front() *= more;
  }
}

std::vector<double> posterior_of(const Priors& priors,
                                 const std::vector<std::vector<double>>& likelihood) {
  CHECK(likelihood.size() == priors.levels.size());
  std::vector<double> posterior(priors.states.size(), 0.0);
  double total = 0.0;
  for (std::size_t level = 0; level < priors.levels.size(); ++level) {
    for (std::size_t state = 0; state < priors.states.size(); ++state) {
      const double joint =
          priors.levels[level] * priors.given_level[level][state] * likelihood[level][state];
      posterior[state] += joint;
      total += joint;
    }
  }
  for (double& p : posterior) {
    p /= total;
  }
  return posterior;
}

}  // namespace dryout::readings
