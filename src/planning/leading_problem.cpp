#include "planning/leading_problem.h"

#include <algorithm>

#include "planning/blame.h"
#include "planning/remedy_order.h"

namespace dryout::planning {
namespace {

constexpr std::size_t faults_most = 4;  ///< something else not counted
constexpr std::size_t checks_most = 5;
constexpr double else_least = 1e-6;  ///< something else is never quite impossible

class Builder {
 public:
  Builder(const diagnosis::Network& network, const diagnosis::Foresight& foresight,
          const Bench& bench)
      : network_(&network),
        foresight_(&foresight),
        bench_(&bench),
        blame_(network, foresight.now, bench.complaint),
        open_(RemedyOrder(bench).open_now()),
        number_of_(bench.access.size(), unnumbered) {}

  LeadingProblem build(double proof) {
    made_.problem.give_up_minutes = quantities::in_minutes(bench_->give_up);
    add_faults(proof);
    for (const RankedCheck& ranked : rank_checks(*network_, *foresight_, *bench_)) {
      const bool open_outcome = ranked.present > 0.0 && ranked.present < 1.0;
      if (made_.checks.size() < checks_most && open_outcome) {
        add_check(ranked.check);
      }
    }
    return std::move(made_);
  }

 private:
  static constexpr std::size_t unnumbered = static_cast<std::size_t>(-1);

  void add_faults(double proof) {
    const std::vector<double> blame = blame_.of_all(foresight_->now.items);
    std::vector<std::size_t> order(bench_->remedies.size());
    for (std::size_t r = 0; r < order.size(); ++r) {
      order[r] = r;
    }
    const auto blamed = [&](std::size_t r) { return blame[bench_->remedies[r].item]; };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return blamed(a) > blamed(b); });
    order.resize(std::min(order.size(), faults_most));
    double sum = 0.0;
    for (const std::size_t r : order) {
      const Remedy& remedy = bench_->remedies[r];
      if (blamed(r) <= 0.0) {
        break;
      }
      const std::size_t fault = made_.problem.faults.size();
      items_.push_back(remedy.item);
      made_.problem.faults.push_back({network_->items[remedy.item].id, blamed(r)});
      made_.problem.repairs.push_back({network_->items[remedy.item].id,
                                       {fault},
                                       quantities::in_minutes(remedy.effort) + proof,
                                       numbered(remedy.access)});
      made_.remedies.push_back(r);
      sum += blamed(r);
    }
    const double rest = std::max(1.0 - sum, else_least);
    made_.problem.faults.push_back({"something else", rest});
    for (Fault& fault : made_.problem.faults) {
      fault.prior /= sum + rest;
    }
  }

  /// What the leading faults leave of P(present) falls to something else.
  void add_check(std::size_t index) {
    const CandidateCheck& candidate = bench_->checks[index];
    const diagnosis::Outlook& outlook = foresight_->outlooks[index];
    Check check{candidate.id,
                quantities::in_minutes(candidate.effort),
                numbered(candidate.access),
                {"present", "absent"},
                {}};
    double left = outlook.present;
    for (std::size_t k = 0; k < items_.size(); ++k) {
      const double now = blame_.of(items_[k], foresight_->now.items[items_[k]]);
      const double then = blame_.of(items_[k], outlook.items_if_present[items_[k]]);
      const double present = std::clamp(outlook.present * then / now, 0.0, 1.0);
      check.given.push_back({present, 1.0 - present});
      left -= made_.problem.faults[k].prior * present;
    }
    const double present = std::clamp(left / made_.problem.faults.back().prior, 0.0, 1.0);
    check.given.push_back({present, 1.0 - present});
    made_.problem.checks.push_back(std::move(check));
    made_.checks.push_back(index);
  }

  /// Access steps numbered as they are met; what stands open already costs nothing.
  std::vector<std::size_t> numbered(const std::vector<std::size_t>& access) {
    std::vector<std::size_t> numbers;
    for (const std::size_t step : access) {
      if (number_of_[step] == unnumbered) {
        const std::vector<std::size_t> needs = numbered(bench_->access[step].needs);
        number_of_[step] = made_.problem.access.size();
        const double minutes =
            open_[step] ? 0.0 : quantities::in_minutes(bench_->access[step].effort);
        made_.problem.access.push_back({bench_->access[step].id, minutes, needs});
      }
      numbers.push_back(number_of_[step]);
    }
    return numbers;
  }

  const diagnosis::Network* network_;
  const diagnosis::Foresight* foresight_;
  const Bench* bench_;
  LinearBlame blame_;
  std::vector<bool> open_;
  std::vector<std::size_t> number_of_;  ///< [access step of the bench] in the problem
  std::vector<std::size_t> items_;      ///< [fault] item of the network
  LeadingProblem made_;
};

}  // namespace

LeadingProblem leading_problem(const diagnosis::Network& network,
                               const diagnosis::Foresight& foresight, const Bench& bench,
                               double proof) {
  return Builder(network, foresight, bench).build(proof);
}

}  // namespace dryout::planning
