#include "diagnosis/posterior_draws.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "diagnosis/inference.h"
#include "quantities/patience.h"

namespace dryout::diagnosis {
namespace {

constexpr std::uint64_t seed = 1;
constexpr double doubt = 0.01;  ///< how often the truth may lie outside

/// Maurer and Pontil, for values within a range of 1.
double half_width(double variance, std::size_t count) {
  const double logs = std::log(4.0 / doubt);
  const auto n = static_cast<double>(count);
  return std::sqrt(2.0 * variance * logs / n) + 7.0 * logs / (3.0 * (n - 1.0));
}

/// The tangents at their best: each touches where its sum is expected, which makes the bound
/// smallest. Some rounds from a first guess come close enough; the smallest bound met is kept, and
/// each round goes half the way (of logarithms), for the full way can swing to and fro.
std::vector<Tangent> fit_tangents(const Network& network, const Evidence& evidence,
                                  const std::vector<std::size_t>& findings) {
  constexpr int rounds = 6;
  double least = std::numeric_limits<double>::infinity();
  std::vector<Tangent> best;
  std::vector<Tangent> aside;
  aside.reserve(findings.size());
  for (const std::size_t finding : findings) {
    aside.push_back(Tangent::at(finding, 1.0));
  }
  for (int round = 0; round < rounds && !aside.empty(); ++round) {
    const WithoutThem left = without(network, evidence, aside);
    const FoldedEvidence folded = fold_evidence(network, left.evidence);
    if (!folded.possible) {
      break;
    }
    const DrawOrder order = order_for_draws(folded);
    DrawSweep sweep(folded, order);
    if (!sweep.sound()) {
      break;
    }
    if (const double bound = sweep.log_evidence() + left.log_factor; bound < least) {
      least = bound;
      best = aside;
    }
    (void)sweep.draw(0, seed);
    for (Tangent& tangent : aside) {
      const double expected = expected_sum(network, tangent, sweep.items());
      tangent = Tangent::at(tangent.finding,
                            round == 0 ? expected : std::sqrt(expected * tangent.touches));
    }
  }
  return best.empty() ? aside : best;
}

}  // namespace

PosteriorDraws::PosteriorDraws(const Network& network, const Evidence& evidence)
    : network_(&network), evidence_(&evidence) {
  for (const Item& item : network.items) {
    doings_.emplace_back(item.states.size());
  }
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    for (const Cause& cause : network.findings[f].causes) {
      doings_[cause.item][cause.state].push_back({f, 1.0 - cause.strength});
    }
  }
}

quantities::Result<PosteriorDraws> PosteriorDraws::draw(const Network& network,
                                                        const Evidence& evidence,
                                                        const DrawEffort& effort) {
  PosteriorDraws draws(network, evidence);
  draws.aside_ =
      fit_tangents(network, evidence, findings_to_set_aside(network, evidence, effort.cells_max));
  const WithoutThem left = without(network, evidence, draws.aside_);
  const FoldedEvidence folded = fold_evidence(network, left.evidence);
  if (!folded.possible) {
    return contradiction(network, evidence);
  }
  const DrawOrder order = order_for_draws(folded);
  constexpr double cells_most = 1.0e8;
  if (order.cells > cells_most) {
    return quantities::Problem{"the observations hang together too closely",
                               {},
                               std::to_string(folded.shared.size()) + " of them",
                               "fewer uncertain observations"};
  }
  DrawSweep sweep(folded, order);
  if (!sweep.sound()) {
    return draws.aside_.empty() ? contradiction(network, evidence) : out_of_range();
  }
  draws.drawn_ = sweep.draw(effort.draws, seed);
  draws.weigh();
  if (draws.weights_.empty()) {
    return out_of_range();
  }
  draws.estimate_posterior(sweep);
  draws.posterior_.log_evidence += left.log_factor;
  return draws;
}

void PosteriorDraws::find_silence(std::size_t draw, std::vector<double>& silence) const {
  silence.resize(network_->findings.size());
  for (std::size_t f = 0; f < silence.size(); ++f) {
    silence[f] = 1.0 - network_->findings[f].leak;
  }
  const std::span<const std::uint16_t> states = this->states(draw);
  for (std::size_t item = 0; item < states.size(); ++item) {
    for (const Doing& doing : doings_[item][states[item]]) {
      silence[doing.finding] *= doing.silent;
    }
  }
}

