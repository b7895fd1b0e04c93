// Draws against the exact posteriors: of published and random networks, of enumeration, and of the
// other engines' figures in data/ (infer_test.cpp names them).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/drawn_answers.h"
#include "diagnosis/network_json.h"
#include "documents/parse.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

NetworkFile generated(const std::string& name) {
  const auto document =
      documents::read_file(std::string(DRYOUT_SOURCE_DIR) + "/tests/diagnosis/data/" + name);
  return *read_network({document->file, *document->root.find("network")});
}

double worst_error(const Posterior& posterior, const Posterior& exact) {
  double worst = 0.0;
  for (std::size_t i = 0; i < exact.items.size(); ++i) {
    for (std::size_t s = 0; s < exact.items[i].size(); ++s) {
      worst = std::max(worst, std::abs(posterior.items[i][s] - exact.items[i][s]));
    }
  }
  return worst;
}

TEST(Tangent, LiesAboveAndTouches) {
  for (const double touches : {0.01, 0.3, 1.0, 4.0, 20.0}) {
    const Tangent tangent = Tangent::at(0, touches);
    EXPECT_NEAR(tangent.log_bound(touches), std::log(-std::expm1(-touches)), 1e-12);
    for (double s = 0.001; s < 40.0; s *= 1.3) {
      EXPECT_GE(tangent.log_bound(s), std::log(-std::expm1(-s)) - 1e-12) << touches << ' ' << s;
    }
    // A cause of strength 1 makes the finding certain: the bound is 1 there, or more.
    EXPECT_NEAR(tangent.log_bound(tangent.of_strength(1.0)), 0.0, 1e-9);
  }
}

TEST(PosteriorDraws, AreExactWhereNothingIsSetAside) {
  int seen = 0;
  for (unsigned seed = 0; seed < 300; ++seed) {
    RandomNetwork random(seed);
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    const auto exact = infer(network, evidence);
    const auto draws = PosteriorDraws::draw(network, evidence, {1e6, 64});
    ASSERT_EQ(draws.ok(), exact.ok()) << seed;
    if (!exact) {
      continue;
    }
    ++seen;
    EXPECT_EQ(draws->set_aside(), 0U);
    EXPECT_LT(worst_error(draws->posterior(), *exact), 1e-9) << seed;
    EXPECT_NEAR(draws->posterior().log_evidence, exact->log_evidence, 1e-9) << seed;
  }
  EXPECT_GT(seen, 100);
}

TEST(PosteriorDraws, AgreeWithGeneralPurposeEngines) {
  for (const char* const name : {"bn2o_8.json", "bn2o_12weak.json"}) {
    const NetworkFile file = generated(name);
    const auto exact = infer(file.network, file.evidence);
    const auto draws = PosteriorDraws::draw(file.network, file.evidence, {1e9, 16});
    ASSERT_TRUE(draws);
    EXPECT_LT(worst_error(draws->posterior(), *exact), 1e-12) << name;
  }
}

/// Each draw must come as often as its chance says: whole states counted against enumeration.
TEST(PosteriorDraws, ComeAsOftenAsTheirChance) {
  Network network;
  network.cohorts = {{"k", {0.7, 0.3}}};
  network.items = {{"C1", {"sound", "dried"}, 0, {{0.9, 0.1}, {0.4, 0.6}}},
                   {"C2", {"sound", "dried", "short"}, 0, {{0.8, 0.1, 0.1}, {0.3, 0.4, 0.3}}},
                   {"joint", {"sound", "bad"}, {}, {{0.95, 0.05}}}};
  network.findings = {{"hum", 0.02, {{0, 1, 0.9}, {1, 1, 0.5}, {2, 1, 0.3}}},
                      {"noise", 0.01, {{0, 1, 0.2}, {1, 2, 0.7}, {2, 1, 1.0}}}};
  const Evidence evidence{{0, 1}, {}, {}, {}};
  const auto draws = PosteriorDraws::draw(network, evidence, {1e6, 20000});
  ASSERT_TRUE(draws);
  const Enumerated expected = enumerate(network, evidence);
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
      double counted = 0.0;
      for (std::size_t n = 0; n < draws->size(); ++n) {
        counted += draws->states(n)[i] == s ? draws->weight(n) : 0.0;
      }
      const auto truth = static_cast<double>(expected.items[i][s] / expected.evidence);
      EXPECT_NEAR(counted, truth, 4.0 * std::sqrt(0.25 / 20000.0));
    }
  }
}

