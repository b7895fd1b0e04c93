// Why the engine never subtracts: plain inclusion-exclusion in double precision, beside it, on
// networks with rare faults and weak links. Prints the table that src/diagnosis/README.md quotes.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>

#include "diagnosis/inference.h"
#include "diagnosis/random_network.h"

namespace dryout::diagnosis {
namespace {

/// 40 two-state items without cohorts, every finding present, five weak causes each; invented.
Network weak_network(std::size_t findings, unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&random](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) * 0x1p-32;
  };
  constexpr std::size_t items = 40;
  Network network;
  for (std::size_t i = 0; i < items; ++i) {
    const double p = std::pow(10.0, between(-3.0, -1.5));
    network.items.push_back({"i" + std::to_string(i), {"sound", "failed"}, {}, {{1.0 - p, p}}});
  }
  for (std::size_t f = 0; f < findings; ++f) {
    Finding finding{"f" + std::to_string(f), std::pow(10.0, between(-3.0, -1.3)), {}};
    const std::size_t first = random() % items;
    for (std::size_t k = 0; k < 5; ++k) {
      finding.causes.push_back({(first + 7 * k) % items, 1, between(0.02, 0.2)});
    }
    network.findings.push_back(finding);
  }
  return network;
}

/// P(all findings present) = sum over sets S of findings of (-1)^|S| P(none of S), and the sum of
/// the sizes of those terms over the result: by how much rounding is magnified.
struct Signed {
  double probability = 0.0;
  double magnified = 0.0;
};

Signed inclusion_exclusion(const Network& network) {
  const std::size_t findings = network.findings.size();
  Signed sum;
  for (std::size_t set = 0; set < (std::size_t{1} << findings); ++set) {
    double term = 1.0;
    std::vector<double> silent(network.items.size(), 1.0);
    for (std::size_t f = 0; f < findings; ++f) {
      if (((set >> f) & 1U) != 0) {
        term *= -(1.0 - network.findings[f].leak);
        for (const Cause& cause : network.findings[f].causes) {
          silent[cause.item] *= 1.0 - cause.strength;
        }
      }
    }
    for (std::size_t i = 0; i < silent.size(); ++i) {
      const std::vector<double>& p = network.items[i].given_level.front();
      term *= p[0] + p[1] * silent[i];
    }
    sum.probability += term;
    sum.magnified += std::abs(term);
  }
  sum.magnified /= std::abs(sum.probability);
  return sum;
}

/// P(all findings present) by the plain definition over the states of few items.
long double by_enumeration(const Network& network) {
  long double total = 0.0L;
  for (std::size_t state = 0; state < (std::size_t{1} << network.items.size()); ++state) {
    long double p = 1.0L;
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      p *= network.items[i].given_level.front()[(state >> i) & 1U];
    }
    for (const Finding& finding : network.findings) {
      long double absent = 1.0L - finding.leak;
      for (const Cause& cause : finding.causes) {
        absent *= ((state >> cause.item) & 1U) != 0 ? 1.0L - cause.strength : 1.0L;
      }
      p *= 1.0L - absent;
    }
    total += p;
  }
  return total;
}

double engine(const Network& network) {
  const auto posterior = infer(network, all_present(network));
  EXPECT_TRUE(posterior.ok());
  return std::exp(posterior->log_evidence);
}

// Relative errors against the engine. Rounding of 1e-16 is magnified by the sum of the terms' sizes
// over P(e) (Higham, Accuracy and Stability of Numerical Algorithms, 2002, section 4.2, recalled).
TEST(Cancellation, TakesAllDigitsOfInclusionExclusionAtEightWeakFindings) {
  std::printf(
      "| positives | P(e) | magnified | error of inclusion-exclusion |\n|---|---|---|---|\n");
  for (const std::size_t findings : {2U, 4U, 6U, 8U, 10U, 12U}) {
    const Network network = weak_network(findings, 3);
    const double exact = engine(network);
    const Signed plain = inclusion_exclusion(network);
    const double error = std::abs(plain.probability - exact) / exact;
    const double magnified = plain.magnified * std::abs(plain.probability) / exact;
    std::printf("| %zu | %.1e | %.0e | %.0e |\n", findings, exact, magnified, error);
    EXPECT_LE(error, 1e-14 * magnified);
    if (findings == 2) {
      EXPECT_LE(error, 1e-10);
    }
    if (findings >= 8) {
      EXPECT_GE(error, 0.1);
    }
  }
}

// What the engine is held against above is itself held against the definition where that can still
// be added up; all terms are positive there, so nothing cancels.
TEST(Cancellation, LeavesTheEngineUntouched) {
  for (const unsigned seed : {1U, 2U, 3U}) {
    Network network = weak_network(12, seed);
    network.items.resize(14);
    for (Finding& finding : network.findings) {
      for (std::size_t k = 0; k < finding.causes.size(); ++k) {
        finding.causes[k].item = (finding.causes[0].item + 3 * k) % network.items.size();
      }
    }
    const auto expected = static_cast<double>(by_enumeration(network));
    EXPECT_NEAR(engine(network), expected, 1e-12 * expected);
  }
}

// Where nothing else can follow any more: the same sweep with 64 instead of 53 bits.
TEST(Cancellation, LeavesDoubleEqualToExtendedPrecisionAtEverySize) {
  for (const std::size_t findings : {4U, 8U, 12U, 16U}) {
    const Network network = weak_network(findings, 3);
    const Evidence evidence = all_present(network);
    const FoldedEvidence folded = fold_evidence(network, evidence);
    const auto plan = plan_sweep(folded);
    ASSERT_TRUE(plan.ok());
    const ExplainedSetSweep<long double> sweep(folded, *plan);
    const Posterior extended = posterior_of(sweep, find_marginals(sweep), false);
    const auto posterior = infer(network, evidence);
    ASSERT_TRUE(posterior.ok());
    EXPECT_NEAR(posterior->log_evidence, extended.log_evidence, 1e-12);
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      const double expected = extended.items[i][1];
      EXPECT_NEAR(posterior->items[i][1], expected, 1e-12 * expected) << findings << " item " << i;
    }
  }
}

}  // namespace
}  // namespace dryout::diagnosis