void PosteriorDraws::find_absence(std::size_t draw, std::vector<double>& absence) const {
  find_silence(draw, absence);
  for (const SoftFinding& soft : evidence_->soft) {
    const double absent = soft.if_absent * absence[soft.finding];
    const double present = soft.if_present * (1.0 - absence[soft.finding]);
    absence[soft.finding] = absent / (absent + present);
  }
  for (const std::size_t finding : evidence_->present) {
    absence[finding] = 0.0;
  }
  for (const std::size_t finding : evidence_->absent) {
    absence[finding] = 1.0;
  }
}

/// P(present) over its bound, for the findings set aside: at most 1. None where all are zero.
void PosteriorDraws::weigh() {
  weights_.assign(drawn_.count, 1.0);
  for (const Tangent& tangent : aside_) {
    const Finding& finding = network_->findings[tangent.finding];
    std::vector<std::vector<double>> sums(network_->items.size());
    std::vector<std::vector<double>> silences(network_->items.size());
    std::vector<std::size_t> items;
    for (const Cause& cause : finding.causes) {
      if (sums[cause.item].empty()) {
        sums[cause.item].resize(network_->items[cause.item].states.size(), 0.0);
        silences[cause.item].resize(network_->items[cause.item].states.size(), 1.0);
        items.push_back(cause.item);
      }
      sums[cause.item][cause.state] += tangent.of_strength(cause.strength);
      silences[cause.item][cause.state] *= 1.0 - cause.strength;
    }
    for (std::size_t n = 0; n < drawn_.count; ++n) {
      const std::span<const std::uint16_t> states = this->states(n);
      double sum = tangent.of_strength(finding.leak);
      double silence = 1.0 - finding.leak;
      for (const std::size_t item : items) {
        sum += sums[item][states[item]];
        silence *= silences[item][states[item]];
      }
      weights_[n] *= (1.0 - silence) * std::exp(-tangent.log_bound(sum));
    }
  }
  double total = 0.0;
  for (const double weight : weights_) {
    total += weight;
  }
  if (!(total > 0.0)) {
    weights_.clear();
    return;
  }
  log_mean_weight_ = std::log(total / static_cast<double>(drawn_.count));
  for (double& weight : weights_) {
    weight /= total;
  }
}

Estimate PosteriorDraws::average(std::span<const double> values) const {
  Estimate estimate;
  for (std::size_t n = 0; n < weights_.size(); ++n) {
    estimate.value += weights_[n] * values[n];
  }
  // The average is a ratio of two means; its error is the mean of weight times what is off, which
  // lies within a range of 1 over the mean weight.
  const auto count = static_cast<double>(weights_.size());
  double squares = 0.0;
  for (std::size_t n = 0; n < weights_.size(); ++n) {
    const double off = weights_[n] * (values[n] - estimate.value);
    squares += off * off;
  }
  const double range = std::exp(-log_mean_weight_);
  const double variance = squares * count * count / (count - 1.0);
  estimate.within = std::min(1.0, range * half_width(variance / (range * range), weights_.size()));
  return estimate;
}

void PosteriorDraws::estimate_posterior(const DrawSweep& sweep) {
  posterior_.items = sweep.items();
  posterior_.cohorts = sweep.cohorts();
  posterior_.log_evidence = sweep.log_evidence() + log_mean_weight_;
  posterior_.findings.assign(network_->findings.size(), 0.0);
  std::vector<double> absence;
  for (std::size_t n = 0; n < size(); ++n) {
    quantities::rest();
    find_absence(n, absence);
    for (std::size_t f = 0; f < absence.size(); ++f) {
      posterior_.findings[f] += weights_[n] * (1.0 - absence[f]);
    }
  }
  for (const std::size_t finding : evidence_->present) {
    posterior_.findings[finding] = 1.0;  // not the rounding of a sum
  }
  if (aside_.empty()) {
    return;
  }
  std::vector<double> in_state(size());
  for (std::size_t item = 0; item < network_->items.size(); ++item) {
    for (std::size_t state = 0; state < posterior_.items[item].size(); ++state) {
      for (std::size_t n = 0; n < size(); ++n) {
        in_state[n] = states(n)[item] == state ? 1.0 : 0.0;
      }
      const Estimate estimate = average(in_state);
      posterior_.items[item][state] = estimate.value;
      within_ = std::max(within_, estimate.within);
    }
  }
  for (std::size_t cohort = 0; cohort < network_->cohorts.size(); ++cohort) {
    std::fill(posterior_.cohorts[cohort].begin(), posterior_.cohorts[cohort].end(), 0.0);
    for (std::size_t n = 0; n < size(); ++n) {
      posterior_.cohorts[cohort][level(n, cohort)] += weights_[n];
    }
  }
}

}  // namespace dryout::diagnosis
