#include "casework/blame.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "diagnosis/innocence.h"
#include "diagnosis/posterior.h"
#include "quantities/check.h"
#include "quantities/holds.h"

namespace dryout::casework {
namespace {

using diagnosis::Cause;
using diagnosis::Network;

bool always_innocent(const std::vector<double>& none) {
  return std::all_of(none.begin(), none.end(), [](double p) { return p == 1.0; });
}

/// Findings without evidence say nothing of the rest, and most of a network is such.
void forget_what_was_not_seen(Network& network, const diagnosis::Evidence& evidence) {
  std::vector<bool> seen(network.findings.size());
  for (const std::size_t finding : evidence.present) seen[finding] = true;
  for (const std::size_t finding : evidence.absent) seen[finding] = true;
  for (const diagnosis::SoftFinding& soft : evidence.soft) seen[soft.finding] = true;
  for (std::size_t f = 0; f < seen.size(); ++f) {
    if (!seen[f]) network.findings[f].causes.clear();
  }
}

}  // namespace

Blame::Blame(Network network, const diagnosis::Evidence& evidence,
             std::vector<std::size_t> findings, double log_evidence)
    : network_(std::move(network)),
      evidence_(&evidence),
      findings_(std::move(findings)),
      log_evidence_(log_evidence) {
  for (const std::size_t finding : findings_) {
    CHECK(finding < network_.findings.size());
  }
  forget_what_was_not_seen(network_, evidence);
}

/// P(the item in this state causes none of the findings), per state.
std::vector<double> Blame::innocence(std::size_t item) const {
  std::vector<double> none(network_.items[item].states.size(), 1.0);
  if (findings_.empty()) {
    std::fill(none.begin() + 1, none.end(), 0.0);
  }
  for (const std::size_t finding : findings_) {
    for (const Cause& cause : network_.findings[finding].causes) {
      if (cause.item == item) {
        none[cause.state] *= 1.0 - cause.strength;
      }
    }
  }
  return none;
}

double Blame::beforehand(std::size_t item, const std::vector<double>& prior) const {
  const std::vector<double> none = innocence(item);
  double some = 0.0;
  for (std::size_t state = 0; state < none.size(); ++state) {
    some += prior[state] * (1.0 - none[state]);
  }
  return std::clamp(some, 0.0, 1.0);
}

double Blame::of(const std::vector<std::size_t>& items) {
  return std::clamp(1.0 - blameless(items), 0.0, 1.0);
}

std::vector<double> Blame::of_each() {
  const auto innocent = diagnosis::innocence_of_each(network_, *evidence_, findings_);
  std::vector<double> blame;
  for (std::size_t item = 0; item < network_.items.size(); ++item) {
    const bool known = innocent.ok() && !findings_.empty() && (*innocent)[item].has_value();
    blame.push_back(known ? std::clamp(1.0 - *(*innocent)[item], 0.0, 1.0) : of({item}));
  }
  return blame;
}

double Blame::blameless(const std::vector<std::size_t>& items) {
  diagnosis::Evidence evidence = *evidence_;
  bool involved = false;
  for (const std::size_t item : items) {
    std::vector<double> none = innocence(item);
    if (!always_innocent(none)) {
      evidence.readings.push_back({item, {std::move(none)}});
      involved = true;
    }
  }
  if (!involved) {
    return 1.0;
  }
  std::vector<std::vector<Cause>> kept;
  for (const std::size_t finding : findings_) {
    auto& causes = network_.findings[finding].causes;
    kept.push_back(causes);
    std::erase_if(causes, [&](const Cause& cause) { return quantities::holds(items, cause.item); });
  }
  const auto posterior = diagnosis::infer(network_, evidence);
  for (std::size_t i = 0; i < findings_.size(); ++i) {
    network_.findings[findings_[i]].causes = std::move(kept[i]);
  }
  // A problem here means probability zero: without these items it cannot have happened.
  return posterior ? std::exp(posterior->log_evidence - log_evidence_) : 0.0;
}

}  // namespace dryout::casework
