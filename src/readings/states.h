// How a part in each state measures: log-normal about a multiple of its own limit. Judged figures,
// one table; states.cpp says how each was judged.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "knowledge/rules.h"
#include "readings/reading.h"

namespace dryout::readings {

/// The states of one part and how likely they are before any reading, by ageing level.
struct Priors {
  std::vector<std::string> states;               ///< "sound" first
  std::vector<double> levels;                    ///< P(level); one level where nothing ages
  std::vector<std::vector<double>> given_level;  ///< P(state | level), one row a level
};

/// From the knowledge base; `effective_age_years` is years times the warmth factor.
[[nodiscard]] Priors priors_of(const knowledge::Technology& technology,
                               const knowledge::Ageing& ageing, double effective_age_years);

/// Where a state's figure lies, relative to its reference (limit, nominal value, rail volts).
struct StateSpread {
  double median = 1.0;
  double log_spread = 0.3;  ///< from part to part of one batch
};

/// `age` is 0 at the youngest ageing level and 1 at the oldest: a sound part of a spent cohort
/// stands nearer to its limit.
[[nodiscard]] StateSpread resistance_spread(std::string_view state, double age);
/// On which side of the part's own limit a state stands, by what the words mean: who is sound, or
/// only leaky or drifted, is within it; who is tired or dried is beyond it.
enum class Side { either, within, beyond };
[[nodiscard]] Side side_of(std::string_view state);
/// Share of its marked capacitance that a state leaves; 0 = none.
[[nodiscard]] double capacitance_kept(std::string_view state);
/// States whose resistance is no multiple of a limit: a short, an open end.
[[nodiscard]] bool is_absolute(std::string_view state);
/// How typical parts of one type spread about the same share of their type's limit (ln).
inline constexpr double type_log_spread = 0.33;

/// For the other kinds: relative to nominal capacitance, leakage limit, and so on.
[[nodiscard]] StateSpread ratio_spread(Kind kind, std::string_view state);

}  // namespace dryout::readings
