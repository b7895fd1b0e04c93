// Invented equipment as a bare network and bench, the same for a seed on every platform: blocks in
// a row, each with ageing capacitors of a shared cohort and one cause that is no capacitor; every
// block shows a symptom and has checks, some behind covers, some with the power on. Invented data.
#pragma once

#include <cstddef>
#include <random>
#include <string>

#include "planning/next_check.h"

namespace dryout::planning {

struct InventedSet {
  diagnosis::Network network;
  Bench bench;
};

class SetInventor {
 public:
  explicit SetInventor(unsigned seed) : random_(seed) {}

  double unit() { return static_cast<double>(random_() >> 11U) * 0x1p-53; }
  double between(double low, double high) { return low + (high - low) * unit(); }

  InventedSet invent(std::size_t blocks, std::size_t capacitors_per_block) {
    set_ = {};
    set_.bench.access = {{"lid", quantities::minutes(3.0), {}},
                         {"shield", quantities::minutes(6.0), {0}},
                         {"board-out", quantities::minutes(15.0), {0}}};
    for (std::size_t b = 0; b < blocks; ++b) {
      add_block(b, capacitors_per_block);
    }
    return set_;
  }

 private:
  std::vector<std::size_t> access_of(std::size_t block) { return {block % 3}; }

  void add_block(std::size_t b, std::size_t capacitors) {
    const std::string name = "b" + std::to_string(b);
    auto& network = set_.network;
    network.cohorts.push_back({name, {0.5, 0.3, 0.2}});
    diagnosis::Finding symptom{name + "-symptom", 0.01, {}};
    diagnosis::Finding rail{name + "-rail-bad", 0.02, {}};
    for (std::size_t c = 0; c < capacitors; ++c) {
      const std::size_t item = network.items.size();
      const double worst = between(0.1, 0.4);
      network.items.push_back(
          {name + "-c" + std::to_string(c),
           {"sound", "tired", "dried"},
           b,
           {{0.97, 0.025, 0.005}, {0.8, 0.17, 0.03}, {0.7 - worst, 0.3, worst}}});
      const double strength = between(0.3, 0.9);
      symptom.causes.push_back({item, 2, strength});
      rail.causes.push_back({item, 2, between(0.5, 0.95)});
      add_part_check(name + "-esr" + std::to_string(c), item, b);
      set_.bench.remedies.push_back({item, quantities::minutes(between(5, 20)), access_of(b)});
    }
    const std::size_t cause = network.items.size();
    network.items.push_back({name + "-joint", {"sound", "cracked"}, {}, {{0.98, 0.02}}});
    symptom.causes.push_back({cause, 1, 0.8});
    set_.bench.remedies.push_back({cause, quantities::minutes(8.0), access_of(b)});
    network.findings.push_back(symptom);
    set_.bench.checks.push_back({name + "-rail", network.findings.size(),
                                 quantities::minutes(between(1, 3)), access_of(b),
                                 b % 2 == 0 ? Danger::mains : Danger::none});
    network.findings.push_back(rail);
    set_.bench.checks.push_back({name + "-joint", network.findings.size(), quantities::minutes(4.0),
                                 access_of(b), Danger::none});
    network.findings.push_back({name + "-joint-seen", 0.01, {{cause, 1, 0.9}}});
  }

  void add_part_check(const std::string& name, std::size_t item, std::size_t block) {
    set_.bench.checks.push_back({name, set_.network.findings.size(),
                                 quantities::minutes(between(1, 4)), access_of(block),
                                 Danger::stored_charge});
    set_.network.findings.push_back({name + "-high", 0.03, {{item, 1, 0.7}, {item, 2, 0.97}}});
  }

  std::mt19937_64 random_;
  InventedSet set_;
};

}  // namespace dryout::planning
