// Who is behind what was reported. That a part is not sound is one thing (in a set of fifty years
// most are not); that it is what makes the set hum is another, and it is the second that a
// technician asks for.
//
// For a set S of items and reported findings F: the chance that at least one of F is being caused
// by an item of S, given all evidence. A noisy-OR splits into what S does and what the rest does,
// so
//   P(S causes none of F, evidence) = P(evidence with every f in F caused by the rest alone, and
//                                       every item of S failing to cause any f)
// and the second condition weighs each item's state by the product of (1 - strength). Both are
// plain evidence to the exact engine, so the answer is exact.
#pragma once

#include <cstddef>
#include <vector>

#include "diagnosis/network.h"

namespace dryout::casework {

class Blame {
 public:
  /// `findings` must be among evidence.present; `log_evidence` is that of the evidence. Where there
  /// are no findings, an item is blamed by its being not sound at all.
  Blame(diagnosis::Network network, const diagnosis::Evidence& evidence,
        std::vector<std::size_t> findings, double log_evidence);

  /// P(some of `items` causes some of the findings | evidence).
  [[nodiscard]] double of(const std::vector<std::size_t>& items);
  /// The same for every item alone, most of them from one inference.
  [[nodiscard]] std::vector<double> of_each();
  /// The same for one item before any evidence: P(it would cause some of the findings).
  [[nodiscard]] double beforehand(std::size_t item, const std::vector<double>& prior) const;

 private:
  [[nodiscard]] std::vector<double> innocence(std::size_t item) const;
  [[nodiscard]] double blameless(const std::vector<std::size_t>& items);

  diagnosis::Network network_;
  const diagnosis::Evidence* evidence_;
  std::vector<std::size_t> findings_;
  double log_evidence_;
};

}  // namespace dryout::casework
