// The seam between a case and readings/, the room that knows what a number is worth.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <tuple>
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
  std::string sentence;    ///< the verdict in plain words
  std::vector<std::string> caveats;
};

/// How many other parts of the group, of one batch, were read in the same manner. Counted once for
/// all readings of a case; both arguments must outlive it.
class Brothers {
 public:
  Brothers(const Ground& ground, const CaseState& state);
  /// Of a capacitor of the ground, whether the reading itself is one of the case or not.
  [[nodiscard]] std::size_t of(std::size_t item, const RecordReading& reading) const;

 private:
  using Manner = std::tuple<std::string, std::string, ReadingKind, bool>;  ///< group, batch, ...
  [[nodiscard]] Manner manner_of(std::size_t item, const RecordReading& reading) const;

  const Ground& ground_;
  const CaseState& state_;
  std::map<Manner, std::size_t> read_;
  std::map<std::tuple<std::size_t, ReadingKind, bool>, std::size_t> read_of_item_;
};

/// `item` must be a capacitor of the ground; `state` gives the part's particulars; `brothers`: as
/// Brothers counts them.
[[nodiscard]] WeighedReading weigh_reading(const Ground& ground, const CaseState& state,
                                           std::size_t item, const RecordReading& reading,
                                           std::size_t brothers);

}  // namespace dryout::casework
