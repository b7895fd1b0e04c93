// The contingency tree: the advice of rank_checks, asked again after either outcome, and so on.
#include <algorithm>
#include <numeric>

#include "diagnosis/drawn_answers.h"
#include "planning/blame.h"
#include "planning/next_check.h"
#include "planning/remedy_order.h"

namespace dryout::planning {
namespace {

using diagnosis::Evidence;
using diagnosis::ItemBeliefs;
using diagnosis::Network;
using quantities::Result;

/// A branch that comes less often than this is not planned ahead.
constexpr double probability_least = 0.005;

/// The item most to blame, and how likely it is not sound.
template <class Beliefs>
void lead(TreeNode& node, const LinearBlame& blame, const Beliefs& beliefs) {
  double most = -1.0;
  for (std::size_t item = 0; item < beliefs.size(); ++item) {
    const double its_blame = blame.of(item, beliefs[item]);
    if (its_blame > most) {
      most = its_blame;
      node.leading_item = item;
    }
  }
  node.leading = most < 0.0 ? 0.0 : 1.0 - beliefs[node.leading_item][0];
}

class TreePlanner {
 public:
  TreePlanner(const Network& network, const Bench& bench) : network_(&network), bench_(&bench) {}

  /// Where one stands: what is known, what is open, which checks are left.
  struct Standing {
    Evidence evidence;
    std::vector<bool> open;
    std::vector<std::size_t> checks;
  };

  Result<TreeNode> grow(const Standing& at, double probability, int depth) const {
    Bench bench = *bench_;
    bench.open = at.open;
    bench.checks.clear();
    std::vector<std::size_t> findings;
    for (const std::size_t check : at.checks) {
      bench.checks.push_back(bench_->checks[check]);
      findings.push_back(bench_->checks[check].finding);
    }
    const auto foresight = foresee(at.evidence, findings);
    if (!foresight) {
      return foresight.problems();
    }
    const LinearBlame blame(*network_, foresight->now, bench.complaint);
    TreeNode node;
    node.probability = probability;
    lead(node, blame, foresight->now.items);
    const auto ranked = rank_checks(*network_, *foresight, bench);
    if (depth <= 0 || ranked.empty() || ranked.front().score <= 0.0) {
      return node;
    }
    const RankedCheck& best = ranked.front();
    node.leaf = false;
    node.check = at.checks[best.check];
    for (const bool present : {true, false}) {
      const auto& outlook = foresight->outlooks[best.check];
      const double p = probability * (present ? outlook.present : 1.0 - outlook.present);
      const ItemBeliefs& beliefs = present ? outlook.items_if_present : outlook.items_if_absent;
      if (depth == 1 || p < probability_least) {
        TreeNode leaf;
        leaf.probability = p;
        lead(leaf, blame, beliefs);
        node.then.push_back(std::move(leaf));
        continue;
      }
      auto branch = grow(after(at, best, present), p, depth - 1);
      if (!branch) {
        return branch.problems();
      }
      node.then.push_back(std::move(*branch));
    }
    return node;
  }

 private:
  /// Exact, or read off fewer draws than the advice itself: a tree has up to 64 nodes.
  [[nodiscard]] Result<diagnosis::Foresight> foresee(
      const Evidence& evidence, const std::vector<std::size_t>& findings) const {
    if (!diagnosis::too_wide(*network_, evidence, findings.size())) {
      return diagnosis::infer_with_outlook(*network_, evidence, findings);
    }
    constexpr diagnosis::DrawEffort effort{1.0e5, 2048};
    const auto draws = diagnosis::PosteriorDraws::draw(*network_, evidence, effort);
    if (!draws) {
      return draws.problems();
    }
    return diagnosis::foresee(*draws, findings);
  }

  [[nodiscard]] Standing after(const Standing& at, const RankedCheck& made, bool present) const {
    Standing next = at;
    const std::size_t finding = bench_->checks[at.checks[made.check]].finding;
    (present ? next.evidence.present : next.evidence.absent).push_back(finding);
    for (const std::size_t step : made.opens) {
      next.open[step] = true;
    }
    std::erase_if(next.checks,
                  [&](std::size_t check) { return bench_->checks[check].finding == finding; });
    return next;
  }

  const Network* network_;
  const Bench* bench_;
};

}  // namespace

Result<TreeNode> contingency_tree(const Network& network, const Evidence& evidence,
                                  const Bench& bench, int depth) {
  TreePlanner::Standing start{evidence, RemedyOrder(bench).open_now(), {}};
  start.checks.resize(bench.checks.size());
  std::iota(start.checks.begin(), start.checks.end(), std::size_t{0});
  return TreePlanner(network, bench).grow(start, 1.0, depth);
}

}  // namespace dryout::planning
