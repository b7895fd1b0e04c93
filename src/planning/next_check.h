// Which check to make next on a real set: every candidate with what it costs, what it is expected
// to bring, and why. Works on a compiled fault network; knows nothing of files or windows.
//
// The value of a check is measured on the job's own scale: minutes to a proven repair. The minutes
// that remain are those of trying repairs in the order of probability over cost (optimal for a
// single fault with independent perfect repairs: Kadane and Simon 1977; Heckerman, Breese and
// Rommelse, CACM 38(3), 1995); a check is worth the expected drop of that figure, less its own
// minutes. Access is paid once and shared by everything behind it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "diagnosis/network.h"
#include "diagnosis/posterior.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::planning {

/// Something to be opened before hands or probes reach: lid, shield, board out.
struct AccessStep {
  std::string id;
  quantities::Second effort;
  std::vector<std::size_t> needs;  ///< indices of other steps
};

enum class Danger { none, stored_charge, mains, high_tension };

/// A yes/no check: looks for one finding of the network.
struct CandidateCheck {
  std::string id;
  std::size_t finding = 0;
  quantities::Second effort;
  std::vector<std::size_t> access;
  Danger danger = Danger::none;
};

/// What it takes to cure an item that is not sound.
struct Remedy {
  std::size_t item = 0;
  quantities::Second effort;
  std::vector<std::size_t> access;
};

struct Bench {
  std::vector<AccessStep> access;
  std::vector<bool> open;              ///< [access] already opened
  std::vector<CandidateCheck> checks;  ///< already without those refused or out of reach
  std::vector<Remedy> remedies;        ///< one per item that can be mended
};

struct RankedCheck {
  std::size_t check = 0;             ///< index into Bench::checks
  double present = 0.0;              ///< P(outcome "present")
  double gain_bits = 0.0;            ///< expected drop of uncertainty about what is at fault
  quantities::Second saving;         ///< expected minutes saved on the way to a proven repair
  quantities::Second effort;         ///< the check itself
  quantities::Second access_effort;  ///< what must still be opened for it
  std::vector<std::size_t> opens;    ///< access steps still closed, in the order to open them
  double score = 0.0;                ///< gain per minute; the list is ordered by it
};

/// Best first. A dangerous check never stands ahead of a dead one that is expected to bring as
/// much.
[[nodiscard]] std::vector<RankedCheck> rank_checks(const diagnosis::Network& network,
                                                   const diagnosis::Foresight& foresight,
                                                   const Bench& bench);

/// The contingency tree of the next steps: what to check, and then what, after either outcome.
struct TreeNode {
  std::size_t check = 0;  ///< index into Bench::checks; unused in a leaf
  bool leaf = true;
  double probability = 1.0;      ///< of standing here, given the root
  std::size_t leading_item = 0;  ///< most suspicious item here
  double leading = 0.0;          ///< its P(not sound)
  std::vector<TreeNode> then;    ///< [0] finding present, [1] absent
};
[[nodiscard]] quantities::Result<TreeNode> contingency_tree(const diagnosis::Network& network,
                                                            const diagnosis::Evidence& evidence,
                                                            const Bench& bench, int depth);

}  // namespace dryout::planning
