#include "diagnosis/folded_evidence.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

/// Scales by a power of two so that the largest is in [0.5, 1), and books the power.
void normalise(std::span<long double> values, FoldedEvidence& folded) {
  const long double largest = *std::max_element(values.begin(), values.end());
  if (largest == 0.0L) {
    folded.possible = false;
    return;
  }
  int exponent = 0;
  std::frexp(largest, &exponent);
  for (long double& value : values) {
    value = std::ldexp(value, -exponent);
  }
  folded.constant.multiply_power_of_two(exponent);
}

void normalise(Observed& observed, FoldedEvidence& folded) {
  std::array<long double, 2> pair{observed.if_absent, observed.if_present};
  normalise(pair, folded);
  observed.if_absent = pair[0];
  observed.if_present = pair[1];
}

/// Evidence of one network must not be brought to another.
void check_indices(const Network& network, const Evidence& evidence) {
  const auto within = [](std::size_t size) {
    return [size](std::size_t index) { return index < size; };
  };
  const auto finding = within(network.findings.size());
  CHECK(std::all_of(evidence.present.begin(), evidence.present.end(), finding));
  CHECK(std::all_of(evidence.absent.begin(), evidence.absent.end(), finding));
  for (const SoftFinding& soft : evidence.soft) {
    CHECK(finding(soft.finding));
  }
  for (const ItemReading& reading : evidence.readings) {
    CHECK(reading.item < network.items.size());
  }
}

void observe_findings(const Network& network, const Evidence& evidence, FoldedEvidence& folded) {
  check_indices(network, evidence);
  folded.observed.resize(network.findings.size());
  for (const std::size_t finding : evidence.present) {
    folded.observed[finding].if_absent = 0.0L;
  }
  for (const std::size_t finding : evidence.absent) {
    folded.observed[finding].if_present = 0.0L;
  }
  for (const SoftFinding& soft : evidence.soft) {
    Observed& observed = folded.observed[soft.finding];
    observed.if_absent *= soft.if_absent;
    observed.if_present *= soft.if_present;
    normalise(observed, folded);
  }
  for (const Observed& observed : folded.observed) {
    if (observed.if_absent == 0.0L && observed.if_present == 0.0L) {
      folded.possible = false;
    }
  }
}

void lay_out_items(const Network& network, FoldedEvidence& folded) {
  const std::size_t count = network.items.size();
  folded.members.resize(network.cohorts.size());
  folded.first_weight.reserve(count + 1);
  folded.first_total.reserve(count + 1);
  Index weights = 0;
  Index totals = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const Item& item = network.items[i];
    folded.first_weight.push_back(weights);
    folded.first_total.push_back(totals);
    weights += static_cast<Index>(item.given_level.size() * item.states.size());
    totals += static_cast<Index>(item.given_level.size());
    if (item.cohort) {
      folded.members[*item.cohort].push_back(static_cast<Index>(i));
    }
  }
  folded.first_weight.push_back(weights);
  folded.first_total.push_back(totals);
  folded.weight.reserve(weights);
  for (const Item& item : network.items) {
    for (const std::vector<double>& row : item.given_level) {
      folded.weight.insert(folded.weight.end(), row.begin(), row.end());
    }
  }
}

std::span<long double> item_weights(FoldedEvidence& folded, std::size_t item) {
  const Index first = folded.first_weight[item];
  return {&folded.weight[first], folded.first_weight[item + 1] - first};
}

void fold_readings(const Evidence& evidence, FoldedEvidence& folded) {
  for (const ItemReading& reading : evidence.readings) {
    const std::span<long double> weights = item_weights(folded, reading.item);
    std::size_t k = 0;
    for (std::size_t level = 0; k < weights.size(); ++level) {
      const std::vector<double>& row =
          reading.likelihood[reading.likelihood.size() == 1 ? 0 : level];
      for (const double likelihood : row) {
        weights[k++] *= likelihood;
      }
    }
    normalise(weights, folded);
  }
}

/// Multiplies the weight of one state at every level.
void weigh_state(FoldedEvidence& folded, Index item, Index state, long double factor) {
  const Index states = folded.states(item);
  for (Index level = 0; level < folded.levels(item); ++level) {
    folded.weight[folded.first_weight[item] + level * states + state] *= factor;
  }
}

void fold_absent_findings(const Network& network, FoldedEvidence& folded) {
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    const Observed& observed = folded.observed[f];
    if (observed.if_present != 0.0L) {
      continue;
    }
    folded.constant.multiply(observed.if_absent * (1.0L - network.findings[f].leak));
    for (const Cause& cause : network.findings[f].causes) {
      weigh_state(folded, static_cast<Index>(cause.item), static_cast<Index>(cause.state),
                  1.0L - cause.strength);
    }
  }
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    normalise(item_weights(folded, i), folded);
  }
}

bool is_live(const FoldedEvidence& folded, Index item, Index state) {
  for (Index level = 0; level < folded.levels(item); ++level) {
    if (folded.weights(item, level)[state] > 0.0L) {
      return true;
    }
  }
  return false;
}

/// The item stands in this state and no other.
bool is_certain(const FoldedEvidence& folded, Index item, Index state) {
  for (Index other = 0; other < folded.states(item); ++other) {
    if (other != state && is_live(folded, item, other)) {
      return false;
    }
  }
  return true;
}

