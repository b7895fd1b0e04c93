// Everything the engine has to say about a case, in indices and figures; the view_*.cpp files put
// it into words.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "casework/blame.h"
#include "casework/case_bench.h"
#include "casework/case_evidence.h"
#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "casework/conviction.h"
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
  planning::NextStep step;            ///< the advice; its index is into the bench
  std::vector<double> blame;          ///< [item] P(it makes some of what was reported); see blame.h
  std::vector<double> on_unproven;    ///< [item] decibans from readings that prove nothing alone
  std::vector<Conviction> convicted;  ///< [item]
  std::vector<double> suspicion;      ///< [item], as SuspectView::suspicion; see conviction.h
  std::vector<double> unsound;        ///< [item] P(not sound), of what is convicted never less
  std::vector<double> before;         ///< [item]
  std::vector<double> by_block;       ///< [block of the equipment], at least as any item in it
  std::vector<double> by_board;       ///< [board of the equipment], likewise
  double by_capacitors = 0.0;         ///< P(some capacitor makes some of what was reported)
  double by_anything = 0.0;           ///< P(some item does)
  /// P(something that a reading or the technician convicts does); 0 where nothing is or was told.
  double by_convicted = 0.0;
  /// How good all these figures are. Where they are read off draws, `within` is that of the widest.
  diagnosis::Precision precision;
  /// Why there are no figures; then they are those before any evidence, and no check is ranked.
  std::string refused;

  [[nodiscard]] bool anything_reported() const { return !evidence.pieces().empty(); }
};

/// Always an answer: what cannot be worked out costs the figures (`refused`), never the case.
[[nodiscard]] Reasoning reason(const Ground& ground, const CaseState& state);
/// The answer without figures, for this reason.
[[nodiscard]] Reasoning without_figures(const Ground& ground, const CaseState& state,
                                        std::string refused);

/// How good the figures are, in one sentence; "" where they are exact.
[[nodiscard]] std::string told(const Reasoning& reasoning);

/// For each set of items P(some of them make some of `complaint` present | the evidence), as good
/// as the other figures. Not to be asked where those were refused.
[[nodiscard]] std::vector<double> blame_of(const Reasoning& reasoning,
                                           const std::vector<std::size_t>& complaint,
                                           const std::vector<std::vector<std::size_t>>& sets);

/// Posterior of one state of an item; 0 where it has no such state.
[[nodiscard]] double share_of_state(const Reasoning& reasoning, std::size_t item,
                                    std::string_view state);

}  // namespace dryout::casework
