// What a planner and a face ask of the posterior, answered by draws: the outlooks of all checks,
// the weight of each piece of evidence, and who is behind what was seen.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "diagnosis/posterior_draws.h"

namespace dryout::diagnosis {

/// Whether exact answers to that many questions (outlooks, posteriors without one piece, blame of a
/// set) would take longer than about half a second. Known from the shape of the evidence alone, so
/// that it is the same on every machine.
[[nodiscard]] bool too_wide(const Network& network, const Evidence& evidence,
                            std::size_t questions);

/// As infer_with_outlook.
[[nodiscard]] Foresight foresee(const PosteriorDraws& draws,
                                std::span<const std::size_t> candidates);

/// As leave_one_out. A weight that lies within its own scatter (four standard errors) is 0; states
/// that a piece rules out altogether have no draws and are not missed.
[[nodiscard]] EvidenceWeights leave_one_out(const PosteriorDraws& draws);

/// For each set of items the chance that some of them cause some of `findings`, which must be among
/// evidence.present.
[[nodiscard]] std::vector<Estimate> blame(const PosteriorDraws& draws,
                                          std::span<const std::vector<std::size_t>> sets,
                                          std::span<const std::size_t> findings);

}  // namespace dryout::diagnosis
