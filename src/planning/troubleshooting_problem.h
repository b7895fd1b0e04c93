// A bare troubleshooting problem: exactly one fault is present; repairs, checks and access cost
// minutes; find what to do next, at the least expected cost. No knowledge base in here: it exists
// so that a planner can be held against theory and against the exact optimum.
//
// Meaning. Access stays open once paid for and opens what it needs first. A repair surely removes
// the faults it fixes, and at once and for free one sees whether the equipment works; the job ends
// when it does. Repeating a check gives the same outcome again. Giving up ends the job at
// give_up_minutes.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace dryout::planning {

struct Fault {
  std::string id;
  double prior = 0.0;  ///< normalised over all faults by the reader
};

struct Access {
  std::string id;
  double minutes = 0.0;
  std::vector<std::size_t> needs;  ///< other accesses; no cycles
};

struct Repair {
  std::string id;
  std::vector<std::size_t> fixes;
  double minutes = 0.0;
  std::vector<std::size_t> access;
};

struct Check {
  std::string id;
  double minutes = 0.0;
  std::vector<std::size_t> access;
  std::vector<std::string> outcomes;
  std::vector<std::vector<double>> given;  ///< [fault][outcome] = P(outcome | fault)
};

struct TroubleshootingProblem {
  /// Sizes that planners take; the reader refuses more.
  static constexpr std::size_t faults_max = 1000, repairs_max = 200, checks_max = 64,
                               access_max = 64;

  std::vector<Fault> faults;
  std::vector<Access> access;
  std::vector<Repair> repairs;
  std::vector<Check> checks;
  double give_up_minutes = 0.0;
};

}  // namespace dryout::planning