/// A finding that only one item can explain weighs that item's states.
void fold_private_finding(const Finding& finding, const Observed& observed,
                          FoldedEvidence& folded) {
  const Index item = observed.only_item;
  for (Index state = 0; state < folded.states(item); ++state) {
    long double absent = 1.0L - observed.leak;
    long double present = observed.leak;
    for (const Cause& cause : finding.causes) {
      if (cause.item == item && cause.state == state) {
        present += absent * cause.strength;
        absent *= 1.0L - cause.strength;
      }
    }
    weigh_state(folded, item, state, observed.if_absent * absent + observed.if_present * present);
  }
  normalise(item_weights(folded, item), folded);
}

struct ItemLink {
  Index item = 0;
  Link link;
};

/// Sorts one positive or soft finding into: explained by nobody, by one item, or shared.
void fold_positive_finding(const Finding& finding, Observed& observed, FoldedEvidence& folded,
                           std::vector<ItemLink>& links) {
  const std::size_t links_before = links.size();
  const auto shared = static_cast<Index>(folded.shared.size());
  observed.leak = finding.leak;
  bool one_item = true;
  for (const Cause& cause : finding.causes) {
    const auto item = static_cast<Index>(cause.item);
    const auto state = static_cast<Index>(cause.state);
    if (cause.strength == 0.0 || !is_live(folded, item, state)) {
      continue;
    }
    if (is_certain(folded, item, state)) {
      observed.leak += (1.0L - observed.leak) * cause.strength;
      continue;
    }
    one_item = one_item && (links.size() == links_before || links.back().item == item);
    links.push_back({item, {shared, state, cause.strength}});
  }
  if (links.size() > links_before && !one_item) {
    observed.shared = shared;
    folded.shared.push_back({static_cast<Index>(&observed - folded.observed.data()), observed.leak,
                             observed.if_absent, observed.if_present});
    return;
  }
  if (links.size() > links_before) {
    observed.only_item = links.back().item;
    links.resize(links_before);
    fold_private_finding(finding, observed, folded);
  } else {
    folded.constant.multiply(observed.if_absent * (1.0L - observed.leak) +
                             observed.if_present * observed.leak);
  }
}

void sort_links(std::vector<ItemLink>& links, FoldedEvidence& folded) {
  std::stable_sort(links.begin(), links.end(), [](const ItemLink& a, const ItemLink& b) {
    return a.item != b.item ? a.item < b.item : a.link.state < b.link.state;
  });
  std::size_t next = 0;
  for (Index item = 0; item < folded.network->items.size(); ++item) {
    folded.first_link.push_back(static_cast<Index>(next));
    for (; next < links.size() && links[next].item == item; ++next) {
      folded.links.push_back(links[next].link);
    }
  }
  folded.first_link.push_back(static_cast<Index>(next));
}

void sum_states(FoldedEvidence& folded) {
  folded.total.reserve(folded.first_total.back());
  for (Index item = 0; item < folded.network->items.size(); ++item) {
    for (Index level = 0; level < folded.levels(item); ++level) {
      long double sum = 0.0L;
      for (Index state = 0; state < folded.states(item); ++state) {
        sum += folded.weights(item, level)[state];
      }
      folded.total.push_back(sum);
    }
  }
}

/// Levels carry their prior and every member that takes no part in the sweep.
void weigh_levels(const Network& network, FoldedEvidence& folded) {
  for (std::size_t c = 0; c < network.cohorts.size(); ++c) {
    std::vector<long double> weight(network.cohorts[c].levels.begin(),
                                    network.cohorts[c].levels.end());
    bool hot = false;
    for (const Index item : folded.members[c]) {
      if (folded.is_hot(item)) {
        hot = true;
        continue;
      }
      for (std::size_t level = 0; level < weight.size(); ++level) {
        weight[level] *= folded.total[folded.first_total[item] + level];
      }
      normalise(weight, folded);
      if (!folded.possible) {
        break;
      }
    }
    folded.level_weight.push_back(std::move(weight));
    folded.cohort_is_hot.push_back(hot);
  }
}

/// Cohorts and items that take no part in the sweep contribute a plain factor.
void multiply_cold_parts(const Network& network, FoldedEvidence& folded) {
  for (std::size_t c = 0; c < network.cohorts.size(); ++c) {
    if (!folded.cohort_is_hot[c]) {
      long double sum = 0.0L;
      for (const long double weight : folded.level_weight[c]) {
        sum += weight;
      }
      folded.constant.multiply(sum);
    }
  }
  for (Index item = 0; item < network.items.size(); ++item) {
    if (!network.items[item].cohort && !folded.is_hot(item)) {
      folded.constant.multiply(folded.total[folded.first_total[item]]);
    }
  }
  folded.possible = folded.possible && !folded.constant.is_zero();
}

}  // namespace

FoldedEvidence fold_evidence(const Network& network, const Evidence& evidence) {
  FoldedEvidence folded;
  folded.network = &network;
  observe_findings(network, evidence, folded);
  lay_out_items(network, folded);
  fold_readings(evidence, folded);
  if (folded.possible) {
    fold_absent_findings(network, folded);
  }
  std::vector<ItemLink> links;
  for (std::size_t f = 0; f < network.findings.size() && folded.possible; ++f) {
    Observed& observed = folded.observed[f];
    if (observed.if_present == 0.0L) {
      continue;
    }
    if (observed.informative()) {
      fold_positive_finding(network.findings[f], observed, folded, links);
    } else {
      folded.constant.multiply(observed.if_present);
    }
  }
  if (!folded.possible) {
    return folded;
  }
  sort_links(links, folded);
  sum_states(folded);
  weigh_levels(network, folded);
  if (folded.possible) {
    multiply_cold_parts(network, folded);
  }
  return folded;
}

}  // namespace dryout::diagnosis