/// The smaller the sweep, the more is set aside, down to nothing shared at all. The truth must lie
/// within what is stated.
TEST(PosteriorDraws, KeepTheirWordWithFindingsSetAside) {
  for (const char* const name : {"bn2o_8.json", "bn2o_12weak.json"}) {
    const NetworkFile file = generated(name);
    const auto exact = infer(file.network, file.evidence);
    std::size_t aside_before = 0;
    for (const double cells : {3000.0, 600.0, 1.0}) {
      const auto draws = PosteriorDraws::draw(file.network, file.evidence, {cells, 20000});
      ASSERT_TRUE(draws);
      EXPECT_GT(draws->set_aside(), aside_before) << name << cells;
      aside_before = draws->set_aside();
      EXPECT_GT(draws->within(), 0.0);
      // With every finding of the weak network set aside the draws know nothing, and say so.
      EXPECT_LT(worst_error(draws->posterior(), *exact), draws->within()) << name << ' ' << cells;
      if (draws->set_aside() <= 3) {
        EXPECT_LT(draws->within(), 0.25) << name << ' ' << cells;
        EXPECT_NEAR(draws->posterior().log_evidence, exact->log_evidence, 0.1) << name;
      }
    }
  }
}

TEST(PosteriorDraws, KeepTheirWordOnRandomNetworks) {
  int figures = 0;
  int outside = 0;
  for (unsigned seed = 0; seed < 150; ++seed) {
    RandomNetwork random(seed, {3, 8, 7});
    const Network network = random.network();
    const Evidence evidence = random.evidence(network);
    const auto exact = infer(network, evidence);
    if (!exact) {
      continue;
    }
    const auto draws = PosteriorDraws::draw(network, evidence, {1.0, 2000});
    if (!draws) {
      continue;  // soft findings alone cannot be set aside
    }
    for (std::size_t i = 0; i < network.items.size(); ++i) {
      std::vector<double> sound(draws->size());
      for (std::size_t n = 0; n < draws->size(); ++n) {
        sound[n] = draws->states(n)[i] == 0 ? 1.0 : 0.0;
      }
      const Estimate estimate = draws->average(sound);
      ++figures;
      outside += std::abs(estimate.value - exact->items[i][0]) > estimate.within ? 1 : 0;
    }
  }
  EXPECT_GT(figures, 200);
  EXPECT_LE(outside, figures / 100) << "of " << figures;
}

TEST(PosteriorDraws, AreTheSameEveryTime) {
  const NetworkFile file = generated("bn2o_8.json");
  const auto one = PosteriorDraws::draw(file.network, file.evidence, {600.0, 500});
  const auto other = PosteriorDraws::draw(file.network, file.evidence, {600.0, 500});
  ASSERT_TRUE(one && other);
  EXPECT_EQ(one->posterior().items, other->posterior().items);
}

TEST(PosteriorDraws, ContradictionsAreNamed) {
  Network network;
  network.items = {{"C1", {"sound", "dried"}, {}, {{0.9, 0.1}}},
                   {"C2", {"sound", "dried"}, {}, {{0.8, 0.2}}}};
  network.findings = {{"hum", 0.0, {{0, 1, 0.9}, {1, 1, 0.5}}}};
  const Evidence evidence{{0}, {}, {}, {{0, {{1.0, 0.0}}}, {1, {{1.0, 0.0}}}}};
  const auto draws = PosteriorDraws::draw(network, evidence, {1e6, 10});
  ASSERT_FALSE(draws);
  EXPECT_NE(draws.problems().front().message.find("hum present"), std::string::npos);
}

