// Learning from closed cases: conjugate updating against published examples, its bound by brute
// force, and simulated shops in which it must help.
#include "casework/learning.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "casework/invented_bench.h"
#include "casework/subject.h"
#include "diagnosis/posterior.h"
#include "knowledge/load.h"
#include "planning/hidden_set.h"

namespace dryout::casework {
namespace {

using planning::Dice;
using planning::HiddenSet;
using testing::ElementsAre;
using testing::Gt;

/// Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.4: a poll of 1447 with 727, 583
/// and 137 answers and a flat prior gives Dirichlet(728, 584, 138); counts recalled from memory.
TEST(Learning, DirichletMeanAgreesWithThePublishedPoll) {
  const auto mean = dirichlet_mean({1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0}, 3.0, {727.0, 583.0, 137.0});
  EXPECT_NEAR(mean[0], 728.0 / 1450.0, 1e-12);
  EXPECT_NEAR(mean[0] - mean[1], 0.0993, 5e-5);
  EXPECT_NEAR(mean[2], 138.0 / 1450.0, 1e-12);
}

/// The same book, exercise 2.8, recalled from memory: weights with spread 20, mean 150, prior
/// N(180, 40). The published answer for ten of them is 150.7 and 6.2, for a hundred 150.1 and 2.0.
TEST(Learning, NormalUpdateAgreesWithThePublishedExercise) {
  const NormalBelief ten = updated({180.0, 40.0}, 10.0, 150.0, 20.0);
  EXPECT_NEAR(ten.mean, 150.7, 0.05);
  EXPECT_NEAR(ten.spread, 6.2, 0.06);
  const NormalBelief hundred = updated({180.0, 40.0}, 100.0, 150.0, 20.0);
  EXPECT_NEAR(hundred.mean, 150.1, 0.05);
  EXPECT_NEAR(hundred.spread, 2.0, 0.05);
}

/// By another road: prior times likelihood on a fine grid.
TEST(Learning, NormalUpdateAgreesWithAGrid) {
  const NormalBelief before{-0.7, 0.48};
  const NormalBelief after = updated(before, 7.0, -0.2, 0.4);
  double sum = 0.0;
  double first = 0.0;
  double second = 0.0;
  for (double x = -4.0; x < 4.0; x += 1e-4) {
    const double prior = (x - before.mean) / before.spread;
    const double data = (x + 0.2) / 0.4;
    const double density = std::exp(-0.5 * (prior * prior + 7.0 * data * data));
    sum += density;
    first += x * density;
    second += x * x * density;
  }
  EXPECT_NEAR(after.mean, first / sum, 1e-6);
  EXPECT_NEAR(after.spread, std::sqrt(second / sum - first / sum * (first / sum)), 1e-6);
}

TEST(Learning, TheShopNeverCountsForMoreThanTheKnowledge) {
  const auto learned = learn_shares({{"a", 0.7}, {"b", 0.2}, {"c", 0.1}},
                                    {{"b", 9'000}, {"c", 1'000}, {"elsewhere", 70'000}});
  double counted = 0.0;
  double after = 0.0;
  for (const LearnedShare& share : learned) {
    counted += share.counted;
    after += share.after;
    EXPECT_GE(share.factor, 1.0 / factor_most);
    EXPECT_LE(share.factor, factor_most);
  }
  EXPECT_NEAR(counted, cases_most, 1e-9);
  EXPECT_NEAR(after, 1.0, 1e-12);
  EXPECT_NEAR(learned[0].factor, 0.5, 1e-12) << "never seen in a thousand cases: half the odds";
  EXPECT_NEAR(learned[1].after, (50.0 * 0.2 + 45.0) / 100.0, 1e-12);
}

TEST(Learning, WithoutClosedCasesNothingMoves) {
  for (const LearnedShare& share : learn_shares({{"a", 0.7}, {"b", 0.3}}, {})) {
    EXPECT_NEAR(share.factor, 1.0, 1e-12);
    EXPECT_NEAR(share.after, share.before, 1e-12);
  }
}

TEST(Learning, ATypicalReadingMovesNoFurtherThanTwofold) {
  const NormalBelief before{std::log(0.4), 0.48};
  SoundReadings shop;
  shop.readings = 5'000;
  shop.log_mean = std::log(40.0);
  EXPECT_NEAR(learn_typical(before, shop).mean, std::log(0.8), 1e-12);
  shop.log_mean = std::log(0.5);
  const NormalBelief after = learn_typical(before, shop);
  EXPECT_GT(after.mean, before.mean);
  EXPECT_LT(after.mean, shop.log_mean);
  EXPECT_NEAR(after.spread, updated(before, 20.0, 0.0, typical_spread).spread, 1e-12);
}

TEST(Learning, SoundReadingsAreGatheredByType) {
  const auto uf = quantities::microfarads(47);
  const auto types = sound_readings({{"film", "esr", uf, quantities::volts(63), 3, 2},
                                     {"film", "esr", uf, quantities::volts(63), 7, 2},
                                     {"film", "esr", uf, quantities::volts(100), 7, 1}});
  ASSERT_EQ(types.size(), 2U);
  EXPECT_EQ(types[0].readings, 4);
  EXPECT_NEAR(types[0].log_mean, 5.5 / 40.0 * std::log(10.0), 1e-12);
}

/// One kind of equipment with the world it is met in: its subjects' odds times or over `shift`.
struct Shop {
  Shop(const knowledge::KnowledgeBase& knowledge, const std::string& id)
      : equipment(*knowledge::find(knowledge.equipment, id)) {
    diagnosis::SetParticulars set;
    set.year_now = 2026;
    model = diagnosis::compile_network(knowledge, equipment, set);
    shares = expected_shares(model, equipment);
  }
  diagnosis::Network world(double shift) const {
    std::vector<LearnedShare> tilt;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      tilt.emplace_back().subject = shares[i].first;
      tilt.back().factor = i % 2 == 0 ? shift : 1.0 / shift;
    }
    diagnosis::CompiledNetwork tilted = model;
    apply_shares(tilted, equipment, tilt);
    return tilted.network;
  }
  diagnosis::Network learned(const std::vector<SubjectCases>& cases) const {
    diagnosis::CompiledNetwork taught = model;
    apply_shares(taught, equipment, learn_shares(shares, cases));
    return taught.network;
  }
  bool complains(const HiddenSet& set) const {
    for (std::size_t f = 0; f < model.findings.size(); ++f) {
      if (!model.findings[f].symptom.empty() && set.shows(f)) {
        return true;
      }
    }
    return false;
  }

  const knowledge::Equipment& equipment;
  diagnosis::CompiledNetwork model;
  std::vector<std::pair<std::string, double>> shares;
};

HiddenSet next_complaint(const Shop& shop, const diagnosis::Network& world, Dice& dice) {
  for (;;) {
    HiddenSet set(world, dice);
    if (shop.complains(set)) {
      return set;
    }
  }
}

/// Closed cases of a world: of each set, what cures the whole complaint when it is mended.
std::vector<SubjectCases> history(const Shop& shop, const diagnosis::Network& world, int cases,
                                  Dice& dice) {
  std::vector<SubjectCases> seen;
  for (int c = 0; c < cases; ++c) {
    const HiddenSet set = next_complaint(shop, world, dice);
    for (std::size_t i = 0; i < shop.model.items.size(); ++i) {
      HiddenSet mended = set;
      mended.mend(i);
      if (!set.sound(i) && !shop.complains(mended)) {
        seen.push_back({subject_of(shop.model.items[i], shop.equipment), 1});
        break;
      }
    }
  }
  return seen;
}

diagnosis::Evidence symptoms_of(const Shop& shop, const HiddenSet& set) {
  diagnosis::Evidence evidence;
  for (std::size_t f = 0; f < shop.model.findings.size(); ++f) {
    if (!shop.model.findings[f].symptom.empty()) {
      (set.shows(f) ? evidence.present : evidence.absent).push_back(f);
    }
  }
  return evidence;
}

/// The log score of a set: of what the figures say of each item, once its faults are known.
double log_score(const diagnosis::Network& network, const diagnosis::Evidence& evidence,
                 const HiddenSet& truth) {
  const auto posterior = diagnosis::infer(network, evidence);
  EXPECT_TRUE(posterior.ok());
  double score = 0.0;
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    const double sound = posterior->items[i][0];
    score += std::log(std::max(1e-12, truth.sound(i) ? sound : 1.0 - sound));
  }
  return score;
}

/// Gain of the taught network over the knowledge alone, set by set, on sets held out.
std::vector<double> gains(const Shop& shop, const diagnosis::Network& world,
                          const diagnosis::Network& taught, int sets, Dice& dice) {
  std::vector<double> gains;
  for (int s = 0; s < sets; ++s) {
    const HiddenSet set = next_complaint(shop, world, dice);
    const auto evidence = symptoms_of(shop, set);
    gains.push_back(log_score(taught, evidence, set) -
                    log_score(shop.model.network, evidence, set));
  }
  return gains;
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double standard_error(const std::vector<double>& values) {
  const double mean = mean_of(values);
  double sum = 0.0;
  for (const double value : values) {
    sum += (value - mean) * (value - mean);
  }
  const auto n = static_cast<double>(values.size());
  return std::sqrt(sum / (n - 1.0) / n);
}

const knowledge::KnowledgeBase& shipped() {
  static const auto loaded = knowledge::load({DRYOUT_SOURCE_DIR});
  EXPECT_TRUE(loaded.ok());
  return *loaded;
}

constexpr int closed_cases = 120;
constexpr double shifted = 3.0;  // the shop's odds are thrice, or a third of, what we believe

TEST(Learning, ImprovesTheLogScoreOnHeldOutSetsOfAShiftedShop) {
  const Shop shop(shipped(), "loudspeaker-system");
  Dice dice(20260304);
  const auto world = shop.world(shifted);
  const auto taught = shop.learned(history(shop, world, closed_cases, dice));
  const auto gain = gains(shop, world, taught, 150, dice);
  RecordProperty("mean_gain", std::to_string(mean_of(gain)));
  EXPECT_GT(mean_of(gain), 2.0 * standard_error(gain)) << "nats a set";
}

TEST(Learning, ImprovesTheLogScoreInManySmallShops) {
  const auto knowledge = tests::invented_knowledge();
  const Shop shop(knowledge, "lantern");
  const auto world = shop.world(shifted);
  std::vector<double> means;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Dice dice(seed);
    const auto taught = shop.learned(history(shop, world, closed_cases, dice));
    means.push_back(mean_of(gains(shop, world, taught, 60, dice)));
  }
  EXPECT_GT(mean_of(means), 2.0 * standard_error(means));
}

/// A history from the very opposite of the world that is then met.
TEST(Learning, MisleadingHistoryCostsLessThanTheBound) {
  const auto knowledge = tests::invented_knowledge();
  for (const bool small : {true, false}) {
    const Shop shop(small ? knowledge : shipped(), small ? "lantern" : "loudspeaker-system");
    Dice dice(7);
    const auto taught =
        shop.learned(history(shop, shop.world(1.0 / shifted), 5 * closed_cases, dice));
    const auto gain = gains(shop, shop.world(shifted), taught, 60, dice);
    RecordProperty(small ? "lantern_mean_loss" : "shipped_mean_loss",
                   std::to_string(-mean_of(gain)));
    EXPECT_GT(mean_of(gain), -std::log(factor_most * factor_most)) << shop.equipment.id;
  }
}

/// P(exactly item i is at fault | evidence, exactly one is, ageing level), by brute force.
std::vector<double> only_one_at_fault(const diagnosis::Network& network,
                                      const diagnosis::Evidence& evidence, std::size_t level) {
  const auto likelihood = [&](std::size_t item, std::size_t state) {
    const auto absent = [&](std::size_t f) {
      double p = 1.0 - network.findings[f].leak;
      for (const diagnosis::Cause& cause : network.findings[f].causes) {
        p *= cause.item == item && cause.state == state ? 1.0 - cause.strength : 1.0;
      }
      return p;
    };
    double product = 1.0;
    for (const std::size_t f : evidence.present) {
      product *= 1.0 - absent(f);
    }
    for (const std::size_t f : evidence.absent) {
      product *= absent(f);
    }
    return product;
  };
  std::vector<double> weights;
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    const auto& rows = network.items[i].given_level;
    const auto& row = rows[std::min(level, rows.size() - 1)];
    double weight = 0.0;
    for (std::size_t state = 1; state < row.size(); ++state) {
      weight += row[state] / row[0] * likelihood(i, state);
    }
    weights.push_back(weight);
  }
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  for (double& weight : weights) {
    weight /= sum;
  }
  return weights;
}

TEST(Learning, NoHistoryMovesTheOddsBetweenTwoSuspectsBeyondTheBound) {
  const Shop shop(shipped(), "loudspeaker-system");
  Dice dice(11);
  double worst = 0.0;
  for (int round = 0; round < 40; ++round) {
    std::vector<SubjectCases> liar;  // blames at random, and often
    for (int i = 0; i < 3; ++i) {
      liar.push_back({shop.shares[static_cast<std::size_t>(dice.unit() *
                                                           static_cast<double>(shop.shares.size()))]
                          .first,
                      static_cast<std::int64_t>(dice.unit() * 100'000.0)});
    }
    const auto taught = shop.learned(liar);
    const auto evidence = symptoms_of(shop, next_complaint(shop, shop.model.network, dice));
    for (std::size_t level = 0; level < 3; ++level) {
      const auto before = only_one_at_fault(shop.model.network, evidence, level);
      const auto after = only_one_at_fault(taught, evidence, level);
      for (std::size_t i = 0; i < before.size(); ++i) {
        if (before[i] > 0.0) {
          worst = std::max(worst, std::log(before[i] / after[i]));
        }
      }
    }
  }
  EXPECT_LE(worst, std::log(factor_most * factor_most) + 1e-9);
  EXPECT_GT(worst, 0.5 * std::log(factor_most)) << "the liars must have been heard at all";
}

TEST(Learning, TheOddsOfEveryItemMoveByItsFactorAtEveryLevel) {
  const auto knowledge = tests::invented_knowledge();
  const Shop shop(knowledge, "lantern");
  const auto taught = shop.learned({{"role:reservoir", 40}});
  const auto shares = learn_shares(shop.shares, {{"role:reservoir", 40}});
  for (std::size_t i = 0; i < taught.items.size(); ++i) {
    const std::string subject = subject_of(shop.model.items[i], shop.equipment);
    const auto share = std::find_if(shares.begin(), shares.end(),
                                    [&](const auto& each) { return each.subject == subject; });
    ASSERT_NE(share, shares.end());
    for (std::size_t level = 0; level < taught.items[i].given_level.size(); ++level) {
      const auto& before = shop.model.network.items[i].given_level[level];
      const auto& after = taught.items[i].given_level[level];
      EXPECT_NEAR(std::accumulate(after.begin(), after.end(), 0.0), 1.0, 1e-12);
      for (std::size_t state = 1; state < before.size(); ++state) {
        EXPECT_NEAR(after[state] / after[0], share->factor * before[state] / before[0], 1e-12);
      }
    }
  }
}

TEST(Learning, ExpectedSharesLeaveOutWhatNoSymptomShows) {
  const auto knowledge = tests::invented_knowledge();
  const Shop shop(knowledge, "lantern");
  double sum = 0.0;
  std::vector<std::string> subjects;
  for (const auto& [subject, share] : shop.shares) {
    sum += share;
    subjects.push_back(subject);
  }
  EXPECT_NEAR(sum, 1.0, 1e-12);
  EXPECT_THAT(subjects, ElementsAre("cause:dirty-contact", "cause:open-diode",
                                    "role:audio-coupling", "role:reservoir"));
  // A dirty contact (0.1, always seen) against three coupling capacitors (0.002 each open).
  EXPECT_THAT(shop.shares[0].second, Gt(10.0 * shop.shares[2].second));
}

}  // namespace
}  // namespace dryout::casework
