#include "diagnosis/block_cut.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "diagnosis/elimination_order.h"

namespace dryout::diagnosis {
namespace {

/// Fills parts one after the other with items that share findings, none above `shared_max`.
std::vector<Part> cut(const FoldedEvidence& folded, const Block& block, std::size_t shared_max) {
  std::vector<std::pair<std::vector<Index>, Index>> items;
  for (const Index item : block.items) {
    items.emplace_back(shared_of_item(folded, item), item);
  }
  std::sort(items.begin(), items.end());
  std::vector<Part> parts;
  for (const auto& [shared, item] : items) {
    if (parts.empty() || united(parts.back().shared, shared).size() > shared_max) {
      parts.emplace_back();
    }
    parts.back().items.push_back(item);
    parts.back().shared = united(parts.back().shared, shared);
  }
  return parts;
}

Waiting with_parts(Waiting waiting, const std::vector<Part>& parts) {
  for (const Part& part : parts) {
    for (const Index finding : part.shared) {
      ++waiting.left[finding];
    }
  }
  return waiting;
}

/// Products of a kernel step per lane: 3 for a finding that stays, 2 for any other that is open
/// before or after.
double kernel_products(const Part& part, const Waiting& waiting) {
  double products = 1.0;
  for (Index finding = 0; finding < waiting.open.size(); ++finding) {
    const bool touched = std::binary_search(part.shared.begin(), part.shared.end(), finding);
    const bool goes_on = !touched || waiting.left[finding] > 1;
    if (waiting.open[finding]) {
      products *= touched && goes_on ? 3.0 : 2.0;
    } else if (touched && goes_on) {
      products *= 2.0;
    }
  }
  return products;
}

/// Products of a wide step per lane, the steps that open and close its findings included.
double wide_products(const FoldedEvidence& folded, const Part& part, const Waiting& waiting) {
  double open = static_cast<double>(part.shared.size());
  for (Index finding = 0; finding < waiting.open.size(); ++finding) {
    open += waiting.open[finding] &&
                    !std::binary_search(part.shared.begin(), part.shared.end(), finding)
                ? 1.0
                : 0.0;
  }
  const Index item = part.items.front();
  const double links = folded.first_link[item + 1] - folded.first_link[item];
  return (links + 2.0 * folded.states(item) + 2.0) * std::exp2(open);
}

/// Multiply-adds of taking the parts in this order, in kernels and in the tables behind them.
/// Decides which parts are better taken as wide steps.
double cost_of(const FoldedEvidence& folded, const Block& block, std::vector<Part>& parts,
               const Waiting& before) {
  constexpr std::size_t kernel_max = 9;  // findings of one kernel: 3^9 entries at most
  Waiting waiting = with_parts(before, parts);
  const double lanes = parts.size() > 1 ? block.levels : 1.0;
  double cost = 0.0;
  for (Part& part : parts) {
    const auto items = static_cast<double>(part.items.size());
    const auto shared = static_cast<double>(part.shared.size());
    const double tables = 2.0 * block.levels * items * (2.0 + std::log2(items)) * std::exp2(shared);
    double kernel = lanes * kernel_products(part, waiting) + tables;
    if (part.shared.size() > kernel_max) {
      kernel = std::numeric_limits<double>::infinity();
    }
    const double wide = part.items.size() > 1 ? std::numeric_limits<double>::infinity()
                                              : lanes * wide_products(folded, part, waiting);
    part.wide = wide < kernel;
    cost += std::min(wide, kernel);
    waiting.pass(part);
  }
  return cost;
}

std::vector<Part> in_order(std::vector<Part> parts, const Waiting& waiting) {
  std::vector<std::vector<Index>> sets;
  sets.reserve(parts.size());
  for (const Part& part : parts) {
    sets.push_back(part.shared);
  }
  std::vector<Part> ordered;
  for (const Index p : order_sets(sets, waiting.left, waiting.open)) {
    ordered.push_back(std::move(parts[p]));
  }
  return ordered;
}

/// One step for the whole block, or several that carry its levels side by side: whichever costs
/// less.
std::vector<Part> cheapest_cut(const FoldedEvidence& folded, const Block& block,
                               const Waiting& waiting) {
  constexpr std::size_t cut_max = 9;
  std::vector<Part> best{{block.items, block.shared}};
  double best_cost = cost_of(folded, block, best, waiting);
  for (std::size_t shared_max = 1; shared_max < block.shared.size() && shared_max <= cut_max;
       ++shared_max) {
    std::vector<Part> parts = in_order(cut(folded, block, shared_max), waiting);
    const double cost = cost_of(folded, block, parts, waiting);
    if (cost < best_cost) {
      best_cost = cost;
      best = std::move(parts);
    }
  }
  return best;
}

/// Opens the findings of a wide part before it and closes them after.
std::vector<Part> framed(std::vector<Part> parts, const Waiting& before) {
  Waiting waiting = with_parts(before, parts);
  std::vector<Part> all;
  for (Part& part : parts) {
    Part opening;
    Part closing;
    for (const Index finding : part.shared) {
      if (part.wide && !waiting.open[finding]) {
        opening.shared.push_back(finding);
      }
      if (part.wide && waiting.left[finding] == 1) {
        closing.shared.push_back(finding);
      }
    }
    waiting.pass(part);
    if (!opening.shared.empty()) {
      all.push_back(std::move(opening));
    }
    all.push_back(std::move(part));
    if (!closing.shared.empty()) {
      all.push_back(std::move(closing));
    }
  }
  return all;
}

}  // namespace

std::vector<Index> shared_of_item(const FoldedEvidence& folded, Index item) {
  std::vector<Index> shared;
  for (Index k = folded.first_link[item]; k < folded.first_link[item + 1]; ++k) {
    shared.push_back(folded.links[k].shared);
  }
  std::sort(shared.begin(), shared.end());
  shared.erase(std::unique(shared.begin(), shared.end()), shared.end());
  return shared;
}

std::vector<Index> united(const std::vector<Index>& a, const std::vector<Index>& b) {
  std::vector<Index> both;
  std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(both));
  return both;
}

std::vector<Part> cut_block(const FoldedEvidence& folded, const Block& block,
                            const Waiting& waiting) {
  return framed(cheapest_cut(folded, block, waiting), waiting);
}

}  // namespace dryout::diagnosis
