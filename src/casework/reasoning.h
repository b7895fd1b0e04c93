// Everything the engine has to say about a case, in indices and figures; the view_*.cpp files put
// it into words.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "casework/blame.h"
#include "casework/case_bench.h"
#include "casework/case_evidence.h"
#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "diagnosis/posterior.h"
#include "planning/next_check.h"
#include "planning/next_step.h"
#include "quantities/result.h"

namespace dryout::casework {

struct Reasoning {
  CaseEvidence evidence;             ///< without what contradicts itself
  std::vector<Piece> contradiction;  ///< the smallest set that cannot all be true; left out
  diagnosis::Foresight foresight;    ///< one outlook per check of the bench
  diagnosis::EvidenceWeights weights;
  CaseBench bench;
  std::vector<planning::RankedCheck> ranked;
  planning::NextStep step;        ///< the advice; its index is into the bench
  std::vector<double> suspicion;  ///< [item], as SuspectView::suspicion
  std::vector<double> before;     ///< [item]
  std::vector<double> by_block;   ///< [block of the equipment]
  std::vector<double> by_board;   ///< [board of the equipment]
  double by_capacitors = 0.0;     ///< P(some capacitor makes some of what was reported)
  double by_anything = 0.0;       ///< P(some item does)

  [[nodiscard]] bool anything_reported() const { return !evidence.pieces().empty(); }
};

[[nodiscard]] quantities::Result<Reasoning> reason(const Ground& ground, const CaseState& state);

/// Posterior of one state of an item; 0 where it has no such state.
[[nodiscard]] double share_of_state(const Reasoning& reasoning, std::size_t item,
                                    std::string_view state);

}  // namespace dryout::casework
