// Who is to blame for the complaint, as against: who is merely old. In an aged set many parts are
// not sound without having anything to do with what the owner hears; a repair must find those that
// do. For an item in a faulty state that can show a finding of the complaint with strength c,
//
//   P(it did show it | the finding is present) = c / (1 - (1 - c) (1 - a)),
//
// where a is the chance that the leak or another item would have shown it anyway (Bayes' rule on a
// noisy-OR, with the others as they were before the complaint). The blame of an item is the sum
// over its states of P(state) times the chance that some finding is its doing. It is linear in the
// posterior, so that one inference values every check by the blame after each of its outcomes; the
// price is that a stands still. The exact figure, for showing to people, is casework's.
#pragma once

#include <cstddef>
#include <vector>

#include "diagnosis/network.h"
#include "diagnosis/posterior.h"

namespace dryout::planning {

class LinearBlame {
 public:
  /// With an empty complaint, the findings that are surely present; where there are none either,
  /// every state that is not sound counts in full. The network must outlive this.
  LinearBlame(const diagnosis::Network& network, const diagnosis::Posterior& now,
              std::vector<std::size_t> complaint);

  /// Blame of an item, 0 to 1, where its states have these probabilities. `States` is indexed by
  /// state: a vector or a span.
  template <class States>
  [[nodiscard]] double of(std::size_t item, const States& states) const {
    double blame = 0.0;
    for (std::size_t s = 1; s < factors_[item].size(); ++s) {
      blame += factors_[item][s] * states[s];
    }
    return blame;
  }

  /// Whether the two would be blamed alike, rounding apart, for being in the same state.
  [[nodiscard]] bool alike(std::size_t item, std::size_t other) const;

  /// Blame of every item under these posteriors.
  [[nodiscard]] std::vector<double> of_all(
      const std::vector<std::vector<double>>& posteriors) const;

 private:
  void add_finding(const diagnosis::Finding& finding, const diagnosis::Posterior& now);

  const diagnosis::Network* network_;
  std::vector<std::vector<double>> factors_;  ///< [item][state]; P(its doing | state)
};

}  // namespace dryout::planning
