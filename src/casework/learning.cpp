#include "casework/learning.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "casework/subject.h"
#include "quantities/check.h"

namespace dryout::casework {
namespace {

/// P(state) of an item, averaged over the levels of its cohort.
double probability_of(const diagnosis::Network& network, const diagnosis::Item& item,
                      std::size_t state) {
  if (!item.cohort) {
    return item.given_level.front()[state];
  }
  const auto& levels = network.cohorts[*item.cohort].levels;
  double sum = 0.0;
  for (std::size_t level = 0; level < levels.size(); ++level) {
    sum += levels[level] * item.given_level[level][state];
  }
  return sum;
}

/// [item][state]: P(no symptom shows it).
std::vector<std::vector<double>> unseen_by_symptoms(const diagnosis::CompiledNetwork& compiled) {
  std::vector<std::vector<double>> unseen;
  for (const diagnosis::Item& item : compiled.network.items) {
    unseen.emplace_back(item.states.size(), 1.0);
  }
  for (std::size_t f = 0; f < compiled.findings.size(); ++f) {
    if (!compiled.findings[f].symptom.empty()) {
      for (const diagnosis::Cause& cause : compiled.network.findings[f].causes) {
        unseen[cause.item][cause.state] *= 1.0 - cause.strength;
      }
    }
  }
  return unseen;
}

void multiply_odds(std::vector<double>& row, double factor) {
  const double whole = row.front() + factor * (1.0 - row.front());
  row.front() /= whole;
  for (std::size_t state = 1; state < row.size(); ++state) {
    row[state] *= factor / whole;
  }
}

}  // namespace

std::vector<double> dirichlet_mean(const std::vector<double>& shares, double worth,
                                   const std::vector<double>& counts) {
  CHECK(shares.size() == counts.size());
  const double total = worth + std::accumulate(counts.begin(), counts.end(), 0.0);
  std::vector<double> mean;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    mean.push_back((worth * shares[i] + counts[i]) / total);
  }
  return mean;
}

std::vector<LearnedShare> learn_shares(const std::vector<std::pair<std::string, double>>& before,
                                       const std::vector<SubjectCases>& shop) {
  std::vector<LearnedShare> learned;
  std::vector<double> shares;
  std::int64_t total = 0;
  for (const auto& [subject, share] : before) {
    LearnedShare& one = learned.emplace_back();
    one.subject = subject;
    one.before = share;
    one.prior_count = knowledge_worth * share;
    shares.push_back(share);
    for (const SubjectCases& seen : shop) {
      one.cases += seen.subject == subject ? seen.cases : 0;
    }
    total += one.cases;
  }
  const double weight = total == 0 ? 0.0 : std::min(1.0, cases_most / static_cast<double>(total));
  std::vector<double> counted;
  for (LearnedShare& one : learned) {
    one.counted = weight * static_cast<double>(one.cases);
    counted.push_back(one.counted);
  }
  const auto after = dirichlet_mean(shares, knowledge_worth, counted);
  for (std::size_t i = 0; i < learned.size(); ++i) {
    learned[i].after = after[i];
    // What the knowledge holds for impossible stays so: it has no odds to multiply.
    learned[i].factor =
        shares[i] > 0.0 ? std::clamp(after[i] / shares[i], 1.0 / factor_most, factor_most) : 1.0;
  }
  return learned;
}

std::vector<std::pair<std::string, double>> expected_shares(
    const diagnosis::CompiledNetwork& compiled, const knowledge::Equipment& equipment) {
  const auto unseen = unseen_by_symptoms(compiled);
  std::map<std::string, double> by_subject;
  double total = 0.0;
  for (std::size_t i = 0; i < compiled.items.size(); ++i) {
    const diagnosis::Item& item = compiled.network.items[i];
    for (std::size_t state = 1; state < item.states.size(); ++state) {
      const double share = probability_of(compiled.network, item, state) * (1.0 - unseen[i][state]);
      by_subject[subject_of(compiled.items[i], equipment)] += share;
      total += share;
    }
  }
  std::vector<std::pair<std::string, double>> shares(by_subject.begin(), by_subject.end());
  for (auto& [subject, share] : shares) {
    share = total > 0.0 ? share / total : 0.0;
  }
  return shares;
}

void apply_shares(diagnosis::CompiledNetwork& compiled, const knowledge::Equipment& equipment,
                  const std::vector<LearnedShare>& shares) {
  for (std::size_t i = 0; i < compiled.items.size(); ++i) {
    const std::string subject = subject_of(compiled.items[i], equipment);
    const auto learned = std::find_if(shares.begin(), shares.end(),
                                      [&](const auto& one) { return one.subject == subject; });
    if (learned != shares.end()) {
      for (std::vector<double>& row : compiled.network.items[i].given_level) {
        multiply_odds(row, learned->factor);
      }
    }
  }
}

NormalBelief updated(const NormalBelief& before, double count, double observed, double spread) {
  const double prior_precision = 1.0 / (before.spread * before.spread);
  const double data_precision = count / (spread * spread);
  const double precision = prior_precision + data_precision;
  return {(prior_precision * before.mean + data_precision * observed) / precision,
          std::sqrt(1.0 / precision)};
}

std::vector<SoundReadings> sound_readings(const std::vector<casestore::SoundCount>& counts) {
  std::vector<SoundReadings> types;
  for (const casestore::SoundCount& count : counts) {  // those of one type stand together
    const bool same = !types.empty() && types.back().technology == count.technology &&
                      types.back().kind == count.kind &&
                      types.back().capacitance == count.capacitance &&
                      types.back().rated == count.rated;
    if (!same) {
      types.push_back({count.technology, count.kind, count.capacitance, count.rated, 0, 0.0});
    }
    SoundReadings& type = types.back();
    const double log_value = std::log(casestore::middle_of_bin(count.bin));
    type.readings += count.readings;
    type.log_mean += (log_value - type.log_mean) * static_cast<double>(count.readings) /
                     static_cast<double>(type.readings);
  }
  return types;
}

NormalBelief learn_typical(const NormalBelief& before, const SoundReadings& shop) {
  const double count = std::min(readings_most, static_cast<double>(shop.readings));
  NormalBelief after = updated(before, count, shop.log_mean, typical_spread);
  after.mean = std::clamp(after.mean, before.mean - std::log(factor_most),
                          before.mean + std::log(factor_most));
  return after;
}

}  // namespace dryout::casework
