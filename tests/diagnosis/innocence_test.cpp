// An item's innocence from the one sweep against a second inference in which its links to the
// findings are gone and its states weigh by failing to show them; the sum over every world that
// both must equal is in tests/casework/blame_test.cpp.
#include "diagnosis/innocence.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/posterior.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

double inferred_again(Network network, Evidence evidence, std::size_t item, double log_evidence) {
  std::vector<double> innocent(network.items[item].states.size(), 1.0);
  for (const std::size_t finding : evidence.present) {
    auto& causes = network.findings[finding].causes;
    for (const Cause& cause : causes) {
      if (cause.item == item) {
        innocent[cause.state] *= 1.0 - cause.strength;
      }
    }
    std::erase_if(causes, [item](const Cause& cause) { return cause.item == item; });
  }
  evidence.readings.push_back({item, {innocent}});
  const auto without = infer(network, evidence);
  return without ? std::exp(without->log_evidence - log_evidence) : 0.0;
}

int compare(unsigned seed, Sizes sizes) {
  RandomNetwork random(seed, sizes);
  const Network network = random.network();
  const Evidence evidence = random.evidence(network);
  const auto now = infer(network, evidence);
  const auto innocence = innocence_of_each(network, evidence, evidence.present);
  EXPECT_EQ(now.ok(), innocence.ok()) << "seed " << seed;
  int compared = 0;
  for (std::size_t item = 0; now.ok() && item < network.items.size(); ++item) {
    if (const auto found = (*innocence)[item]) {
      const double expected = inferred_again(network, evidence, item, now->log_evidence);
      EXPECT_NEAR(*found, expected, 1e-9 * expected + 1e-13) << "seed " << seed << " item " << item;
      compared += *found < 1.0 ? 1 : 0;
    }
  }
  return compared;
}

TEST(InnocenceOfEach, EqualsInferringAgainWithoutTheItemsLinks) {
  int compared = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    compared += compare(seed + 30'000, {});
  }
  EXPECT_GT(compared, 200) << "most items were left to another inference";
}

TEST(InnocenceOfEach, EqualsInferringAgainWhereCohortsAreCutIntoSteps) {
  int compared = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    compared += compare(seed + 40'000, {.cohorts_max = 3, .items_max = 14, .findings_max = 14});
  }
  EXPECT_GT(compared, 60);
}

}  // namespace
}  // namespace dryout::diagnosis
