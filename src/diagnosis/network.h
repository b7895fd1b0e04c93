// The fault network as plain data: what can be wrong, how ageing is shared, and what each fault
// shows. No knowledge base and no names of parts in here; compile_network.h makes one from them,
// network_json.h reads and writes one.
//
// Meaning. Each item is in exactly one of its states; state 0 is "sound". Items of one cohort are
// independent given the cohort's level. A finding is a leaky noisy-OR of (item, state) pairs:
//   P(absent | states) = (1 - leak) * product over true causes of (1 - strength)
// (Pearl, Probabilistic Reasoning in Intelligent Systems, 1988; leak: Henrion 1989).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "quantities/result.h"

namespace dryout::diagnosis {

struct Cohort {
  std::string id;
  std::vector<double> levels;  ///< P(level); sums to 1
};

struct Item {
  std::string id;
  std::vector<std::string> states;  ///< at least two, the first is the sound one
  std::optional<std::size_t> cohort;
  /// P(state | level), one row a level; exactly one row where there is no cohort. Rows sum to 1.
  std::vector<std::vector<double>> given_level;
};

struct Cause {
  std::size_t item = 0;
  std::size_t state = 0;
  double strength = 0.0;  ///< P(finding | only this cause, no leak), 0 to 1
};

struct Finding {
  std::string id;
  double leak = 0.0;  ///< P(finding | no cause), 0 to 1
  std::vector<Cause> causes;
};

struct Network {
  std::vector<Cohort> cohorts;
  std::vector<Item> items;
  std::vector<Finding> findings;
};

/// Virtual evidence on a finding: P(observation | present) and P(observation | absent).
struct SoftFinding {
  std::size_t finding = 0;
  double if_present = 1.0;
  double if_absent = 1.0;
};

/// Evidence on an item itself: P(reading | state), one row, or one row per level of its cohort.
/// Several readings of one item multiply.
struct ItemReading {
  std::size_t item = 0;
  std::vector<std::vector<double>> likelihood;
};

struct Evidence {
  std::vector<std::size_t> present;
  std::vector<std::size_t> absent;
  std::vector<SoftFinding> soft;
  std::vector<ItemReading> readings;
};

/// Refuses a network that does not mean anything: probabilities outside [0, 1], rows that do not
/// sum to 1 within 1e-6 (they are rescaled by the reader), dangling indices, a repeated id.
[[nodiscard]] quantities::Problems check(const Network& network);
[[nodiscard]] quantities::Problems check(const Network& network, const Evidence& evidence);

}  // namespace dryout::diagnosis
