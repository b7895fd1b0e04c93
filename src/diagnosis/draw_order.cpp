#include "diagnosis/draw_order.h"

#include <algorithm>
#include <cmath>

#include "diagnosis/block_cut.h"
#include "diagnosis/elimination_order.h"

namespace dryout::diagnosis {
namespace {

/// Hot items that are taken together: those of a cohort, or one without.
struct Company {
  std::vector<Index> items;
  std::vector<Index> shared;
};

std::vector<Company> companies_of(const FoldedEvidence& folded) {
  std::vector<Company> companies;
  std::vector<Index> of_cohort(folded.network->cohorts.size(), none);
  for (Index item = 0; item < folded.network->items.size(); ++item) {
    if (!folded.is_hot(item)) {
      continue;
    }
    const auto& cohort = folded.network->items[item].cohort;
    Index at = cohort ? of_cohort[*cohort] : none;
    if (at == none) {
      at = static_cast<Index>(companies.size());
      companies.emplace_back();
      if (cohort) {
        of_cohort[*cohort] = at;
      }
    }
    companies[at].items.push_back(item);
    companies[at].shared = united(companies[at].shared, shared_of_item(folded, item));
  }
  return companies;
}

class Orderer {
 public:
  explicit Orderer(const FoldedEvidence& folded)
      : folded_(folded),
        companies_(companies_of(folded)),
        waiting_(folded.shared.size(), 0),
        is_open_(folded.shared.size(), false) {}

  DrawOrder run() {
    std::vector<std::vector<Index>> sets;
    for (const Company& company : companies_) {
      sets.push_back(company.shared);
    }
    const std::vector<Index> order = order_sets(sets, waiting_, is_open_);
    for (const Company& company : companies_) {
      for (const Index finding : company.shared) {
        ++waiting_[finding];
      }
    }
    for (const Index at : order) {
      take(companies_[at]);
    }
    return std::move(order_);
  }

 private:
  void take(const Company& company) {
    std::vector<std::vector<Index>> sets;
    for (const Index finding : company.shared) {
      --waiting_[finding];
    }
    for (const Index item : company.items) {
      sets.push_back(shared_of_item(folded_, item));
    }
    const std::vector<Index> order = order_sets(sets, waiting_, is_open_);
    for (const std::vector<Index>& set : sets) {
      for (const Index finding : set) {
        ++waiting_[finding];
      }
    }
    for (std::size_t k = 0; k < order.size(); ++k) {
      step(company.items[order[k]], sets[order[k]], k == 0, k + 1 == order.size());
    }
  }

  void step(Index item, const std::vector<Index>& shared, bool first, bool last) {
    DrawStep step;
    step.item = item;
    const auto& cohort = folded_.network->items[item].cohort;
    step.cohort = cohort ? static_cast<Index>(*cohort) : none;
    step.levels = folded_.levels(item);
    step.first = first;
    step.last = last;
    for (const Index finding : shared) {
      if (!is_open_[finding]) {
        is_open_[finding] = true;
        open_.push_back(finding);
        ++step.opens;
      }
      --waiting_[finding];
    }
    step.open = open_;
    for (Index bit = 0; bit < open_.size(); ++bit) {
      if (waiting_[open_[bit]] == 0) {
        step.closes.push_back(bit);
        is_open_[open_[bit]] = false;
      }
    }
    std::erase_if(open_, [this](Index finding) { return !is_open_[finding]; });
    order_.cells += step.levels * std::exp2(static_cast<double>(step.open.size()));
    order_.steps.push_back(std::move(step));
  }

  const FoldedEvidence& folded_;
  std::vector<Company> companies_;
  std::vector<Index> waiting_;  ///< per finding: companies, or items of the one at work, to come
  std::vector<bool> is_open_;
  std::vector<Index> open_;  ///< by bit
  DrawOrder order_;
};

}  // namespace

DrawOrder order_for_draws(const FoldedEvidence& folded) { return Orderer(folded).run(); }

}  // namespace dryout::diagnosis
