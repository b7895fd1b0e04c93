// Plays hidden faults against ways of working at the bench, to see what advice is worth: minutes to
// a proven repair, needless replacements, misses, dangerous checks, and whether the verdicts'
// probabilities deserve belief.
//
// One job: a set is drawn that shows at least one symptom. All symptoms are looked at; then the
// technician checks or mends, step by step, by habit. Mending an item makes it sound; the proof run
// shows whether the complaint is gone. A job is missed where the technician gives up, or where
// nothing is left to mend; it then costs Bench::give_up more.
//
// What is learnt from a mended item: it is sound now and says nothing of its cohort any more; check
// outcomes that it could have caused are forgotten, and the symptoms are looked at afresh.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "documents/value.h"
#include "planning/calibration.h"
#include "planning/next_check.h"
#include "quantities/result.h"

namespace dryout::planning {

enum class Habit {
  ours,              ///< the first of rank_checks while it pays, then blame over cost
  optimal,           ///< the exact optimum of what the set boils down to (leading_problem.h)
  look_ahead,        ///< look_ahead.h alone on the same
  information_gain,  ///< the check with most bits a minute while any has some, then as
                     ///< probability_over_cost
  fixed_order,       ///< as printed: every check in turn, taken at its face value (a bad outcome
                     ///< mends what shows it most strongly), then every remedy in turn
  believing_order,   ///< checks as printed, but with our beliefs: mends once convinced
  probability_over_cost,  ///< no checks: mends in order of blame over cost, until the set works
  probability_first,      ///< no checks: mends what is most to blame, until the set works
  replace_all             ///< replaces everything in `replaced` at once, then as probability_first
};
inline constexpr std::array<Habit, 9> habits{Habit::ours,
                                             Habit::optimal,
                                             Habit::look_ahead,
                                             Habit::information_gain,
                                             Habit::probability_over_cost,
                                             Habit::probability_first,
                                             Habit::fixed_order,
                                             Habit::believing_order,
                                             Habit::replace_all};
[[nodiscard]] std::string_view name_of(Habit habit);

struct SimulationSettings {
  std::size_t jobs = 1000;
  std::uint64_t seed = 1;
  double odds_factor = 1.0;  ///< how far the world differs from the model (hidden_set.h); >= 1
  double misread = 0.0;      ///< P(the technician notes a check's outcome wrongly)
  double convinced = 0.95;   ///< mends without further checks at this blame
  /// Whoever mends by belief goes on while anything is left to mend, even where giving up would
  /// cost less; misses are then those of replacing everything.
  bool persist = false;
  /// What a miss is charged with, in place of Bench::give_up.
  std::optional<quantities::Second> give_up = std::nullopt;
  quantities::Second proof = quantities::minutes(5.0);  ///< one proof run after mending
  std::vector<std::size_t> symptoms;  ///< findings that are looked at when the set comes in
  std::vector<std::size_t> replaced;  ///< remedies of replace_all; empty: all
};

/// Means are per job.
struct SimulationReport {
  Habit habit = Habit::ours;
  std::size_t jobs = 0;
  quantities::Second mean_time;        ///< to a proven repair, or to the end of a miss
  quantities::Second at_bench;         ///< the same without what a miss is charged with
  double checks = 0.0;                 ///< made
  double dangerous_checks = 0.0;       ///< of them, with any danger
  double replacements = 0.0;           ///< items mended
  double needless_replacements = 0.0;  ///< of them, those that were sound
  double misses = 0.0;                 ///< share of jobs that ended without a proven repair
  double contradictions = 0.0;         ///< times a job that the model held for impossible
  Calibration verdicts;  ///< P(not sound) of the first item mended by belief, against the truth
};

/// Reproducible: the same seed meets every habit with the same sets. Refuses settings out of range,
/// and a network whose sets never show a symptom. The network must have passed its check.
[[nodiscard]] quantities::Result<SimulationReport> simulate(const diagnosis::Network& network,
                                                            const Bench& bench, Habit habit,
                                                            const SimulationSettings& settings);

[[nodiscard]] documents::Value to_json(const SimulationReport& report);

}  // namespace dryout::planning
