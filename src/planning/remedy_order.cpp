#include "planning/remedy_order.h"

#include <algorithm>
#include <limits>
#include <map>

namespace dryout::planning {
namespace {

double ratio_of(double probability, double minutes) {
  return minutes > 0.0 ? probability / minutes : std::numeric_limits<double>::infinity();
}

constexpr std::size_t without = std::numeric_limits<std::size_t>::max();

void open_in_order(const Bench& bench, std::size_t step, std::vector<bool>& open,
                   std::vector<std::size_t>& order) {
  if (open[step]) {
    return;
  }
  open[step] = true;
  for (const std::size_t need : bench.access[step].needs) {
    open_in_order(bench, need, open, order);
  }
  order.push_back(step);
}

}  // namespace

/// The remedies behind the same access steps, best p/C first, and how far they have been tried.
/// Few of thousands ever are, so only as many as are asked for are put in order.
struct RemedyOrder::Cluster {
  std::size_t index = 0;
  std::vector<Trial> trials;
  std::size_t in_order = 0;
  std::size_t tried = 0;
  double opening = 0.0;  ///< minutes still to be paid
  double score = 0.0;    ///< p/C of the best prefix of what is left
  [[nodiscard]] bool done() const { return tried == trials.size(); }

  void put_in_order(std::size_t count) {
    if (count <= in_order) {
      return;
    }
    constexpr std::size_t at_once = 16;
    const std::size_t end = std::min(trials.size(), std::max(count, 2 * in_order + at_once));
    const auto at = [this](std::size_t t) {
      return trials.begin() + static_cast<std::ptrdiff_t>(t);
    };
    std::partial_sort(at(in_order), at(end), trials.end(), [](const Trial& a, const Trial& b) {
      return a.ratio != b.ratio ? a.ratio > b.ratio : a.remedy < b.remedy;
    });
    in_order = end;
  }
};

RemedyOrder::RemedyOrder(const Bench& bench) : bench_(&bench) {
  std::map<std::vector<std::size_t>, std::vector<std::size_t>> by_needs;
  const std::vector<bool> closed(bench.access.size(), false);
  for (std::size_t r = 0; r < bench.remedies.size(); ++r) {
    by_needs[opens(bench.remedies[r].access, closed)].push_back(r);
    const std::size_t item = bench.remedies[r].item;
    remedy_of_item_.resize(std::max(remedy_of_item_.size(), item + 1), without);
    remedy_of_item_[item] = r;
    sure_minutes_.push_back(quantities::in_minutes(bench.remedies[r].effort + bench.proof));
  }
  for (auto& [steps, remedies] : by_needs) {
    needs_.push_back(steps);
    behind_.push_back(std::move(remedies));
  }
}

bool RemedyOrder::alike(std::size_t item, std::size_t other) const {
  const auto remedy_of = [this](std::size_t each) {
    return each < remedy_of_item_.size() ? remedy_of_item_[each] : without;
  };
  const std::size_t a = remedy_of(item);
  const std::size_t b = remedy_of(other);
  return a == b || (a != without && b != without &&
                    bench_->remedies[a].effort == bench_->remedies[b].effort &&
                    bench_->remedies[a].access == bench_->remedies[b].access);
}

std::vector<bool> RemedyOrder::open_now() const {
  std::vector<bool> open = bench_->open;
  open.resize(bench_->access.size(), false);
  return open;
}

std::vector<std::size_t> RemedyOrder::opens(std::span<const std::size_t> access,
                                            const std::vector<bool>& open) const {
  std::vector<std::size_t> order;
  std::vector<bool> opened = open;
  for (const std::size_t step : access) {
    open_in_order(*bench_, step, opened, order);
  }
  return order;
}

double RemedyOrder::minutes_of(std::span<const std::size_t> steps) const {
  quantities::Second sum;
  for (const std::size_t step : steps) {
    sum += bench_->access[step].effort;
  }
  return quantities::in_minutes(sum);
}

std::vector<RemedyOrder::Cluster> RemedyOrder::clusters(const std::vector<double>& blame) const {
  const double give_up = quantities::in_minutes(bench_->give_up);
  const double needless = quantities::in_minutes(bench_->needless);
  std::vector<Cluster> found;
  for (std::size_t k = 0; k < behind_.size(); ++k) {
    Cluster cluster;
    cluster.index = k;
    for (const std::size_t r : behind_[k]) {
      const double p = std::min(blame[bench_->remedies[r].item], 1.0);
      const double minutes = sure_minutes_[r] + (1.0 - p) * needless;
      if (p * give_up > minutes) {  // else, whatever comes after it, leaving it out costs no more
        cluster.trials.push_back({r, p, minutes, ratio_of(p, minutes)});
      }
    }
    if (!cluster.done()) {
      found.push_back(std::move(cluster));
    }
  }
  return found;
}

/// What it takes to reach the rest of a cluster now, and its best prefix.
void RemedyOrder::reach(Cluster& cluster, const std::vector<bool>& open) const {
  cluster.opening = 0.0;
  for (const std::size_t step : needs_[cluster.index]) {
    cluster.opening += open[step] ? 0.0 : quantities::in_minutes(bench_->access[step].effort);
  }
  cluster.score = -1.0;
  double fails = 1.0;
  double minutes = cluster.opening;
  for (std::size_t t = cluster.tried; t < cluster.trials.size(); ++t) {
    cluster.put_in_order(t + 1);
    minutes += fails * cluster.trials[t].minutes;
    fails *= 1.0 - cluster.trials[t].cures;
    const double score = ratio_of(1.0 - fails, minutes);
    if (score <= cluster.score) {
      break;  // sorted by p/C: once a longer prefix is worse, all are
    }
    cluster.score = score;
  }
}

RemedyOrder::Course RemedyOrder::course(const std::vector<double>& blame,
                                        std::vector<bool> open) const {
  std::vector<Cluster> left = clusters(blame);
  for (Cluster& cluster : left) {
    reach(cluster, open);
  }
  std::vector<Trial> sequence;
  constexpr double fails_least = 1e-9;  // beyond, whatever follows costs nothing on average
  for (double fails = 1.0; !left.empty() && fails > fails_least;) {
    const auto best =
        std::max_element(left.begin(), left.end(),
                         [](const Cluster& a, const Cluster& b) { return a.score < b.score; });
    Trial trial = best->trials[best->tried++];
    trial.minutes += best->opening;
    sequence.push_back(trial);
    fails *= 1.0 - trial.cures;
    const bool opened = best->opening > 0.0;
    if (opened) {
      for (const std::size_t step : needs_[best->index]) {
        open[step] = true;
      }
    }
    reach(*best, open);
    std::erase_if(left, [](const Cluster& cluster) { return cluster.done(); });
    for (Cluster& cluster : left) {
      if (opened) {
        reach(cluster, open);
      }
    }
  }
  const double give_up = quantities::in_minutes(bench_->give_up);
  Course course{give_up, std::nullopt};
  for (auto trial = sequence.rbegin(); trial != sequence.rend(); ++trial) {
    const double minutes = trial->minutes + (1.0 - trial->cures) * course.minutes;
    course = minutes < give_up ? Course{minutes, trial->remedy} : Course{give_up, std::nullopt};
  }
  return course;
}

}  // namespace dryout::planning
