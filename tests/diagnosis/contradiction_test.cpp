// Evidence that cannot be true together: named by a smallest set, against trying every subset.
#include <gtest/gtest.h>

#include <bit>

#include "diagnosis/posterior.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

Evidence subset(const Evidence& evidence, unsigned mask) {
  Evidence kept;
  unsigned bit = 1;
  const auto take = [&](const auto& from, auto& to) {
    for (const auto& piece : from) {
      if ((mask & bit) != 0) {
        to.push_back(piece);
      }
      bit <<= 1U;
    }
  };
  take(evidence.present, kept.present);
  take(evidence.absent, kept.absent);
  take(evidence.soft, kept.soft);
  take(evidence.readings, kept.readings);
  return kept;
}

std::size_t pieces(const Evidence& evidence) {
  return evidence.present.size() + evidence.absent.size() + evidence.soft.size() +
         evidence.readings.size();
}

std::size_t smallest_by_trying_all(const Network& network, const Evidence& evidence) {
  std::size_t smallest = pieces(evidence);
  for (unsigned mask = 1; mask < (1U << pieces(evidence)); ++mask) {
    const auto size = static_cast<std::size_t>(std::popcount(mask));
    if (size < smallest && enumerate(network, subset(evidence, mask)).evidence == 0.0L) {
      smallest = size;
    }
  }
  return smallest;
}

TEST(SmallestContradiction, HasTheFewestPiecesOnRandomNetworks) {
  int contradictions = 0;
  for (unsigned seed = 1; contradictions < 60; ++seed) {
    RandomNetwork random(seed + 40'000, {.cohorts_max = 2, .items_max = 4, .findings_max = 6});
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    if (pieces(evidence) > 9 || enumerate(network, evidence).evidence > 0.0L) {
      continue;
    }
    ++contradictions;
    EXPECT_EQ(smallest_contradiction(network, evidence).size(),
              smallest_by_trying_all(network, evidence))
        << "seed " << seed;
  }
}

/// Hum comes from C1 or C2 alone; C1 dried also shows ripple, always.
Network hum() {
  Network network;
  network.items = {{"C1", {"sound", "dried"}, {}, {{0.9, 0.1}}},
                   {"C2", {"sound", "dried"}, {}, {{0.9, 0.1}}},
                   {"Q1", {"sound", "failed"}, {}, {{0.9, 0.1}}}};
  network.findings = {{"hum", 0.0, {{0, 1, 0.9}, {1, 1, 0.9}}},
                      {"ripple", 0.0, {{0, 1, 1.0}}},
                      {"crackle", 0.1, {{2, 1, 0.9}}}};
  return network;
}

TEST(SmallestContradiction, NamesWhatCannotBeTrueTogetherAndNothingElse) {
  // Hum needs C1 or C2; C2 reads good beyond doubt, and C1 would have shown ripple.
  const Evidence evidence{{0, 2}, {1}, {}, {{1, {{1.0, 0.0}}}, {2, {{0.5, 0.6}}}}};
  EXPECT_EQ(smallest_contradiction(hum(), evidence),
            (std::vector<std::string>{"hum present", "ripple absent", "reading of C2"}));
  const auto posterior = infer(hum(), evidence);
  ASSERT_FALSE(posterior);
  EXPECT_EQ(posterior.problems().front().found, "hum present, ripple absent, reading of C2");
}

TEST(SmallestContradiction, IsEmptyWhereTheEvidenceIsPossible) {
  EXPECT_TRUE(smallest_contradiction(hum(), {{0}, {1}, {}, {}}).empty());
}

TEST(SmallestContradiction, TakesTheSameFindingPresentAndAbsentAsOne) {
  EXPECT_EQ(smallest_contradiction(hum(), {{2, 0}, {2}, {}, {}}),
            (std::vector<std::string>{"crackle present", "crackle absent"}));
}

TEST(SmallestContradiction, TellsReadingsOfOneItemApart) {
  const Evidence evidence{{}, {}, {}, {{0, {{1.0, 0.0}}}, {0, {{0.0, 1.0}}}}};
  EXPECT_EQ(smallest_contradiction(hum(), evidence),
            (std::vector<std::string>{"reading of C1", "reading of C1 (2)"}));
}

TEST(SmallestContradiction, DoesNotMistakeTheImprobableForTheImpossible) {
  Network network;
  Evidence evidence;
  for (std::size_t i = 0; i < 40; ++i) {
    network.items.push_back(
        {"i" + std::to_string(i), {"sound", "failed"}, {}, {{1.0 - 1e-12, 1e-12}}});
    network.findings.push_back({"f" + std::to_string(i), 0.0, {{i, 1, 1e-12}}});
    evidence.present.push_back(i);
  }
  EXPECT_TRUE(smallest_contradiction(network, evidence).empty());
  EXPECT_TRUE(infer(network, evidence));
}

}  // namespace
}  // namespace dryout::diagnosis
