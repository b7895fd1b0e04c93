// The reference for every exactness test: all joint states of a small network, one after the other,
// in extended precision. Nothing clever, so that nothing can be wrong with it.
#pragma once

#include <vector>

#include "diagnosis/network.h"

namespace dryout::diagnosis {

struct Enumerated {
  long double evidence = 0.0L;                  ///< P(evidence)
  std::vector<std::vector<long double>> items;  ///< joint with the evidence
  std::vector<std::vector<long double>> cohorts;
  std::vector<long double> findings;  ///< joint of "present" with the evidence
};

class Enumeration {
 public:
  Enumeration(const Network& network, const Evidence& evidence)
      : network_(network),
        evidence_(evidence),
        level_(network.cohorts.size()),
        state_(network.items.size()) {
    for (const Item& item : network.items) {
      sum_.items.emplace_back(item.states.size());
    }
    for (const Cohort& cohort : network.cohorts) {
      sum_.cohorts.emplace_back(cohort.levels.size());
    }
    sum_.findings.resize(network.findings.size());
  }

  Enumerated run() {
    choose_level(0, 1.0L);
    return sum_;
  }

 private:
  void choose_level(std::size_t cohort, long double weight) {
    if (cohort == network_.cohorts.size()) {
      choose_state(0, weight);
      return;
    }
    for (std::size_t level = 0; level < network_.cohorts[cohort].levels.size(); ++level) {
      level_[cohort] = level;
      choose_level(cohort + 1, weight * network_.cohorts[cohort].levels[level]);
    }
  }

  void choose_state(std::size_t item, long double weight) {
    if (weight == 0.0L) {
      return;
    }
    if (item == network_.items.size()) {
      add(weight);
      return;
    }
    const Item& it = network_.items[item];
    const std::size_t level = it.cohort ? level_[*it.cohort] : 0;
    for (std::size_t state = 0; state < it.states.size(); ++state) {
      state_[item] = state;
      long double w = weight * it.given_level[level][state];
      for (const ItemReading& reading : evidence_.readings) {
        if (reading.item == item) {
          w *= reading.likelihood[reading.likelihood.size() == 1 ? 0 : level][state];
        }
      }
      choose_state(item + 1, w);
    }
  }

  void add(long double weight) {
    std::vector<long double> absent(network_.findings.size());
    std::vector<long double> present(network_.findings.size());
    for (std::size_t f = 0; f < network_.findings.size(); ++f) {
      absent[f] = 1.0L - network_.findings[f].leak;
      present[f] = network_.findings[f].leak;
      for (const Cause& cause : network_.findings[f].causes) {
        if (state_[cause.item] == cause.state) {
          present[f] += absent[f] * cause.strength;
          absent[f] *= 1.0L - cause.strength;
        }
      }
    }
    weigh(absent, present);
    for (std::size_t f = 0; f < network_.findings.size(); ++f) {
      weight *= absent[f] + present[f];
    }
    if (weight == 0.0L) {
      return;
    }
    sum_.evidence += weight;
    for (std::size_t i = 0; i < state_.size(); ++i) {
      sum_.items[i][state_[i]] += weight;
    }
    for (std::size_t c = 0; c < level_.size(); ++c) {
      sum_.cohorts[c][level_[c]] += weight;
    }
    for (std::size_t f = 0; f < network_.findings.size(); ++f) {
      sum_.findings[f] += weight * (present[f] / (absent[f] + present[f]));
    }
  }

  void weigh(std::vector<long double>& absent, std::vector<long double>& present) const {
    for (const std::size_t f : evidence_.present) {
      absent[f] = 0.0L;
    }
    for (const std::size_t f : evidence_.absent) {
      present[f] = 0.0L;
    }
    for (const SoftFinding& soft : evidence_.soft) {
      absent[soft.finding] *= soft.if_absent;
      present[soft.finding] *= soft.if_present;
    }
  }

  const Network& network_;
  const Evidence& evidence_;
  std::vector<std::size_t> level_;
  std::vector<std::size_t> state_;
  Enumerated sum_;
};

inline Enumerated enumerate(const Network& network, const Evidence& evidence) {
  return Enumeration(network, evidence).run();
}

}  // namespace dryout::diagnosis
