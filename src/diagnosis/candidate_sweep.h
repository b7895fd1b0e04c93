// What a check on one finding would say, and how every part of the network would fit either
// outcome, without a new inference.
//
// Every vector of the sweep becomes a pair: the candidate not shown so far, and shown. Before the
// first step that can show it and after the last one, the vectors of the sweep itself are used as
// they are. With the pair f (forward), F and B the sweep's own vectors, and b = (for absent, for
// present) backward from "not shown":
//   absent   = f0 * b0
//   present  = f0 * b1 + f1 * B       once shown, everything may follow
// Inside a step that can show it the kernel has two parts, K0 (does not show) and K1 (shows):
//   f0' = K0 f0                       b0 = K0^T b0'
//   f1' = (K0 + K1) f1 + K1 f0        b1 = K0^T b1' + K1^T B'
#pragma once

#include <vector>

#include "diagnosis/candidate_effect.h"
#include "diagnosis/explained_set_sweep.h"

namespace dryout::diagnosis {

/// Joint weights of one row or level of a step: with the candidate absent, present, and all that
/// follows if a cold member of the cohort shows the candidate anyway.
template <class Real>
struct Outcomes {
  Real absent{0};
  Real present{0};
  Real anyway{0};
};

/// How likely a candidate's outcomes are, by what is tied to the evidence and by what is not.
template <class Real>
class CandidateOdds {
 public:
  /// P(absent | evidence) and P(present | evidence), by everything.
  [[nodiscard]] Shown<Real> chance() const { return either(by_rest(), by_sweep_); }
  /// By everything outside the sweep (leak and cold cohorts) but cold effect `except`, and by the
  /// sweep itself.
  [[nodiscard]] Shown<Real> by_rest(Index except = none) const;
  [[nodiscard]] Shown<Real> by_sweep() const { return by_sweep_; }
  [[nodiscard]] const CandidateEffect<Real>& effect() const { return effect_; }
  [[nodiscard]] bool is_in_sweep(const ColdEffect<Real>& cold) const;

 protected:
  CandidateOdds(const ExplainedSetSweep<Real>& sweep, const CandidateEffect<Real>& effect)
      : sweep_(sweep), effect_(effect) {}

  const ExplainedSetSweep<Real>& sweep_;
  const CandidateEffect<Real>& effect_;
  Shown<Real> by_sweep_;
};

template <class Real>
class CandidateSweep : public CandidateOdds<Real> {
 public:
  /// Both must outlive the candidate. The finding must carry no evidence yet.
  CandidateSweep(const ExplainedSetSweep<Real>& sweep, const CandidateEffect<Real>& effect);

  /// Carries the pairs on to every step whose items the candidate can move: begin to end.
  void extend();
  [[nodiscard]] Index moved_begin() const { return moved_begin_; }
  [[nodiscard]] Index moved_end() const { return moved_end_; }

  /// After extend(): what the rest of the network makes of each local state of step t,
  /// [lane][local state][width]: width 2 (absent, present), or 3 with `anyway` where the step can
  /// show the candidate.
  [[nodiscard]] const std::vector<Real>& fit(Index t) const { return fits_[t - moved_begin_]; }
  /// Weights of a row of the step (one state of a hot item), `anyway` left out.
  [[nodiscard]] Outcomes<Real> row(Index t, Index row, const std::vector<Real>& fit) const;
  /// Weights of a level of the block that step t opens, the candidate's cold causes left out.
  [[nodiscard]] Outcomes<Real> level(Index t, Index level, const std::vector<Real>& fit) const;

 private:
  /// A step that can show the candidate.
  struct ShowingStep {
    const StepEffect* effect = nullptr;
    StepTables<Real> own;      ///< with the candidate's bit, where a hot item can show it
    std::vector<Real> kernel;  ///< [lane][entry][not shown, shown], scaled as the sweep's
    [[nodiscard]] bool has_bit() const { return !effect->hot.empty(); }
  };

  [[nodiscard]] ShowingStep prepare(const StepEffect& effect) const;
  [[nodiscard]] Shown<Real> shown_by_cold(const StepEffect& effect, Index level) const;
  [[nodiscard]] const ShowingStep* showing(Index t) const;
  /// The pairs before step t, first_ to end_, as they come from behind.
  [[nodiscard]] const std::vector<Real>& pair_after(Index t) const { return after_[end_ - t]; }
  void step_backward(Index t);
  [[nodiscard]] std::vector<Real> step_forward(Index t, const std::vector<Real>& pair);
  template <Index Width, class Kernel>
  [[nodiscard]] std::vector<Real> cross(Index t, const std::vector<Real>& pair,
                                        const Kernel& kernel);
  void keep_fit(Index t, std::vector<Real> met);
  [[nodiscard]] Outcomes<Real> read(const ShowingStep& step, const Real* values,
                                    const Real* fit) const;

  using CandidateOdds<Real>::sweep_;
  using CandidateOdds<Real>::effect_;
  using CandidateOdds<Real>::by_sweep_;
  std::vector<ShowingStep> showing_;
  Index first_ = 0;  ///< first and one past the last step that can show it
  Index end_ = 0;
  Index moved_begin_ = 0;
  Index moved_end_ = 0;
  std::vector<std::vector<Real>> after_;  ///< pairs before steps end_, end_ - 1, ... first_
  std::vector<std::vector<Real>> fits_;   ///< [step - moved_begin_]
};

/// P(absent | evidence) and P(present | evidence) of a finding without evidence.
template <class Real>
[[nodiscard]] Shown<Real> chance_of(const ExplainedSetSweep<Real>& sweep, Index finding);

}  // namespace dryout::diagnosis
