#include "planning/next_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "planning/blame.h"
#include "planning/remedy_order.h"
#include "quantities/check.h"
#include "quantities/patience.h"

namespace dryout::planning {
namespace {

using diagnosis::Foresight;
using diagnosis::ItemBeliefs;
using diagnosis::Outlook;

double entropy_bits(double p) {
  if (p <= 0.0 || p >= 1.0) {
    return 0.0;
  }
  return -p * std::log2(p) - (1.0 - p) * std::log2(1.0 - p);
}

/// Values checks against one state of knowledge.
class Valuation {
 public:
  Valuation(const diagnosis::Network& network, const Foresight& foresight, const Bench& bench)
      : bench_(&bench),
        foresight_(&foresight),
        blame_(network, foresight.now, bench.complaint),
        order_(bench),
        open_(order_.open_now()),
        blame_now_(blame_.of_all(foresight.now.items)),
        minutes_now_(order_.course(blame_now_, open_).minutes) {}

  /// `earlier`: of the checks before this one.
  [[nodiscard]] RankedCheck of(std::size_t check, const std::vector<RankedCheck>& earlier) const {
    if (const auto& twin = foresight_->outlooks[check].twin;
        twin && is_worth_the_same(check, *twin)) {
      RankedCheck ranked = earlier[twin->of];
      ranked.check = check;
      return ranked;
    }
    const CandidateCheck& candidate = bench_->checks[check];
    const Outlook& outlook = foresight_->outlooks[check];
    RankedCheck ranked;
    ranked.check = check;
    ranked.present = outlook.present;
    ranked.effort = candidate.effort;
    ranked.opens = order_.opens(candidate.access, open_);
    ranked.access_effort = quantities::minutes(order_.minutes_of(ranked.opens));
    if (outlook.present > 0.0 && outlook.present < 1.0) {
      add_value(outlook, ranked);
    }
    return ranked;
  }

 private:
  /// Twins are worth the same where they and the remedies of their items cost the same and the
  /// items could make the complaint alike.
  [[nodiscard]] bool is_worth_the_same(std::size_t check,
                                       const diagnosis::CandidateTwin& twin) const {
    const CandidateCheck& own = bench_->checks[check];
    const CandidateCheck& other = bench_->checks[twin.of];
    return own.effort == other.effort && own.access == other.access &&
           blame_.alike(twin.its_item, twin.own_item) && order_.alike(twin.its_item, twin.own_item);
  }

  void add_value(const Outlook& outlook, RankedCheck& ranked) const {
    std::vector<bool> open = open_;
    for (const std::size_t step : ranked.opens) {
      open[step] = true;
    }
    double saving = minutes_now_;
    const std::vector<std::size_t> moved = outlook.moved();
    for (const std::size_t item : moved) {
      ranked.gain_bits += entropy_bits(blame_now_[item]);
    }
    for (const bool present : {true, false}) {
      const double p = present ? outlook.present : 1.0 - outlook.present;
      const ItemBeliefs& beliefs = present ? outlook.items_if_present : outlook.items_if_absent;
      if (beliefs.empty()) {
        continue;
      }
      std::vector<double> blame = blame_now_;
      for (const std::size_t item : moved) {
        blame[item] = blame_.of(item, beliefs[item]);
        ranked.gain_bits -= p * entropy_bits(blame[item]);
      }
      saving -= p * order_.course(blame, open).minutes;
    }
    ranked.gain_bits = std::max(ranked.gain_bits, 0.0);  // rounding
    // What tells next to nothing saves nothing, whatever a remedy or two would change places.
    constexpr double tells_nothing_below = 1e-3;
    if (ranked.gain_bits < tells_nothing_below) saving = 0.0;
    ranked.saving = quantities::minutes(saving);
    constexpr double effort_least = 1.0 / 60.0;  // nothing on a bench takes less than a second
    const double effort =
        std::max(quantities::in_minutes(ranked.effort + ranked.access_effort), effort_least);
    ranked.score = saving / effort - 1.0;
  }

  const Bench* bench_;
  const Foresight* foresight_;
  LinearBlame blame_;
  RemedyOrder order_;
  std::vector<bool> open_;
  std::vector<double> blame_now_;
  double minutes_now_;
};

quantities::Second gain(const RankedCheck& ranked) {
  return ranked.saving - ranked.effort - ranked.access_effort;
}

bool better(const RankedCheck& a, const RankedCheck& b) {
  if (a.score != b.score) {
    return a.score > b.score;
  }
  return a.gain_bits != b.gain_bits ? a.gain_bits > b.gain_bits : a.check < b.check;
}

/// The checks of one degree of danger, best first, and the largest gain among what is left.
struct Queue {
  std::vector<RankedCheck> checks;
  std::vector<quantities::Second> largest_gain;  ///< [n] of checks n and after
  std::size_t next = 0;

  [[nodiscard]] bool empty() const { return next == checks.size(); }
  [[nodiscard]] const RankedCheck& head() const { return checks[next]; }

  void sort() {
    std::sort(checks.begin(), checks.end(), better);
    largest_gain.resize(checks.size());
    for (std::size_t n = checks.size(); n-- > 0;) {
      largest_gain[n] = gain(checks[n]);
      if (n + 1 < checks.size()) {
        largest_gain[n] = std::max(largest_gain[n], largest_gain[n + 1]);
      }
    }
  }
};

/// Merges the queues by score, but holds a check back while a less dangerous one is left that gains
/// as much.
std::vector<RankedCheck> merge(std::array<Queue, 4>& queues, std::size_t size) {
  std::vector<RankedCheck> order;
  order.reserve(size);
  for (Queue* best = &queues[0]; best != nullptr;) {
    best = nullptr;
    quantities::Second safer_gain(-std::numeric_limits<double>::infinity());
    for (Queue& queue : queues) {
      if (queue.empty()) {
        continue;
      }
      const bool held_back = gain(queue.head()) <= safer_gain;
      if (best == nullptr || (!held_back && better(queue.head(), best->head()))) {
        best = &queue;
      }
      safer_gain = std::max(safer_gain, queue.largest_gain[queue.next]);
    }
    if (best != nullptr) {
      order.push_back(best->checks[best->next++]);
    }
  }
  return order;
}

}  // namespace

std::vector<RankedCheck> rank_checks(const diagnosis::Network& network, const Foresight& foresight,
                                     const Bench& bench) {
  CHECK(foresight.outlooks.size() == bench.checks.size());
  const Valuation valuation(network, foresight, bench);
  std::vector<RankedCheck> valued;
  valued.reserve(bench.checks.size());
  for (std::size_t c = 0; c < bench.checks.size(); ++c) {
    quantities::rest(c, bench.checks.size());
    valued.push_back(valuation.of(c, valued));
  }
  std::array<Queue, 4> by_danger;
  for (RankedCheck& ranked : valued) {
    by_danger[static_cast<std::size_t>(bench.checks[ranked.check].danger)].checks.push_back(
        std::move(ranked));
  }
  for (Queue& queue : by_danger) {
    queue.sort();
  }
  return merge(by_danger, bench.checks.size());
}

}  // namespace dryout::planning