TEST(DrawnAnswers, OutlooksAreNearTheExactOnes) {
  const NetworkFile file = generated("bn2o_8.json");
  std::vector<std::size_t> candidates;
  for (std::size_t f = 0; f < file.network.findings.size(); ++f) {
    candidates.push_back(f);  // those with evidence among them
  }
  const auto exact = infer_with_outlook(file.network, file.evidence, candidates);
  const auto draws = PosteriorDraws::draw(file.network, file.evidence, {1e6, 20000});
  ASSERT_TRUE(exact && draws);
  const Foresight drawn = foresee(*draws, candidates);
  EXPECT_EQ(drawn.precision.draws, 20000U);
  ASSERT_EQ(drawn.outlooks.size(), exact->outlooks.size());
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    const Outlook& a = drawn.outlooks[c];
    const Outlook& b = exact->outlooks[c];
    EXPECT_NEAR(a.present, b.present, 0.02);
    for (const auto& [one, other] : {std::pair(&a.items_if_present, &b.items_if_present),
                                     std::pair(&a.items_if_absent, &b.items_if_absent)}) {
      ASSERT_EQ(one->empty(), other->empty()) << c;
      const double comes = one == &a.items_if_present ? b.present : 1.0 - b.present;
      for (std::size_t i = 0; !one->empty() && comes > 0.05 && i < one->size(); ++i) {
        EXPECT_NEAR((*one)[i][0], (*other)[i][0], 0.02 / std::sqrt(comes)) << c << ' ' << i;
      }
    }
  }
}

TEST(DrawnAnswers, WeightsAreNearTheExactOnes) {
  const NetworkFile file = generated("bn2o_8.json");
  const auto exact = leave_one_out(file.network, file.evidence);
  const auto draws = PosteriorDraws::draw(file.network, file.evidence, {1e6, 40000});
  ASSERT_TRUE(exact && draws);
  const EvidenceWeights drawn = leave_one_out(*draws);
  EXPECT_EQ(drawn.pieces, exact->pieces);
  int told = 0;
  for (std::size_t piece = 0; piece < drawn.pieces.size(); ++piece) {
    for (std::size_t item = 0; item < file.network.items.size(); ++item) {
      const double weight = drawn.weight[piece][item].value;
      if (weight != 0.0) {
        ++told;
        EXPECT_NEAR(weight, exact->weight[piece][item].value, 3.0) << piece << ' ' << item;
      }
    }
  }
  EXPECT_GT(told, 10);
}

TEST(DrawnAnswers, AFewItemsMakeTheFindingAsBayesSays) {
  // Two causes of one finding, worked by hand: P(C1 makes it | present), leak and C2 the rest.
  Network network;
  network.items = {{"C1", {"sound", "dried"}, {}, {{0.9, 0.1}}},
                   {"C2", {"sound", "dried"}, {}, {{0.8, 0.2}}}};
  network.findings = {{"hum", 0.02, {{0, 1, 0.9}, {1, 1, 0.5}}}};
  const Evidence evidence{{0}, {}, {}, {}};
  const auto draws = PosteriorDraws::draw(network, evidence, {1e6, 40000});
  ASSERT_TRUE(draws);
  const std::vector<std::vector<std::size_t>> sets{{0}, {1}, {0, 1}};
  const std::vector<std::size_t> findings{0};
  const auto found = blame(*draws, sets, findings);
  const double c1 = 0.1 * 0.9;
  const double c2 = 0.2 * 0.5;
  const double present = 1.0 - (1.0 - 0.02) * (1.0 - c1) * (1.0 - c2);
  EXPECT_NEAR(found[0].value, c1 / present, found[0].within);
  EXPECT_NEAR(found[1].value, c2 / present, found[1].within);
  EXPECT_NEAR(found[2].value, (1.0 - (1.0 - c1) * (1.0 - c2)) / present, found[2].within);
  EXPECT_LT(found[0].within, 0.02);
}

TEST(TooWide, FollowsFromTheShapeAlone) {
  const NetworkFile file = generated("bn2o_8.json");
  EXPECT_FALSE(too_wide(file.network, file.evidence, 10));
  EXPECT_TRUE(too_wide(file.network, file.evidence, 10'000'000));
  EXPECT_FALSE(too_wide(file.network, {}, 10'000'000)) << "nothing is shared";
}

}  // namespace
}  // namespace dryout::diagnosis
