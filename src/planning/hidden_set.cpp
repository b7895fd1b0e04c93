#include "planning/hidden_set.h"

#include "quantities/check.h"

namespace dryout::planning {
namespace {

double with_odds(double probability, double factor) {
  const double odds_up = probability * factor;
  return odds_up <= 0.0 ? 0.0 : odds_up / (odds_up + 1.0 - probability);
}

/// Multiplies the odds of being in any state but the first.
void make_faulty_likelier(std::vector<double>& row, double factor) {
  const double faulty = 1.0 - row.front();
  if (faulty <= 0.0 || faulty >= 1.0) {
    return;
  }
  const double changed = with_odds(faulty, factor);
  for (double& p : row) {
    p *= changed / faulty;
  }
  row.front() = 1.0 - changed;
}

}  // namespace

std::size_t Dice::one_of(const std::vector<double>& probabilities) {
  double left = unit();
  for (std::size_t i = 0; i < probabilities.size(); ++i) {
    left -= probabilities[i];
    if (left < 0.0) {
      return i;
    }
  }
  return probabilities.size() - 1;  // rounding
}

diagnosis::Network perturb(const diagnosis::Network& network, double odds_factor, Dice& dice) {
  diagnosis::Network world = network;
  const auto toss = [&] { return dice.happens(0.5) ? odds_factor : 1.0 / odds_factor; };
  for (diagnosis::Item& item : world.items) {
    const double factor = toss();
    for (std::vector<double>& row : item.given_level) {
      make_faulty_likelier(row, factor);
    }
  }
  for (diagnosis::Finding& finding : world.findings) {
    finding.leak = with_odds(finding.leak, toss());
    for (diagnosis::Cause& cause : finding.causes) {
      cause.strength = with_odds(cause.strength, toss());
    }
  }
  return world;
}

HiddenSet::HiddenSet(const diagnosis::Network& network, Dice& dice) : network_(&network) {
  std::vector<std::size_t> levels;
  for (const diagnosis::Cohort& cohort : network.cohorts) {
    levels.push_back(dice.one_of(cohort.levels));
  }
  for (const diagnosis::Item& item : network.items) {
    states_.push_back(dice.one_of(item.given_level[item.cohort ? levels[*item.cohort] : 0]));
  }
  for (const diagnosis::Finding& finding : network.findings) {
    std::vector<bool> shown;
    for (const diagnosis::Cause& cause : finding.causes) {
      shown.push_back(dice.happens(cause.strength));
    }
    shown.push_back(dice.happens(finding.leak));
    shown_.push_back(std::move(shown));
  }
}

bool HiddenSet::shows(std::size_t finding) const {
  CHECK(finding < shown_.size());
  const auto& causes = network_->findings[finding].causes;
  for (std::size_t c = 0; c < causes.size(); ++c) {
    if (shown_[finding][c] && states_[causes[c].item] == causes[c].state) {
      return true;
    }
  }
  return shown_[finding].back();
}

}  // namespace dryout::planning
