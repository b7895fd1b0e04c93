// Whole fault states drawn from the posterior: what answers when exact figures for every check and
// every piece of evidence would take too long.
//
// Where one sweep is affordable each draw has exactly its chance given the evidence, and the
// posteriors themselves are exact. Where not even that is, the widest findings are set aside
// (set_aside.h) and each draw carries a weight that makes up for it. Everything asked of the draws
// is an average over them, and comes with the half-width within which the truth lies 99 times in a
// hundred (Maurer and Pontil, "Empirical Bernstein bounds and sample variance penalization", COLT
// 2009, theorem 4; from memory). The same evidence gives the same draws, on every machine.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "diagnosis/draw_sweep.h"
#include "diagnosis/posterior.h"
#include "diagnosis/set_aside.h"

namespace dryout::diagnosis {

/// What drawing may cost. The defaults take some tenths of a second.
struct DrawEffort {
  double cells_max = 6.0e5;  ///< values of all vectors of the sweep
  std::size_t draws = 8192;
};

/// An average over the draws, and how far off it may be.
struct Estimate {
  double value = 0.0;
  double within = 0.0;
};

class PosteriorDraws {
 public:
  /// Both arguments must have passed check(), and must outlive the draws.
  [[nodiscard]] static quantities::Result<PosteriorDraws> draw(const Network& network,
                                                               const Evidence& evidence,
                                                               const DrawEffort& effort);

  [[nodiscard]] std::size_t size() const { return drawn_.count; }
  /// Findings set aside; where there is none, all draws weigh the same.
  [[nodiscard]] std::size_t set_aside() const { return aside_.size(); }
  /// Weights sum to 1.
  [[nodiscard]] double weight(std::size_t draw) const { return weights_[draw]; }
  [[nodiscard]] std::span<const std::uint16_t> states(std::size_t draw) const {
    return {&drawn_.state[draw * network_->items.size()], network_->items.size()};
  }
  [[nodiscard]] std::size_t level(std::size_t draw, std::size_t cohort) const {
    return drawn_.level[draw * network_->cohorts.size() + cohort];
  }
  [[nodiscard]] const Network& network() const { return *network_; }
  [[nodiscard]] const Evidence& evidence() const { return *evidence_; }

  /// Exact where nothing was set aside, but for the chances of findings without evidence.
  [[nodiscard]] const Posterior& posterior() const { return posterior_; }
  /// The widest half-width of an item's state in posterior(); 0 where they are exact.
  [[nodiscard]] double within() const { return within_; }

  /// P(finding absent | states of the draw), for every finding.
  void find_silence(std::size_t draw, std::vector<double>& silence) const;
  /// The same given also what was seen of each finding: 0 where present, 1 where absent.
  void find_absence(std::size_t draw, std::vector<double>& absence) const;
  /// Average of one value a draw, each 0 to 1.
  [[nodiscard]] Estimate average(std::span<const double> values) const;

 private:
  /// What an item in one state does to the findings.
  struct Doing {
    std::size_t finding = 0;
    double silent = 1.0;
  };

  PosteriorDraws(const Network& network, const Evidence& evidence);
  void weigh();
  void estimate_posterior(const DrawSweep& sweep);

  const Network* network_;
  const Evidence* evidence_;
  std::vector<Tangent> aside_;
  DrawnStates drawn_;
  std::vector<double> weights_;
  double log_mean_weight_ = 0.0;
  std::vector<std::vector<std::vector<Doing>>> doings_;  ///< [item][state]
  Posterior posterior_;
  double within_ = 0.0;
};

}  // namespace dryout::diagnosis
