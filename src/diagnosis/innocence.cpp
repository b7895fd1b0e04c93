#include "diagnosis/innocence.h"

#include "diagnosis/inference.h"
#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

using Innocence = std::vector<std::optional<double>>;

template <class Real>
class Acquittal {
 public:
  Acquittal(const ExplainedSetSweep<Real>& sweep, std::span<const std::size_t> findings)
      : sweep_(sweep), findings_(findings), marked_(sweep.folded().shared.size(), false) {
    for (const std::size_t finding : findings) {
      const Observed& observed = sweep.folded().observed[finding];
      if (observed.shared != none) {
        marked_[observed.shared] = true;
      }
    }
  }

  [[nodiscard]] Innocence run() const {
    Innocence found(sweep_.folded().network->items.size(), 1.0);
    for (std::size_t t = 0; t < sweep_.plan().steps.size(); ++t) {
      read_step(t, found);
    }
    for (const std::size_t finding : findings_) {
      for (const Cause& cause : sweep_.folded().network->findings[finding].causes) {
        if (cause.strength > 0.0 && can_be_in(cause) &&
            !has_row(finding, static_cast<Index>(cause.item))) {
          found[cause.item].reset();
        }
      }
    }
    return found;
  }

 private:
  [[nodiscard]] bool has_row(std::size_t finding, Index item) const {
    const FoldedEvidence& folded = sweep_.folded();
    return folded.is_hot(item) && folded.observed[finding].only_item != item &&
           !sweep_.plan().steps[sweep_.plan().step_of_item[item]].wide;
  }

  /// What cannot be in the state has no part in what it shows.
  [[nodiscard]] bool can_be_in(const Cause& cause) const {
    const FoldedEvidence& folded = sweep_.folded();
    const auto item = static_cast<Index>(cause.item);
    for (Index level = 0; level < folded.levels(item); ++level) {
      if (folded.weights(item, level)[cause.state] > 0.0L) {
        return true;
      }
    }
    return false;
  }

  void read_step(std::size_t t, Innocence& found) const {
    const Step& step = sweep_.plan().steps[t];
    if (step.wide || step.items.empty()) {
      return;
    }
    const auto& result = sweep_.step(t);
    const Index size = result.tables.size;
    const std::vector<Real> rows =
        tabulate_without_doing<Real>(sweep_.folded(), sweep_.plan(), step, marked_);
    for (std::size_t k = 0; k < step.items.size(); ++k) {
      Real innocent{0};
      Real all{0};
      for (Index level = 0; level < result.tables.levels; ++level) {
        const Real* const fit = &result.fit[step.lanes() > 1 ? level * size : 0];
        innocent += dot(&rows[(k * result.tables.levels + level) * size], fit, size);
        all += dot(result.tables.total_at(level), fit, size);
      }
      found[step.items[k]] = static_cast<double>(innocent / all);
    }
  }

  const ExplainedSetSweep<Real>& sweep_;
  std::span<const std::size_t> findings_;
  std::vector<bool> marked_;  ///< per shared finding
};

}  // namespace

quantities::Result<Innocence> innocence_of_each(const Network& network, const Evidence& evidence,
                                                std::span<const std::size_t> findings) {
  for (const std::size_t finding : findings) {
    CHECK(finding < network.findings.size());
  }
  return with_sweep<Innocence>(
      network, evidence,
      [&]<class Real>(const ExplainedSetSweep<Real>& sweep) -> quantities::Result<Innocence> {
        return Acquittal<Real>(sweep, findings).run();
      });
}

}  // namespace dryout::diagnosis
