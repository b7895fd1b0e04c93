// What a shop's closed cases teach: conjugate updating of two beliefs that the knowledge starts.
//
// What is to blame. Which subject (subject.h) a case of this equipment ends with is one draw from a
// categorical law; the knowledge's belief about that law is a Dirichlet one, worth
// `knowledge_worth` cases. The shop's closed cases of the same family are added, but never count
// for more than `cases_most` (they are scaled down together beyond that):
//   share = (knowledge_worth q + w n) / (knowledge_worth + w N),  w = min(1, cases_most / N)
// (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.4). The odds of an item's not
// being sound are multiplied by share / q, held between 1 / factor_most and factor_most.
//
// Bound. With misleading history no odds move by more than factor_most = 2 either way, so the log
// score of any one item before evidence loses at most ln 2. Between two suspects of whom exactly
// one is at fault the odds move by at most factor_most^2 = 4, at every ageing level and whatever
// the evidence: P'(i) / P(i) = f_i / sum_j P(j) f_j >= (1/2) / 2. So the log score of naming the
// faulty one loses at most ln 4 = 1.39, 6 decibans. The law of ageing is left alone.
//
// What is typical. ln(ESR) of sound parts of one type is normal with known spread; the belief about
// its mean is normal too, from the library's limit (same book, section 2.5). Readings beyond
// `readings_most` are scaled down to it, and the mean moves at most by a factor of two.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casestore/statistics.h"
#include "diagnosis/compile_network.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework {

/// A judgement: a shop that has closed as many cases as this is believed as much as the knowledge.
inline constexpr double knowledge_worth = 50.0;
inline constexpr double cases_most = 50.0;
inline constexpr double factor_most = 2.0;

/// One subject: what the knowledge expects of it, what the shop saw, and what is believed then.
struct LearnedShare {
  std::string subject;
  double before = 0.0;       ///< share of causes that the knowledge expects; sums to 1
  double prior_count = 0.0;  ///< knowledge_worth times `before`
  std::int64_t cases = 0;    ///< closed in this shop
  double counted = 0.0;      ///< as many of them as count
  double after = 0.0;        ///< posterior mean; sums to 1
  double factor = 1.0;       ///< on the odds of each of its items
};

struct SubjectCases {
  std::string subject;
  std::int64_t cases = 0;
};

/// Posterior mean of a Dirichlet law: counts added to `worth` times the shares.
[[nodiscard]] std::vector<double> dirichlet_mean(const std::vector<double>& shares, double worth,
                                                 const std::vector<double>& counts);

/// In the order of `before`, whose shares sum to 1. Subjects that it does not have are no part of
/// this equipment and are left out.
[[nodiscard]] std::vector<LearnedShare> learn_shares(
    const std::vector<std::pair<std::string, double>>& before,
    const std::vector<SubjectCases>& shop);

/// The share of cases that the network expects each subject to be the cause of, from how likely its
/// items are in each state and to be seen by any symptom in it. By subject.
[[nodiscard]] std::vector<std::pair<std::string, double>> expected_shares(
    const diagnosis::CompiledNetwork& compiled, const knowledge::Equipment& equipment);

/// Multiplies the odds of not being sound of every item by its subject's factor, at every level.
void apply_shares(diagnosis::CompiledNetwork& compiled, const knowledge::Equipment& equipment,
                  const std::vector<LearnedShare>& shares);

/// A normal belief about a mean.
struct NormalBelief {
  double mean = 0.0;
  double spread = 1.0;  ///< standard deviation
};

/// After `count` observations of mean `observed`, each with the known `spread`.
[[nodiscard]] NormalBelief updated(const NormalBelief& before, double count, double observed,
                                   double spread);

inline constexpr double readings_most = 20.0;
/// Of ln(ESR) between sound parts of one marking: from part to part 0.3, makers and meters the rest
/// (judgement).
inline constexpr double typical_spread = 0.4;

/// Sound parts of one type read alone in this shop.
struct SoundReadings {
  std::string technology, kind;
  quantities::Farad capacitance;
  quantities::Volt rated;
  std::int64_t readings = 0;
  double log_mean = 0.0;  ///< of ln(value)
};
[[nodiscard]] std::vector<SoundReadings> sound_readings(
    const std::vector<casestore::SoundCount>& counts);

/// Belief about ln(typical value) after the shop's readings; `before` from the library.
[[nodiscard]] NormalBelief learn_typical(const NormalBelief& before, const SoundReadings& shop);

}  // namespace dryout::casework
