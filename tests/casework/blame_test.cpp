// Blame against the sum over every world: which items are in which state, and which causes act.
#include "casework/blame.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "diagnosis/posterior.h"

namespace dryout::casework {
namespace {

using diagnosis::Cause;
using diagnosis::Evidence;
using diagnosis::Network;

/// Every (items' states, which causes act, which leaks act) with its probability.
class Worlds {
 public:
  Worlds(const Network& network, const Evidence& evidence, const std::vector<std::size_t>& findings)
      : network_(network), evidence_(evidence), findings_(findings) {}

  /// P(one of `items` acts on one of the findings | evidence).
  double blame(const std::vector<std::size_t>& items) {
    items_ = &items;
    all_ = blamed_ = 0.0;
    std::vector<std::size_t> states(network_.items.size(), 0);
    walk_states(0, 1.0, states);
    return blamed_ / all_;
  }

 private:
  void walk_states(std::size_t item, double p, std::vector<std::size_t>& states) {
    if (item == network_.items.size()) {
      walk_findings(0, p, false, states);
      return;
    }
    const auto& row = network_.items[item].given_level[0];
    for (std::size_t s = 0; s < row.size(); ++s) {
      states[item] = s;
      walk_states(item + 1, p * row[s], states);
    }
  }

  void walk_findings(std::size_t finding, double p, bool guilty,
                     const std::vector<std::size_t>& states) {
    if (p == 0.0) {
      return;
    }
    if (finding == network_.findings.size()) {
      all_ += p;
      blamed_ += guilty ? p : 0.0;
      return;
    }
    const double leak = network_.findings[finding].leak;
    walk_causes(finding, 0, p * leak, true, guilty, states);
    walk_causes(finding, 0, p * (1.0 - leak), false, guilty, states);
  }

  void walk_causes(std::size_t finding, std::size_t c, double p, bool shown, bool guilty,
                   const std::vector<std::size_t>& states) {
    const auto& causes = network_.findings[finding].causes;
    if (c == causes.size()) {
      if (contains(evidence_.present, finding) ? shown
                                               : !contains(evidence_.absent, finding) || !shown) {
        walk_findings(finding + 1, p, guilty, states);
      }
      return;
    }
    const Cause& cause = causes[c];
    if (states[cause.item] != cause.state) {
      walk_causes(finding, c + 1, p, shown, guilty, states);
      return;
    }
    const bool counts = contains(findings_, finding) && contains(*items_, cause.item);
    walk_causes(finding, c + 1, p * cause.strength, true, guilty || counts, states);
    walk_causes(finding, c + 1, p * (1.0 - cause.strength), shown, guilty, states);
  }

  static bool contains(const std::vector<std::size_t>& list, std::size_t value) {
    return std::find(list.begin(), list.end(), value) != list.end();
  }

  const Network& network_;
  const Evidence& evidence_;
  const std::vector<std::size_t>& findings_;
  const std::vector<std::size_t>* items_ = nullptr;
  double all_ = 0.0;
  double blamed_ = 0.0;
};

Network random_network(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  Network network;
  for (int i = 0; i < 4; ++i) {
    const double a = unit(random) * 0.4;
    const double b = unit(random) * 0.4;
    network.items.push_back({std::to_string(i), {"sound", "a", "b"}, {}, {{1.0 - a - b, a, b}}});
  }
  for (int f = 0; f < 3; ++f) {
    diagnosis::Finding finding{"f" + std::to_string(f), unit(random) * 0.2, {}};
    for (std::size_t item = 0; item < 4; ++item) {
      for (std::size_t state = 1; state < 3; ++state) {
        if (unit(random) < 0.6) {
          finding.causes.push_back({item, state, unit(random) < 0.15 ? 1.0 : unit(random)});
        }
      }
    }
    network.findings.push_back(std::move(finding));
  }
  return network;
}

TEST(Blame, EqualsTheSumOverEveryWorld) {
  std::mt19937 random(7);  // NOLINT: a fixed seed
  for (int round = 0; round < 20; ++round) {
    const Network network = random_network(random);
    Evidence evidence;
    evidence.present =
        round % 2 == 0 ? std::vector<std::size_t>{0} : std::vector<std::size_t>{0, 1};
    if (round % 3 == 0) {
      evidence.absent = {2};
    }
    const auto posterior = diagnosis::infer(network, evidence);
    if (!posterior) {
      continue;
    }
    Blame blame(network, evidence, evidence.present, posterior->log_evidence);
    Worlds worlds(network, evidence, evidence.present);
    for (const auto& items : {std::vector<std::size_t>{0}, {1}, {2, 3}, {0, 1, 2, 3}}) {
      EXPECT_NEAR(blame.of(items), worlds.blame(items), 1e-9) << "round " << round;
    }
    const std::vector<double> each = blame.of_each();
    for (std::size_t item = 0; item < network.items.size(); ++item) {
      EXPECT_NEAR(each[item], worlds.blame({item}), 1e-9) << "round " << round;
    }
  }
}

TEST(Blame, WithNoComplaintItIsNotBeingSound) {
  Network network;
  network.items = {{"x", {"sound", "bad"}, {}, {{0.9, 0.1}}},
                   {"y", {"sound", "bad"}, {}, {{0.8, 0.2}}}};
  const Evidence nothing;
  const auto posterior = diagnosis::infer(network, nothing);
  Blame blame(network, nothing, {}, posterior->log_evidence);
  EXPECT_NEAR(blame.of({0}), 0.1, 1e-12);
  EXPECT_NEAR(blame.of({0, 1}), 1.0 - 0.9 * 0.8, 1e-12);
  EXPECT_NEAR(blame.beforehand(1, {0.8, 0.2}), 0.2, 1e-12);
}

TEST(Blame, AnOldPartThatCannotShowItIsNotBlamed) {
  Network network;
  network.items = {{"old", {"sound", "dried"}, {}, {{0.1, 0.9}}},
                   {"rare", {"sound", "broken"}, {}, {{0.99, 0.01}}}};
  network.findings = {{"hum", 0.001, {{1, 1, 1.0}}}};
  Evidence evidence;
  evidence.present = {0};
  const auto posterior = diagnosis::infer(network, evidence);
  Blame blame(network, evidence, {0}, posterior->log_evidence);
  EXPECT_EQ(blame.of({0}), 0.0);
  EXPECT_GT(blame.of({1}), 0.9);
}

}  // namespace
}  // namespace dryout::casework
