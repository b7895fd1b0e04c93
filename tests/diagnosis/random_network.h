// Random small networks with everything that the format allows: cohorts and lone items, two to
// four states, strengths 0, 1e-12 and 1 among the ordinary ones, hard and soft findings, readings
// with one row or one per level. Invented data.
#pragma once

#include <cmath>
#include <random>
#include <string>

#include "diagnosis/network.h"

namespace dryout::diagnosis {

struct Sizes {
  std::size_t cohorts_max = 3;
  std::size_t items_max = 6;
  std::size_t findings_max = 7;
};

class RandomNetwork {
 public:
  explicit RandomNetwork(unsigned seed, Sizes sizes = {}) : random_(seed), sizes_(sizes) {}

  Network network() {
    Network network;
    const std::size_t cohorts = below(sizes_.cohorts_max + 1);
    for (std::size_t c = 0; c < cohorts; ++c) {
      network.cohorts.push_back({"k" + std::to_string(c), distribution(1 + below(3))});
    }
    const std::size_t items = 1 + below(sizes_.items_max);
    for (std::size_t i = 0; i < items; ++i) {
      network.items.push_back(item(network, i));
    }
    const std::size_t findings = 1 + below(sizes_.findings_max);
    for (std::size_t f = 0; f < findings; ++f) {
      network.findings.push_back(finding(network, f));
    }
    return network;
  }

  /// Every finding is present, absent, soft or not looked at; some items carry readings.
  Evidence evidence(const Network& network) {
    Evidence evidence;
    for (std::size_t f = 0; f < network.findings.size(); ++f) {
      const std::size_t kind = below(6);
      if (kind <= 1) {
        evidence.present.push_back(f);
      } else if (kind == 2) {
        evidence.absent.push_back(f);
      } else if (kind == 3) {
        evidence.soft.push_back({f, unit() < 0.1 ? 0.0 : unit(), unit() < 0.1 ? 0.0 : unit()});
      }
    }
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      for (std::size_t k = below(5); k >= 3; --k) {
        evidence.readings.push_back(reading(network, i));
      }
    }
    return evidence;
  }

  double unit() { return std::uniform_real_distribution<double>(0.0, 1.0)(random_); }
  std::size_t below(std::size_t end) {
    return std::uniform_int_distribution<std::size_t>(0, end - 1)(random_);
  }

 private:
  double strength() {
    switch (below(8)) {
      case 0:
        return 0.0;
      case 1:
        return 1e-12;
      case 2:
        return 1.0;
      case 3:
        return 1.0 - 1e-12;
      default:
        return unit();
    }
  }

  std::vector<double> distribution(std::size_t size) {
    std::vector<double> row(size);
    double sum = 0.0;
    for (double& p : row) {
      p = below(12) == 0 ? 0.0 : 0.001 + std::pow(unit(), 3.0);
      sum += p;
    }
    if (sum == 0.0) {
      row[0] = sum = 1.0;
    }
    for (double& p : row) {
      p /= sum;
    }
    return row;
  }

  Item item(const Network& network, std::size_t index) {
    Item item;
    item.id = "i" + std::to_string(index);
    const std::size_t states = 2 + below(3);
    for (std::size_t s = 0; s < states; ++s) {
      item.states.push_back("s" + std::to_string(s));
    }
    std::size_t rows = 1;
    if (!network.cohorts.empty() && below(4) != 0) {
      item.cohort = below(network.cohorts.size());
      rows = network.cohorts[*item.cohort].levels.size();
    }
    for (std::size_t row = 0; row < rows; ++row) {
      item.given_level.push_back(distribution(states));
    }
    return item;
  }

  Finding finding(const Network& network, std::size_t index) {
    Finding finding;
    finding.id = "f" + std::to_string(index);
    finding.leak = below(3) == 0 ? 0.0 : (below(20) == 0 ? 1.0 : 0.2 * unit());
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      for (std::size_t s = below(10) == 0 ? 0 : 1; s < network.items[i].states.size(); ++s) {
        if (below(3) == 0) {
          finding.causes.push_back({i, s, strength()});
        }
      }
    }
    return finding;
  }

  ItemReading reading(const Network& network, std::size_t index) {
    const Item& item = network.items[index];
    ItemReading reading{index, {}};
    const std::size_t rows = below(2) == 0 ? 1 : item.given_level.size();
    for (std::size_t row = 0; row < rows; ++row) {
      std::vector<double>& likelihood = reading.likelihood.emplace_back();
      for (std::size_t s = 0; s < item.states.size(); ++s) {
        likelihood.push_back(below(15) == 0 ? 0.0 : 3.0 * unit());
      }
    }
    return reading;
  }

  std::mt19937 random_;
  Sizes sizes_;
};

/// Every finding seen: the costliest evidence.
inline Evidence all_present(const Network& network) {
  Evidence evidence;
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    evidence.present.push_back(f);
  }
  return evidence;
}

}  // namespace dryout::diagnosis
