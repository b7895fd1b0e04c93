// P(reading | state). The state's resistance spreads log-normally about a multiple of the part's
// own limit, the limit itself is only believed, something may sit across the part, and the meter
// and its leads err. All of it is integrated on fixed grids; nothing is sampled.
//
// A state that stands on one side of the part's own limit by its meaning (states.h: side_of) has no
// resistance on the other: its law is cut off there, softly as far as the limit is only believed.
//
// Densities are per unit of ln(reading), so that states compare. One in a thousand readings is
// taken to be a slip of the hand (wrong part, wrong range, bad contact) and says nothing.
#pragma once

#include <optional>
#include <vector>

#include "readings/limit.h"
#include "readings/meter.h"
#include "readings/setting.h"
#include "readings/states.h"

namespace dryout::readings {

/// Probability of a slip, and the span of ln(reading) over which it is spread.
inline constexpr double slip_probability = 0.001;
/// Of what is read on a bridge, on a leakage supply, or of a part off the board with the meter
/// zeroed: it is clamped, not touched (judged).
inline constexpr double slip_clamped = 0.00001;
inline constexpr double slip_span = 12.0;

/// The share of a law of x = ln(resistance) that lies on one side of the part's own limit:
/// Phi(offset + slope x) is the chance that the limit lies above x.
struct Cut {
  Side side = Side::either;
  double offset = 0.0;
  double slope = -1.0;
  [[nodiscard]] double kept_at(double x) const;
};

/// p(reading | resistance of the part), tabulated over ln(resistance) for a part that keeps a
/// given share of its capacitance. The table's step follows the meter's accuracy.
class ReadingKernel {
 public:
  ReadingKernel(const Setting& setting, const CorrectedReading& reading, double kept);
  /// Averages over a log-normal resistance, of which only one side of the limit counts.
  [[nodiscard]] double averaged(double log_median, double log_spread, const Cut& cut) const;
  /// With no prior opinion on ln(resistance): P(resistance > limit). Where no resistance explains
  /// the reading: 1 if it is too high, 0 if it is too low.
  [[nodiscard]] double exceedance(const BelievedLimit& limit) const;
  [[nodiscard]] bool explains() const { return total_ > 0.0; }

 private:
  [[nodiscard]] double log_at(std::size_t i) const;
  [[nodiscard]] std::size_t index_of(double log_value) const;
  double step_;
  std::vector<double> density_;
  double total_ = 0.0;
  bool too_high_ = false;
  std::size_t first_ = 0;  ///< densities below here and from last_ on are nothing
  std::size_t last_ = 0;
};

/// What one ESR or impedance reading says of one part, given how far the type's typical resistance
/// lies from what its limit suggests ("shared", in ln; common to all brothers).
class EsrEvidence {
 public:
  /// `slip`: the share of such readings that are slips; less of what is clamped than of what is
  /// touched.
  EsrEvidence(const Setting& setting, const CorrectedReading& reading, const BelievedLimit& limit,
              const Priors& priors, double slip = slip_probability);

  /// Standard deviation of `shared`: the limit's own doubt and the type's place below its limit.
  [[nodiscard]] double shared_spread() const;
  /// P(reading | state, level, shared)
  [[nodiscard]] double given(std::size_t state, std::size_t level, double shared) const;
  /// The same with `shared` integrated out: one row a level.
  [[nodiscard]] std::vector<std::vector<double>> likelihood() const;
  [[nodiscard]] double exceedance() const;
  [[nodiscard]] bool explains() const { return kernels_.front().explains(); }

 private:
  /// What the cut leaves of the state's law, the limit's doubt and the type's place averaged out.
  [[nodiscard]] double kept_of(const std::string& state, double age) const;

  Priors priors_;
  BelievedLimit limit_;
  double slip_ = slip_probability;
  std::vector<double> kept_;            ///< distinct shares of capacitance, 1 first ...
  std::vector<ReadingKernel> kernels_;  ///< ... and their kernels
  std::vector<std::size_t> kernel_index_;
};

/// What the other kinds are held against.
struct RatioReference {
  double value = 1.0;       ///< nominal capacitance, leakage limit, ... ; 1 for a d.c. resistance
  double log_spread = 0.0;  ///< how far it is only believed, and how much the circuit blurs it
  std::optional<double> parallel;  ///< what the circuit adds: ohms, farads or amperes across it
  double sound_times = 1.0;        ///< where sound parts lie far below the reference
  double tired_times = 1.0;        ///< of paper that is out of limit by what it leaks
  /// In place of the table's, for a sound part of a type that is made closer.
  std::optional<StateSpread> sound = std::nullopt;
  /// Of a leakage: what a part that does not leak passes at most, in references; 0 = no such end.
  double tight_at_most = 0.0;
  /// Of what a whole rail shows: density of ln(reading), per e-fold, that other causes than this
  /// part give whatever its state.
  double by_others = 0.0;
};

/// The other kinds: log-normal about a multiple of a reference. One row a level, all alike.
[[nodiscard]] std::vector<std::vector<double>> ratio_likelihood(Kind kind,
                                                                const CorrectedReading& reading,
                                                                const RatioReference& reference,
                                                                const Priors& priors);

/// More never speaks less: where a nearer reading past the limit left less of sound, a farther one
/// is held to that. Scales the first state's column down so that it keeps at most `most_sound`; the
/// others keep their shares among themselves.
void hold_sound_to(double most_sound, const Priors& priors,
                   std::vector<std::vector<double>>& likelihood);

/// Suspect, never convicted (judgement): a sound part is given so much more that it keeps at least
/// 0.15. For what brothers alone say, and for readings that another cause explains as well.
void hold_below_conviction(const Priors& priors, std::vector<std::vector<double>>& likelihood);

/// P(state | reading) under the priors.
[[nodiscard]] std::vector<double> posterior_of(const Priors& priors,
                                               const std::vector<std::vector<double>>& likelihood);

}  // namespace dryout::readings
