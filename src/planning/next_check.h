// Which check to make next on a real set: every candidate with what it costs, what it is expected
// to bring, and why. Works on a compiled fault network; knows nothing of files or windows.
//
// The value of a check is measured on the job's own scale: minutes to a proven repair. The minutes
// that remain are those of trying remedies in the order of blame over cost (remedy_order.h; what
// blame is: blame.h); a check saves the expected drop of that figure, with what it opens open. It
// costs its own minutes and those of opening, paid once and shared by everything behind.
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
  std::vector<std::size_t> needs;  ///< indices of other steps; no cycles
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
  std::vector<bool> open;              ///< [access] already opened; may be shorter = closed
  std::vector<CandidateCheck> checks;  ///< already without those refused or out of reach
  std::vector<Remedy> remedies;        ///< one per item that can be mended
  /// Findings that the repair must do away with. Empty: every finding that is surely present.
  std::vector<std::size_t> complaint;
  /// What it costs when no remedy helps: a longer search by other means. A judgement.
  quantities::Second give_up = quantities::hours(4.0);
  /// Running the set after each remedy, to see whether the complaint is gone.
  quantities::Second proof;
  /// What it costs, in minutes at the bench, to replace what was not to blame: the part, a pad that
  /// lifts, a set that is less original than it was. A judgement.
  quantities::Second needless;
  /// From this blame on an item is mended without another check.
  double convinced = 0.95;
};

struct RankedCheck {
  std::size_t check = 0;             ///< index into Bench::checks
  double present = 0.0;              ///< P(outcome "present")
  double gain_bits = 0.0;            ///< expected drop of uncertainty about what is to blame
  quantities::Second saving;         ///< expected minutes saved on the way to a proven repair
  quantities::Second effort;         ///< the check itself
  quantities::Second access_effort;  ///< what must still be opened for it
  std::vector<std::size_t> opens;    ///< access steps still closed, in the order to open them
  double score = 0.0;                ///< minutes gained per minute spent; above 0 = pays
};

/// Best first, by score. But a check never stands ahead of a less dangerous one whose gain (saving
/// less all effort) is as large. `foresight` holds one outlook per check, in their order.
[[nodiscard]] std::vector<RankedCheck> rank_checks(const diagnosis::Network& network,
                                                   const diagnosis::Foresight& foresight,
                                                   const Bench& bench);

/// The contingency tree of the next steps: what to check, and then what, after either outcome.
/// Every node's check is the one that rank_checks puts first there; where that one no longer pays,
/// where the depth ends, or where one hardly ever comes, stands a leaf: mend the leading item.
struct TreeNode {
  std::size_t check = 0;  ///< index into Bench::checks; unused in a leaf
  bool leaf = true;
  double probability = 1.0;      ///< of standing here, given the root; 0 = cannot happen
  std::size_t leading_item = 0;  ///< the item most to blame here
  double leading = 0.0;          ///< its P(not sound)
  std::vector<TreeNode> then;    ///< [0] finding present, [1] absent; empty in a leaf
};
[[nodiscard]] quantities::Result<TreeNode> contingency_tree(const diagnosis::Network& network,
                                                            const diagnosis::Evidence& evidence,
                                                            const Bench& bench, int depth);

}  // namespace dryout::planning
