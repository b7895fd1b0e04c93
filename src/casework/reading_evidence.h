// The seam between a case and readings/, the room that knows what a number is worth.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/case_state.h"

namespace dryout::casework {

/// What one reading proves.
struct WeighedReading {
  /// P(reading | state), one row or one a level of the item's cohort; empty = it says nothing.
  std::vector<std::vector<double>> likelihood;
  std::optional<double> limit;  ///< SI unit of the reading
  std::string limit_source;
  std::string limit_told;  ///< "1.1 Ω (the part's own data sheet)"
  std::string verdict;     ///< a word of readings::Verdict
  /// A d.c. reading of the part by itself, lifted or with nothing across it, that shows a short: as
  /// good as a limit of its own sheet.
  bool shorted = false;
  std::string sentence;  ///< the verdict in plain words
  std::vector<std::string> caveats;
  /// P(not sound) by this reading alone, before all else that the case tells of the part.
  double unsound_alone = 0.0;
  std::string batch;  ///< a word that only its brothers share; "" = has none, or is a new part's

  /// It speaks against the part by itself: over its limit, or shorted.
  [[nodiscard]] bool is_bad() const;
  /// It cleared the part of what it can show.
  [[nodiscard]] bool is_good() const;
};

/// Brothers of a reading: other parts of the group, of one make, technology, value and volts, that
/// were read in the same manner (kind, in circuit or not, meter, frequency) and not renewed before.
/// Gathered once for all readings of a case; both arguments must outlive it.
class Brothers {
 public:
  Brothers(const Ground& ground, const CaseState& state);
  /// How many there are, for a capacitor of the ground; the reading need not be one of the case.
  [[nodiscard]] std::size_t of(std::size_t item, const RecordReading& reading) const;
  /// What they read last, each part once.
  [[nodiscard]] std::vector<double> values_of(std::size_t item, const RecordReading& reading) const;
  /// A word that only brothers share.
  [[nodiscard]] std::string batch_of(std::size_t item, const RecordReading& reading) const;

 private:
  const Ground& ground_;
  const CaseState& state_;
  std::map<std::string, std::map<std::size_t, double>> read_;  ///< [batch][item]
};

/// `item` must be a capacitor of the ground; `state` gives the part's particulars; `brothers`: of
/// the same ground and state. A part that stands off its brothers, upwards, while its own limit
/// decides nothing is accused by them as readings/cohort.h says; they clear and convict nobody.
[[nodiscard]] WeighedReading weigh_reading(const Ground& ground, const CaseState& state,
                                           std::size_t item, const RecordReading& reading,
                                           const Brothers& brothers);

}  // namespace dryout::casework
