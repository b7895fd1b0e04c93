// The inner loops of the sweep: a step's kernel applied to a vector over the subsets of the open
// findings, and two such vectors met at a step. Plain loops over contiguous runs, in tiles that the
// compiler keeps in vector registers; every term is a product of non-negative numbers.
#pragma once

#include <array>
#include <vector>

#include "diagnosis/sweep_plan.h"

namespace dryout::diagnosis {

enum class Way { forward, backward };

/// The kernel's entries in the order in which that way through the step takes them.
template <class Real>
[[nodiscard]] std::vector<Real> in_order_of(const Direction& direction,
                                            const std::vector<Real>& kernel);

/// out = kernel * in (or its transpose), lane by lane. `coefficients` holds [lane][entry] in that
/// way's order; `width` vectors lie side by side (1, or 2 for the two outcomes of a candidate).
template <class Real>
void apply(const Step& step, Way way, const std::vector<Real>& coefficients, const Real* in,
           Real* out, Index width);

/// met[lane][entry] = sum over the findings left alone of before[from] * after[to].
template <class Real>
[[nodiscard]] std::vector<Real> meet(const Step& step, const Real* before, const Real* after);

/// The same with a pair on one side: met[lane][entry][2].
template <class Real>
[[nodiscard]] std::vector<Real> meet_pair_after(const Step& step, const Real* before,
                                                const Real* after_pair);
template <class Real>
[[nodiscard]] std::vector<Real> meet_pair_before(const Step& step, const Real* before_pair,
                                                 const Real* after);

/// Calls visit(lane, entry, in, out) for every product of the step.
template <class Visit>
void for_each_product(const Step& step, const Visit& visit) {
  const Index run = Index{1} << step.log2_run;
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    const Index lane_in = step.lanes_in == 1 ? 0 : lane << step.log2_in;
    const Index lane_out = step.lanes_out == 1 ? 0 : lane << step.log2_out;
    for (std::size_t r = 0; r < step.base_in.size(); ++r) {
      for (Index entry = 0; entry < step.from.size(); ++entry) {
        const Index in = lane_in + step.base_in[r] + step.from[entry];
        const Index out = lane_out + step.base_out[r] + step.to[entry];
        for (Index x = 0; x < run; ++x) {
          visit(lane, entry, in + x, out + x);
        }
      }
    }
  }
}

}  // namespace dryout::diagnosis
