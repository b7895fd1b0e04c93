// What can hurt at a check or a reading: from the cautions of the check, from the state of the set,
// and from the rails at the place where hands and probes go.
#pragma once

#include <string_view>
#include <vector>

#include "casework/case_ground.h"
#include "knowledge/knowledge_base.h"
#include "planning/next_check.h"

namespace dryout::casework {

struct Hazard {
  planning::Danger danger = planning::Danger::none;
  bool live = false;  ///< the power is on
  /// Those of the check first, then those the place calls for; only such as have a place in a set
  /// of this kind, with its rails, of its year.
  std::vector<const knowledge::Caution*> cautions;
  [[nodiscard]] bool dangerous() const { return danger != planning::Danger::none; }
  friend bool operator==(const Hazard&, const Hazard&) = default;
};

/// The finding must be one of a check.
[[nodiscard]] Hazard hazard_of(const Ground& ground, diagnosis::KnownFinding finding);

/// Of a number read at a capacitor: as of the checks that ask for it there, else of those that ask
/// for another number of the same set-up, else what is dangerous in any; and of the place. Leakage
/// and insulation are read at the part's mark, or at `test_volts` where that is more: above 60 V
/// the tester itself is a danger.
[[nodiscard]] Hazard hazard_of_reading(const Ground& ground, std::size_t item, ReadingKind kind,
                                       quantities::Volt test_volts = quantities::Volt(0.0));
/// Whether the tester brings its own volts.
[[nodiscard]] bool is_read_at_test_volts(ReadingKind kind);
/// More than any part's test volts that are no danger.
inline constexpr quantities::Volt dangerous_test_volts{61.0};
/// Ripple and volts are read with the power on.
[[nodiscard]] bool is_read_live(ReadingKind kind);

/// Whether some rail stands high enough to hurt by itself: above 60 V, the mains apart.
[[nodiscard]] bool has_high_tension(const knowledge::Equipment& equipment);

/// Whether the caution has a place in the set: by its rails, hazards and year of building.
[[nodiscard]] bool has_a_place(const Ground& ground, const knowledge::Caution& caution);

/// "none", "stored-charge", "mains", "high-tension"; any other word is none.
[[nodiscard]] planning::Danger danger_of(std::string_view word);
[[nodiscard]] std::string_view word_of(planning::Danger danger);
/// What is left of a danger with the plug out: mains is gone, charge stays.
[[nodiscard]] planning::Danger unplugged(planning::Danger danger);

/// The block a finding's place lies in, and the rails at it; the set itself has neither.
struct Whereabouts {
  const knowledge::Block* block = nullptr;
  std::vector<const knowledge::Rail*> rails;
};
[[nodiscard]] Whereabouts whereabouts_of(const Ground& ground,
                                         const diagnosis::CompiledFinding& finding);
[[nodiscard]] Whereabouts whereabouts_of(const Ground& ground, std::size_t item);

}  // namespace dryout::casework
