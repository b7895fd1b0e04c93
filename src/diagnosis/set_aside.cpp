#include "diagnosis/set_aside.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "diagnosis/draw_order.h"
#include "quantities/holds.h"

namespace dryout::diagnosis {
namespace {

/// The reported finding that most hot items can explain; `none` where there is none that could be
/// set aside. Soft evidence stays where it is.
std::size_t widest(const FoldedEvidence& folded, const Evidence& evidence) {
  std::vector<std::size_t> items(folded.shared.size(), 0);
  for (Index item = 0; item < folded.network->items.size(); ++item) {
    std::vector<Index> seen;
    for (Index k = folded.first_link[item]; k < folded.first_link[item + 1]; ++k) {
      if (!quantities::holds(seen, folded.links[k].shared)) {
        seen.push_back(folded.links[k].shared);
        ++items[folded.links[k].shared];
      }
    }
  }
  std::size_t best = none;
  std::size_t most = 0;
  for (std::size_t s = 0; s < items.size(); ++s) {
    const std::size_t finding = folded.shared[s].finding;
    const bool is_soft =
        std::any_of(evidence.soft.begin(), evidence.soft.end(),
                    [finding](const SoftFinding& soft) { return soft.finding == finding; });
    if (!is_soft && quantities::holds(evidence.present, finding) && items[s] > most) {
      most = items[s];
      best = finding;
    }
  }
  return best;
}

}  // namespace

Tangent Tangent::at(std::size_t finding, double touches) {
  constexpr double least = 1e-3;
  constexpr double most = 30.0;  // beyond, the finding is as good as certain
  Tangent tangent;
  tangent.finding = finding;
  tangent.touches = std::clamp(touches, least, most);
  tangent.slope = 1.0 / std::expm1(tangent.touches);
  tangent.most = tangent.touches - std::log(-std::expm1(-tangent.touches)) / tangent.slope;
  return tangent;
}

double Tangent::of_strength(double strength) const {
  return strength >= 1.0 ? most : std::min(-std::log1p(-strength), most);
}

double Tangent::log_bound(double s) const {
  return std::log(-std::expm1(-touches)) + slope * (s - touches);
}

WithoutThem without(const Network& network, const Evidence& evidence,
                    const std::vector<Tangent>& aside) {
  WithoutThem left{evidence, 0.0};
  std::map<std::size_t, std::vector<double>> logs;  // [item][state]
  for (const Tangent& tangent : aside) {
    const Finding& finding = network.findings[tangent.finding];
    std::erase(left.evidence.present, tangent.finding);
    left.log_factor += tangent.log_bound(tangent.of_strength(finding.leak));
    for (const Cause& cause : finding.causes) {
      auto& log = logs[cause.item];
      log.resize(network.items[cause.item].states.size(), 0.0);
      log[cause.state] += tangent.slope * tangent.of_strength(cause.strength);
    }
  }
  for (auto& [item, log] : logs) {
    // Only ratios count; the largest is 1, so that nothing overflows.
    const double largest = *std::max_element(log.begin(), log.end());
    left.log_factor += largest;
    std::vector<double> likelihood;
    for (const double each : log) {
      likelihood.push_back(std::exp(each - largest));
    }
    left.evidence.readings.push_back({item, {std::move(likelihood)}});
  }
  return left;
}

double expected_sum(const Network& network, const Tangent& tangent,
                    const std::vector<std::vector<double>>& items) {
  const Finding& finding = network.findings[tangent.finding];
  double sum = tangent.of_strength(finding.leak);
  for (const Cause& cause : finding.causes) {
    sum += tangent.of_strength(cause.strength) * items[cause.item][cause.state];
  }
  return sum;
}

std::vector<std::size_t> findings_to_set_aside(const Network& network, const Evidence& evidence,
                                               double cells_max) {
  std::vector<std::size_t> aside;
  Evidence left = evidence;
  for (;;) {
    const FoldedEvidence folded = fold_evidence(network, left);
    if (!folded.possible || order_for_draws(folded).cells <= cells_max) {
      return aside;
    }
    const std::size_t next = widest(folded, left);
    if (next == none) {
      return aside;
    }
    aside.push_back(next);
    std::erase(left.present, next);
  }
}

}  // namespace dryout::diagnosis
