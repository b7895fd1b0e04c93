#include "planning/next_step.h"

#include <algorithm>

#include "planning/blame.h"
#include "planning/remedy_order.h"

namespace dryout::planning {

bool is_convinced(const diagnosis::Network& network, const diagnosis::Posterior& now,
                  const Bench& bench) {
  const LinearBlame blame(network, now, bench.complaint);
  return std::any_of(bench.remedies.begin(), bench.remedies.end(), [&](const Remedy& remedy) {
    return blame.of(remedy.item, now.items[remedy.item]) >= bench.convinced;
  });
}

NextStep next_step(const diagnosis::Network& network, const diagnosis::Foresight& foresight,
                   const Bench& bench, const std::vector<RankedCheck>& ranked) {
  const bool pays = !ranked.empty() && ranked.front().score > 0.0;
  if (pays && !is_convinced(network, foresight.now, bench)) {
    return {NextStep::Kind::check, ranked.front().check};
  }
  const LinearBlame blame(network, foresight.now, bench.complaint);
  const RemedyOrder order(bench);
  const auto first = order.course(blame.of_all(foresight.now.items), order.open_now()).first;
  return first ? NextStep{NextStep::Kind::mend, *first} : NextStep{};
}

}  // namespace dryout::planning
