// The minutes that remain when from now on one only mends: remedies in the order of blame over
// cost, one after the other until the complaint is gone, or giving up where that costs less.
//
// Items are taken as to blame independently of each other, so n remedies fail to cure with chance
// product (1 - blame); in this sequence of trials, too, the order of probability over cost is
// optimal (Mitten, Journal of Industrial Engineering 11, 1960, recalled). Behind a closed access
// the best prefix counts: P(it cures) over its expected minutes with the opening.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "planning/next_check.h"

namespace dryout::planning {

class RemedyOrder {
 public:
  struct Course {
    double minutes = 0.0;              ///< expected, to a proven repair or to giving up
    std::optional<std::size_t> first;  ///< index into Bench::remedies; nothing: give up
  };

  /// The bench must outlive this.
  explicit RemedyOrder(const Bench& bench);

  /// `blame` per item; `open` per access step.
  [[nodiscard]] Course course(const std::vector<double>& blame, std::vector<bool> open) const;

  /// Whether what cures the one item costs what cures the other; or neither has a remedy.
  [[nodiscard]] bool alike(std::size_t item, std::size_t other) const;

  /// The steps still to be opened for these, in the order to open them.
  [[nodiscard]] std::vector<std::size_t> opens(std::span<const std::size_t> access,
                                               const std::vector<bool>& open) const;
  [[nodiscard]] double minutes_of(std::span<const std::size_t> steps) const;
  /// Bench::open, one entry for every access step.
  [[nodiscard]] std::vector<bool> open_now() const;

 private:
  struct Trial {
    std::size_t remedy;
    double cures, minutes, ratio;
  };
  struct Cluster;
  [[nodiscard]] std::vector<Cluster> clusters(const std::vector<double>& blame) const;
  void reach(Cluster& cluster, const std::vector<bool>& open) const;

  const Bench* bench_;
  std::vector<std::size_t> remedy_of_item_;       ///< [item]; the largest number = none
  std::vector<double> sure_minutes_;              ///< [remedy] with the proof, where it is to blame
  std::vector<std::vector<std::size_t>> needs_;   ///< [cluster] steps, in the order to open them
  std::vector<std::vector<std::size_t>> behind_;  ///< [cluster] remedies behind exactly those
};

}  // namespace dryout::planning
