#include "diagnosis/elimination_order.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace dryout::diagnosis {
namespace {

/// Equal sets are taken one after the other: the later ones open nothing.
struct Group {
  std::vector<Index> findings;
  std::vector<Index> sets;
};

struct Candidate {
  std::vector<Index> groups;
  double cost = 0.0;
};

class Greedy {
 public:
  Greedy(const std::vector<Group>& groups, std::vector<Index> touches, std::vector<bool> open)
      : groups_(groups), waiting_(std::move(touches)), open_(std::move(open)) {
    for (const Group& group : groups) {
      for (const Index finding : group.findings) {
        waiting_[finding] += static_cast<Index>(group.sets.size());
      }
    }
    for (const bool is_open : open_) {
      open_count_ += is_open ? 1 : 0;
    }
    for (Index g = 0; g < groups.size(); ++g) {
      left_.push_back(g);
    }
  }

  Candidate run(Index first) {
    take(first);
    while (!left_.empty()) {
      Index best = left_.front();
      for (const Index g : left_) {
        if (score(g) < score(best)) {
          best = g;
        }
      }
      take(best);
    }
    return std::move(result_);
  }

 private:
  /// Least growth first; among equals the one that opens least, then the smallest.
  [[nodiscard]] std::tuple<int, int, std::size_t> score(Index g) const {
    int opens = 0;
    int closes = 0;
    for (const Index finding : groups_[g].findings) {
      opens += open_[finding] ? 0 : 1;
      closes += waiting_[finding] == groups_[g].sets.size() ? 1 : 0;
    }
    return {opens - closes, opens, groups_[g].findings.size()};
  }

  void take(Index g) {
    left_.erase(std::find(left_.begin(), left_.end(), g));
    result_.groups.push_back(g);
    for (const Index finding : groups_[g].findings) {
      open_count_ += open_[finding] ? 0 : 1;
      open_[finding] = true;
      waiting_[finding] -= static_cast<Index>(groups_[g].sets.size());
    }
    result_.cost += std::exp2(open_count_) * static_cast<double>(groups_[g].sets.size());
    for (const Index finding : groups_[g].findings) {
      if (waiting_[finding] == 0) {
        open_[finding] = false;
        --open_count_;
      }
    }
  }

  const std::vector<Group>& groups_;
  std::vector<Index> waiting_;
  std::vector<bool> open_;
  std::vector<Index> left_;
  int open_count_ = 0;
  Candidate result_;
};

std::vector<Group> group_equal_sets(const std::vector<std::vector<Index>>& sets) {
  std::map<std::vector<Index>, Index> index_of;
  std::vector<Group> groups;
  for (Index s = 0; s < sets.size(); ++s) {
    const auto [at, fresh] = index_of.try_emplace(sets[s], static_cast<Index>(groups.size()));
    if (fresh) {
      groups.push_back({sets[s], {}});
    }
    groups[at->second].sets.push_back(s);
  }
  return groups;
}

/// Where to start: small sets close soon, large ones are cheapest at the very beginning.
std::vector<Index> starts(const std::vector<Group>& groups) {
  constexpr std::size_t each_max = 6;
  constexpr std::size_t work_max = 4'000'000;  // groups squared, over all starts
  std::vector<Index> by_size(groups.size());
  for (Index g = 0; g < groups.size(); ++g) {
    by_size[g] = g;
  }
  std::stable_sort(by_size.begin(), by_size.end(), [&groups](Index a, Index b) {
    return groups[a].findings.size() < groups[b].findings.size();
  });
  const std::size_t affordable =
      std::max<std::size_t>(1, work_max / (groups.size() * groups.size()));
  const std::size_t count = std::min({groups.size(), 2 * each_max, affordable});
  std::vector<Index> chosen(by_size.begin(),
                            by_size.begin() + static_cast<std::ptrdiff_t>((count + 1) / 2));
  chosen.insert(chosen.end(), by_size.end() - static_cast<std::ptrdiff_t>(count / 2),
                by_size.end());
  return chosen;
}

}  // namespace

std::vector<Index> order_sets(const std::vector<std::vector<Index>>& sets,
                              const std::vector<Index>& touches, const std::vector<bool>& open) {
  std::vector<Index> order;
  if (sets.empty()) {
    return order;
  }
  const std::vector<Group> groups = group_equal_sets(sets);
  Candidate best;
  for (const Index start : starts(groups)) {
    Candidate candidate = Greedy(groups, touches, open).run(start);
    if (best.groups.empty() || candidate.cost < best.cost) {
      best = std::move(candidate);
    }
  }
  for (const Index g : best.groups) {
    order.insert(order.end(), groups[g].sets.begin(), groups[g].sets.end());
  }
  return order;
}

}  // namespace dryout::diagnosis
