#include "diagnosis/unlisted_share.h"

#include <algorithm>
#include <map>

namespace dryout::diagnosis {

StateChances state_chances(const Network& network) {
  StateChances chances;
  for (const Item& item : network.items) {
    std::vector<double> states(item.states.size(), 0.0);
    for (std::size_t level = 0; level < item.given_level.size(); ++level) {
      const double weight = item.cohort ? network.cohorts[*item.cohort].levels[level] : 1.0;
      for (std::size_t s = 0; s < states.size(); ++s) {
        states[s] += weight * item.given_level[level][s];
      }
    }
    chances.push_back(std::move(states));
  }
  return chances;
}

double leak_of_share(const StateChances& chances, const std::vector<Cause>& causes, double share) {
  if (share <= 0.0) {
    return 0.0;  // whoever says so wants it to be there for a listed reason or not at all
  }
  std::map<std::size_t, double> by_item;  // the states of an item exclude each other
  for (const Cause& cause : causes) {
    by_item[cause.item] += chances[cause.item][cause.state] * cause.strength;
  }
  double none = 1.0;
  for (const auto& [item, shows] : by_item) none *= 1.0 - std::min(shows, 1.0);
  constexpr double least = 1e-6;
  return std::max(least, share * (1.0 - none) / (1.0 - share * none));
}

}  // namespace dryout::diagnosis
