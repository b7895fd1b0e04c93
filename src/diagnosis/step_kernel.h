// The inner loops of the sweep: a step's kernel applied to a vector over the subsets of the open
// findings, and two such vectors met at a step. Plain loops over contiguous runs, in tiles that the
// compiler keeps in vector registers; every term is a product of non-negative numbers.
#pragma once

#include <array>
#include <vector>

#include "diagnosis/sweep_plan.h"

namespace dryout::diagnosis {

enum class Way { forward, backward };

/// The kernel's entries, [lane][entry], in the order in which that way through the step takes them.
template <class Real>
[[nodiscard]] std::vector<Real> in_order_of(const Step& step, Way way,
                                            const std::vector<Real>& kernel);

/// out = kernel * in (or its transpose), lane by lane. `coefficients` holds [lane][entry] in that
/// way's order; `width` vectors lie side by side (1, or 2 for the two outcomes of a candidate).
template <class Real>
void apply(const Step& step, Way way, const std::vector<Real>& coefficients, const Real* in,
           Real* out, Index width);

/// met[lane][entry] = sum over the findings left alone of before[from] * after[to].
template <class Real>
[[nodiscard]] std::vector<Real> meet(const Step& step, const Real* before, const Real* after);

/// Vectors side by side, `width` values a place (1, 2, 4 or 8), go forward through the step and
/// meet on the way the single vector `after` it: `before` becomes what comes out, and the result is
/// met[lane][entry][width]. What a wide step's states make of the vectors serves both.
template <class Real>
[[nodiscard]] std::vector<Real> pass_on(const Step& step, const std::vector<Real>& coefficients,
                                        std::vector<Real>& before, const std::vector<Real>& after,
                                        Index width);
/// The way back: `after` becomes what comes out before the step.
template <class Real>
[[nodiscard]] std::vector<Real> pass_back(const Step& step, const std::vector<Real>& coefficients,
                                          const std::vector<Real>& before, std::vector<Real>& after,
                                          Index width);

/// A wide step's state applied to one lane of `count` values, `width` side by side: each of the
/// state's links moves part of what is not explained to explained.
template <class Real>
void explain(const Step& step, Index state, Real* values, Index width);
/// The transpose of explain.
template <class Real>
void explain_transposed(const Step& step, Index state, Real* values, Index width);

/// Calls visit(lane, entry, from, out, run) for every entry and run: the `run` places that `from`
/// points to (taken from `before`, `width` values a place) join those from `out` in the vector
/// after the step.
template <class Real, class Visit>
void for_each_run(const Step& step, const Real* before, Index width, const Visit& visit) {
  std::vector<Real> explained;
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    const Real* const in = before + (step.lanes_in == 1 ? 0 : lane << step.log2_in) * width;
    const Index out = step.lanes_out == 1 ? 0 : lane << step.log2_out;
    for (Index state = 0; step.wide && state < step.entries(); ++state) {
      explained.assign(in, in + (width << step.log2_in));
      explain(step, state, explained.data(), width);
      visit(lane, state, explained.data(), out, Index{1} << step.log2_in);
    }
    for (std::size_t r = 0; r < step.base_in.size(); ++r) {
      for (Index entry = 0; entry < step.from.size(); ++entry) {
        visit(lane, entry, in + (step.base_in[r] + step.from[entry]) * width,
              out + step.base_out[r] + step.to[entry], Index{1} << step.log2_run);
      }
    }
  }
}

/// The way back: visit(lane, entry, to, out, run) adds into the `run` places that `to` points to,
/// which are then brought before the step and added to `in`.
template <class Real, class Visit>
void for_each_run_back(const Step& step, Real* in, Index width, const Visit& visit) {
  std::vector<Real> unexplained;
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    Real* const to = in + (step.lanes_in == 1 ? 0 : lane << step.log2_in) * width;
    const Index out = step.lanes_out == 1 ? 0 : lane << step.log2_out;
    for (Index state = 0; step.wide && state < step.entries(); ++state) {
      unexplained.assign(width << step.log2_in, Real{0});
      visit(lane, state, unexplained.data(), out, Index{1} << step.log2_in);
      explain_transposed(step, state, unexplained.data(), width);
      for (std::size_t k = 0; k < unexplained.size(); ++k) {
        to[k] += unexplained[k];
      }
    }
    for (std::size_t r = 0; r < step.base_in.size(); ++r) {
      for (Index entry = 0; entry < step.from.size(); ++entry) {
        visit(lane, entry, to + (step.base_in[r] + step.from[entry]) * width,
              out + step.base_out[r] + step.to[entry], Index{1} << step.log2_run);
      }
    }
  }
}

}  // namespace dryout::diagnosis
