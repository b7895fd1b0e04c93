#include "readings/states.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/check.h"

namespace dryout::readings {
namespace {

// Resistance as a multiple of the part's own limit, at the youngest and the oldest level. Judged:
// a sound part stands at a third of its maker's maximum when new (0.9 ohm against 3 is the trade's
// example) and half when old; out of limit begins at one; function is lost from about four on.
struct ResistanceLine {
  std::string_view state;
  double young;
  double old;
  double log_spread;
};
constexpr std::array resistance_lines{
    ResistanceLine{"sound", 0.35, 0.50, 0.22},
    ResistanceLine{"tired", 1.7, 2.2, 0.40},
    ResistanceLine{"dried", 8.0, 14.0, 0.90},
    ResistanceLine{"seeped", 0.9, 2.0, 0.90},
    ResistanceLine{"leaky", 0.35, 0.50, 0.22},
    ResistanceLine{"drifted", 0.35, 0.50, 0.22},
    ResistanceLine{"shorted", 0.05, 0.05, 1.00},  // ohms
    // Ohms: what is left of a path, from a poor weld of some ohms to none at all.
    ResistanceLine{"open", 3e3, 3e3, 3.00},
};

struct RatioLine {
  std::string_view state;
  StateSpread capacitance;    // of the marked value
  StateSpread leakage;        // of the limit
  StateSpread dc_resistance;  // ohms
  StateSpread ripple;         // of the limit
  StateSpread volts;          // of what should be there
  StateSpread dissipation;    // of the limit
  StateSpread hold_up;        // of what a sound part gives
};
// Judged from makers' end-of-life figures (capacitance down by a fifth to a third, leakage at its
// limit) and from what the fault does; a decade of spread where parts differ by decades.
constexpr std::array ratio_lines{
    RatioLine{"sound",
              {0.97, 0.10},
              {0.10, 1.1},
              {3e6, 2.0},
              {0.45, 0.5},
              {1.0, 0.05},
              {0.40, 0.45},
              {1.0, 0.35}},
    RatioLine{"tired",
              {0.84, 0.12},
              {0.13, 1.1},
              {3e6, 2.0},
              {0.70, 0.5},
              {0.99, 0.06},
              {1.7, 0.5},
              {0.5, 0.5}},
    RatioLine{"dried",
              {0.35, 0.60},
              {0.12, 1.2},
              {3e6, 2.0},
              {3.5, 0.8},
              {0.88, 0.15},
              {6.0, 0.9},
              {0.1, 1.0}},
    RatioLine{"leaky",
              {1.05, 0.20},
              {20.0, 2.0},
              {2e4, 2.2},
              {0.80, 0.6},
              {0.70, 0.35},
              {1.0, 0.8},
              {0.15, 1.0}},
    RatioLine{"shorted",
              {0.003, 1.0},
              {1e4, 2.0},
              {0.8, 2.0},
              {0.05, 1.0},
              {0.03, 1.2},
              {10.0, 2.0},
              {0.001, 2.0}},
    RatioLine{"open",
              {0.01, 2.0},
              {0.003, 1.5},
              {1e7, 2.0},
              {6.0, 0.8},
              {0.95, 0.20},
              {10.0, 2.0},
              {0.01, 1.5}},
    RatioLine{"seeped",
              {0.70, 0.40},
              {0.60, 1.6},
              {1e5, 2.5},
              {1.5, 0.9},
              {0.80, 0.30},
              {1.5, 0.9},
              {0.3, 1.0}},
    RatioLine{"drifted",
              {0.75, 0.35},
              {0.15, 1.2},
              {3e6, 2.0},
              {0.80, 0.5},
              {1.0, 0.06},
              {1.0, 0.8},
              {0.8, 0.5}},
};

template <class Lines>
const auto& line_of(const Lines& lines, std::string_view state) {
  const auto at = std::find_if(lines.begin(), lines.end(),
                               [&](const auto& line) { return line.state == state; });
  // A mode that the rules may add later measures like a sound part until it has a line.
  return at == lines.end() ? lines.front() : *at;
}

}  // namespace

Priors priors_of(const knowledge::Technology& technology, const knowledge::Ageing& ageing,
                 double effective_age_years) {
  CHECK(!ageing.steps.empty());
  Priors priors;
  const auto step = std::find_if(
      ageing.steps.begin(), ageing.steps.end(),
      [&](const knowledge::Ageing::Step& s) { return effective_age_years <= s.age_years_max; });
  priors.levels = step == ageing.steps.end() ? ageing.steps.back().weights : step->weights;
  priors.states.emplace_back("sound");
  priors.given_level.assign(priors.levels.size(), {1.0});
  for (const auto& [mode, at_level] : technology.modes) {
    CHECK(at_level.size() == priors.levels.size());
    priors.states.push_back(mode);
    for (std::size_t level = 0; level < at_level.size(); ++level) {
      priors.given_level[level].push_back(at_level[level]);
      priors.given_level[level][0] -= at_level[level];
    }
  }
  return priors;
}

StateSpread resistance_spread(std::string_view state, double age) {
  const ResistanceLine& line = line_of(resistance_lines, state);
  return {line.young * std::pow(line.old / line.young, age), line.log_spread};
}

Side side_of(std::string_view state) {
  if (state == "sound" || state == "leaky" || state == "drifted") {
    return Side::within;
  }
  return state == "tired" || state == "dried" ? Side::beyond : Side::either;
}

double capacitance_kept(std::string_view state) {
  if (state == "shorted") {
    return 0.0;
  }
  return state == "dried" ? 0.4 : 1.0;
}

bool is_absolute(std::string_view state) { return state == "shorted" || state == "open"; }

StateSpread ratio_spread(Kind kind, std::string_view state) {
  const RatioLine& line = line_of(ratio_lines, state);
  switch (kind) {
    case Kind::capacitance:
      return line.capacitance;
    case Kind::leakage_current:
      return line.leakage;
    case Kind::dc_resistance:
      return line.dc_resistance;
    case Kind::ripple:
      return line.ripple;
    case Kind::dc_volts:
      return line.volts;
    case Kind::dissipation:
      return line.dissipation;
    case Kind::insulation:  // of the least allowed: what leaks ten times too much has a tenth of it
      return {1.0 / line.leakage.median, line.leakage.log_spread};
    case Kind::hold_up:
      return line.hold_up;
    case Kind::esr:
    case Kind::impedance:
      break;
  }
  CHECK(false);
  return {};
}

}  // namespace dryout::readings
