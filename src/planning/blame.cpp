#include "planning/blame.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "quantities/check.h"

namespace dryout::planning {
namespace {

using diagnosis::Cause;
using diagnosis::Finding;
using diagnosis::Item;
using diagnosis::Network;
using diagnosis::Posterior;

/// P(state) before the complaint, at what is now believed of the cohort's ageing.
double before(const Item& item, std::size_t state, const Posterior& now) {
  if (!item.cohort) {
    return item.given_level.front()[state];
  }
  const auto& levels = now.cohorts[*item.cohort];
  double p = 0.0;
  for (std::size_t level = 0; level < levels.size(); ++level) {
    p += levels[level] * item.given_level[level][state];
  }
  return p;
}

std::vector<std::size_t> surely_present(const Posterior& now) {
  std::vector<std::size_t> found;
  for (std::size_t f = 0; f < now.findings.size(); ++f) {
    if (now.findings[f] >= 1.0) {
      found.push_back(f);
    }
  }
  return found;
}

/// For each item that can show the finding, P(the leak and all other items stay silent). Products
/// from both ends, because dividing one factor out fails where it is zero.
std::map<std::size_t, double> others_silent(const Network& network, const Finding& finding,
                                            const Posterior& now) {
  std::map<std::size_t, double> shows;
  for (const Cause& cause : finding.causes) {
    shows[cause.item] += cause.strength * before(network.items[cause.item], cause.state, now);
  }
  std::map<std::size_t, double> silent;
  double so_far = 1.0 - finding.leak;
  for (const auto& [item, p] : shows) {
    silent[item] = so_far;
    so_far *= 1.0 - std::min(p, 1.0);
  }
  so_far = 1.0;
  for (auto entry = shows.rbegin(); entry != shows.rend(); ++entry) {
    silent[entry->first] *= so_far;
    so_far *= 1.0 - std::min(entry->second, 1.0);
  }
  return silent;
}

}  // namespace

LinearBlame::LinearBlame(const Network& network, const Posterior& now,
                         std::vector<std::size_t> complaint)
    : network_(&network) {
  if (complaint.empty()) {
    complaint = surely_present(now);
  }
  for (const Item& item : network.items) {
    factors_.emplace_back(item.states.size(), complaint.empty() ? 1.0 : 0.0);
  }
  for (const std::size_t finding : complaint) {
    CHECK(finding < network.findings.size());
    add_finding(network.findings[finding], now);
  }
}

void LinearBlame::add_finding(const Finding& finding, const Posterior& now) {
  const auto silent = others_silent(*network_, finding, now);
  for (const Cause& cause : finding.causes) {
    if (cause.strength > 0.0) {
      const double its_doing =
          cause.strength / (1.0 - (1.0 - cause.strength) * silent.at(cause.item));
      double& factor = factors_[cause.item][cause.state];
      factor = 1.0 - (1.0 - factor) * (1.0 - its_doing);
    }
  }
}

bool LinearBlame::alike(std::size_t item, std::size_t other) const {
  constexpr double rounding = 1e-12;
  return std::equal(factors_[item].begin(), factors_[item].end(), factors_[other].begin(),
                    factors_[other].end(),
                    [](double a, double b) { return std::abs(a - b) <= rounding; });
}

std::vector<double> LinearBlame::of_all(const std::vector<std::vector<double>>& posteriors) const {
  std::vector<double> blame;
  blame.reserve(posteriors.size());
  for (std::size_t item = 0; item < posteriors.size(); ++item) {
    blame.push_back(of(item, posteriors[item]));
  }
  return blame;
}

}  // namespace dryout::planning
