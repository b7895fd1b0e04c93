// Evidence folded into the network, as far as it can be done in closed form.
//
// A finding seen absent multiplies the weight of every state that would have shown it; a reading
// multiplies the weights of its item; a positive finding that only one item can still explain does
// so too. What is left are the shared findings: positive or soft ones that at least two items can
// explain. They alone make inference exponential, and only the items linked to them ("hot" items)
// take part in the sweep.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "diagnosis/network.h"
#include "diagnosis/scaled_product.h"

namespace dryout::diagnosis {

using Index = std::uint32_t;
inline constexpr Index none = std::numeric_limits<Index>::max();

/// State `state` of an item explains shared finding `shared` with this strength.
struct Link {
  Index shared = 0;
  Index state = 0;
  double strength = 0.0;
};

struct SharedFinding {
  Index finding = 0;
  long double leak = 0.0L;
  long double if_absent = 0.0L;   ///< weight of the evidence where the finding is absent
  long double if_present = 1.0L;  ///< and where it is present
};

/// What the evidence says of one finding, all its pieces multiplied.
struct Observed {
  long double if_absent = 1.0L;
  long double if_present = 1.0L;
  Index shared = none;      ///< index into FoldedEvidence::shared
  Index only_item = none;   ///< the one item that can explain it
  long double leak = 0.0L;  ///< with the causes of items whose state is certain
  [[nodiscard]] bool informative() const { return if_absent != if_present; }
};

struct FoldedEvidence {
  const Network* network = nullptr;
  bool possible = true;  ///< false: some factor is zero for a reason that needs no sweep
  ScaledProduct constant;

  std::vector<Observed> observed;  ///< per finding
  std::vector<SharedFinding> shared;
  std::vector<Index> first_weight;          ///< per item and one past the end
  std::vector<Index> first_total;           ///< per item and one past the end
  std::vector<long double> weight;          ///< [item][level][state], largest of an item 0.5 to 1
  std::vector<long double> total;           ///< [item][level], summed over states
  std::vector<Index> first_link;            ///< per item and one past the end
  std::vector<Link> links;                  ///< by item, then state
  std::vector<std::vector<Index>> members;  ///< items of each cohort
  std::vector<std::vector<long double>> level_weight;  ///< [cohort][level]: prior times cold items
  std::vector<bool> cohort_is_hot;

  [[nodiscard]] Index levels(Index item) const { return first_total[item + 1] - first_total[item]; }
  [[nodiscard]] Index states(Index item) const {
    return static_cast<Index>(network->items[item].states.size());
  }
  [[nodiscard]] const long double* weights(Index item, Index level) const {
    return &weight[first_weight[item] + level * states(item)];
  }
  [[nodiscard]] bool is_hot(Index item) const { return first_link[item] != first_link[item + 1]; }
};

/// Both arguments must have passed check(); the network must outlive the result.
[[nodiscard]] FoldedEvidence fold_evidence(const Network& network, const Evidence& evidence);

}  // namespace dryout::diagnosis
