// Checks that come to the same are worked out once: what is said of each must be what an inference
// of its own says.
#include "diagnosis/candidate_twins.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "diagnosis/posterior.h"

namespace dryout::diagnosis {
namespace {

/// Two batches of five like parts and three parts of no batch, a hum that all of the first batch
/// and the loose ones can make, and a look at each part.
struct Shelf {
  Network network;
  std::vector<std::size_t> looks;

  Shelf() {
    network.cohorts = {{"a", {0.5, 0.3, 0.2}}, {"b", {0.6, 0.4}}};
    for (int i = 0; i < 5; ++i) {
      add({"a" + std::to_string(i),
           {"sound", "tired", "dead"},
           0,
           {{0.97, 0.02, 0.01}, {0.7, 0.2, 0.1}, {0.3, 0.4, 0.3}}});
      add({"b" + std::to_string(i), {"sound", "dead"}, 1, {{0.9, 0.1}, {0.5, 0.5}}});
    }
    for (int i = 0; i < 3; ++i) {
      add({"c" + std::to_string(i), {"sound", "dead"}, std::nullopt, {{0.95, 0.05}}});
    }
    Finding hum{"hum", 0.02, {}};
    for (std::size_t item = 0; item < network.items.size(); ++item) {
      if (network.items[item].id.front() != 'b') {
        hum.causes.push_back({item, network.items[item].states.size() - 1, 0.6});
      }
    }
    network.findings.push_back(hum);
  }
  void add(Item item) {
    const std::size_t at = network.items.size();
    const std::size_t dead = item.states.size() - 1;
    network.findings.push_back({"look at " + item.id, 0.01, {{at, dead, 0.9}}});
    looks.push_back(network.findings.size() - 1);
    network.items.push_back(std::move(item));
  }
  [[nodiscard]] std::size_t hum() const { return network.findings.size() - 1; }
};

void expect_what_inference_says(const Shelf& shelf, const Evidence& evidence,
                                std::size_t twins_expected) {
  const auto foresight = infer_with_outlook(shelf.network, evidence, shelf.looks);
  ASSERT_TRUE(foresight.ok());
  const auto twins = std::count_if(foresight->outlooks.begin(), foresight->outlooks.end(),
                                   [](const Outlook& outlook) { return outlook.twin.has_value(); });
  EXPECT_EQ(static_cast<std::size_t>(twins), twins_expected);
  for (const Outlook& outlook : foresight->outlooks) {
    for (const bool present : {true, false}) {
      Evidence more = evidence;
      (present ? more.present : more.absent).push_back(outlook.finding);
      const auto then = infer(shelf.network, more);
      ASSERT_TRUE(then.ok());
      const ItemBeliefs& said = present ? outlook.items_if_present : outlook.items_if_absent;
      const auto moved = said.moved();
      for (std::size_t item = 0; item < shelf.network.items.size(); ++item) {
        for (std::size_t state = 0; state < then->items[item].size(); ++state) {
          EXPECT_NEAR(said[item][state], then->items[item][state], 1e-12)
              << shelf.network.findings[outlook.finding].id << (present ? " bad, " : " good, ")
              << shelf.network.items[item].id;
        }
        if (std::abs(then->items[item][0] - foresight->now.items[item][0]) > 1e-9) {
          EXPECT_NE(std::find(moved.begin(), moved.end(), item), moved.end());
        }
      }
    }
  }
}

TEST(CandidateTwins, BeforeAnythingIsToldEachKindIsWorkedOutOnce) {
  expect_what_inference_says(Shelf(), {}, 13 - 3);
}

TEST(CandidateTwins, LikePartsStayAlikeUnderASharedComplaint) {
  const Shelf shelf;
  Evidence evidence;
  evidence.present = {shelf.hum()};
  expect_what_inference_says(shelf, evidence, 13 - 3);
}

TEST(CandidateTwins, APartThatWasReadStandsApart) {
  const Shelf shelf;
  Evidence evidence;
  evidence.present = {shelf.hum()};
  evidence.readings = {{0, {{0.9, 0.3, 0.1}}}};
  expect_what_inference_says(shelf, evidence, 13 - 4);
  // The same reading at another part makes the two alike again.
  evidence.readings.push_back({2, {{0.9, 0.3, 0.1}}});
  expect_what_inference_says(shelf, evidence, 13 - 4);
}

TEST(CandidateTwins, PartsLookedAtAlikeAreAlike) {
  const Shelf shelf;
  Evidence evidence;
  evidence.absent = {shelf.looks[0], shelf.looks[2]};
  const auto twins = find_twins(shelf.network, evidence, shelf.looks);
  EXPECT_FALSE(twins[0]) << "what evidence speaks of is no twin";
  ASSERT_TRUE(twins[6]);
  EXPECT_EQ(twins[6]->of, 4U) << "the first of the five that was not looked at";
  EXPECT_EQ(twins[6]->own_item, 6U);
  EXPECT_EQ(twins[6]->its_item, 4U);
}

TEST(CandidateTwins, AnotherStrengthOrLeakIsAnotherCheck) {
  Shelf shelf;
  shelf.network.findings[shelf.looks[2]].causes.front().strength = 0.8;
  shelf.network.findings[shelf.looks[4]].leak = 0.02;
  const auto twins = find_twins(shelf.network, {}, shelf.looks);
  EXPECT_FALSE(twins[2]);
  EXPECT_FALSE(twins[4]);
  EXPECT_TRUE(twins[6]);
}

}  // namespace
}  // namespace dryout::diagnosis
