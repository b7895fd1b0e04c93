// Repair or recap: what each way of mending costs now, how likely the set comes back within the
// horizon the owner chooses, and where the answer flips. All numbers are expectations over the
// posterior of the case: nothing here is decided by a rule of thumb that the figures do not carry.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "decision/shop_settings.h"
#include "quantities/probability.h"
#include "quantities/quantity.h"

namespace dryout::decision {

enum class Scope { nothing, convicted_part, cohort, board, all_electrolytics };

/// A part group, a named part, or something else that is mended, as the decision sees it.
struct PartStock {
  std::string item;  ///< id of the diagnosis item
  std::string title;
  int count = 1;
  std::string cohort;  ///< "" = by itself
  std::string board;
  std::string warmth = "warm";
  bool electrolytic = true;  ///< wears out
  bool convicted = false;    ///< to be mended in any case
  bool judged = false;       ///< convicted by the technician's word, by no limit
  bool goes_first = false;   ///< replaced on sight, whatever it measures (mending_rules.h)
  /// Why it goes whatever it costs, once it is convicted; "" = money may decide (mending_rules.h).
  std::string whatever_it_costs = {};
  bool renewed = false;       ///< was replaced in this repair: its brothers are still its brothers
  bool unexamined = false;    ///< nobody measured it, nor any other of its group
  double faulty = 0.0;        ///< P(not sound) after the evidence
  double seeping = 0.0;       ///< P(electrolyte on the board)
  std::vector<double> level;  ///< posterior of its cohort's ageing level
  /// Bench time and price of all of it; nothing: the shop's, for each part.
  std::optional<quantities::Second> effort;
  std::optional<double> price;

  [[nodiscard]] bool must_go() const { return convicted || goes_first; }
  /// Convicted, still in the set, and no question of money: a danger as it is.
  [[nodiscard]] bool is_danger() const {
    return convicted && !renewed && !whatever_it_costs.empty();
  }
};

/// A lid, shield or board that is still shut, and the boards that cannot be soldered on before it
/// is open. Paid for once, however many of them are touched.
struct AccessStep {
  quantities::Second effort;
  std::vector<std::string> boards;
};

struct SetStock {
  std::vector<PartStock> parts;
  std::vector<std::string> level_names;  ///< parallel to PartStock::level
  double age_years = 30.0;
  bool mended = false;      ///< something was mended already: what is weighed is what else to do
  bool preventive = false;  ///< nobody complained: no word of trouble or conviction
  /// Something must go: to do nothing is never advised, whatever it costs; nor, where nobody
  /// complained, what goes beyond those parts and their brothers.
  bool calls_for_mending = false;
  /// Nothing is convicted: what must go is the leading suspect, standing in.
  bool on_a_guess = false;
  /// Some batch is still to be sampled, and nothing calls for mending: to leave it is no advice.
  bool measure_first = false;
  std::vector<AccessStep> access;
  /// P(the complaint stays though everything in the scope was replaced), where that is known.
  /// Without it a set is taken for unmended as far as a convicted part is left in it.
  std::map<Scope, double> complaint_left;
};

struct WeighedOption {
  Scope scope = Scope::nothing;
  std::vector<std::size_t> replaced;  ///< indices into SetStock::parts
  int parts = 0;
  quantities::Second bench;           ///< access and work
  double cost_now = 0.0;              ///< labour, access, parts
  double damage_cost = 0.0;           ///< expected: lifted pads and errors of ours
  quantities::Probability come_back;  ///< within the horizon
  double come_back_cost = 0.0;        ///< expected: come-backs and what seeping parts eat
  double seep_cost = 0.0;             ///< the second half of that
  double unmended_cost = 0.0;         ///< expected: a set that still has its fault is of no use
  double expected_cost = 0.0;         ///< all of it
  double spread = 0.0;                ///< standard deviation of what it will have cost
};

struct Recommendation {
  /// Cheapest first, behind them what is never advised (SetStock::calls_for_mending). A scope that
  /// replaces the same as a smaller one is not an option of its own.
  std::vector<WeighedOption> options;
  std::string sentence;  ///< plain recommendation
  /// The first two lie closer together than the shop's figures can tell apart.
  bool alike = false;
  /// The three strongest, none where there is no choice. What speaks against the way advised is
  /// told as that, and last.
  std::vector<std::string> reasons;
  /// The horizon (years) at which the second-best option becomes the best, if within 1 to 30.
  std::optional<double> flips_at_years;
  /// The cost of a come-back at which it does.
  std::optional<double> flips_at_come_back_cost;
};

/// Weighs every scope for a horizon in years.
[[nodiscard]] Recommendation weigh(const SetStock& set, const ShopSettings& shop,
                                   double horizon_years);

/// The options alone, in the order of Scope, without looking for flips: for charts over the
/// horizon.
[[nodiscard]] std::vector<WeighedOption> options_at(const SetStock& set, const ShopSettings& shop,
                                                    double horizon_years);

/// Indices of the parts that a scope replaces.
[[nodiscard]] std::vector<std::size_t> replaced_by(const SetStock& set, Scope scope);

/// P(one of these groups or parts, left in place, gives up within the horizon, or is bad already
/// and shows it).
[[nodiscard]] quantities::Probability gives_up(const SetStock& set, const ShopSettings& shop,
                                               const std::vector<std::size_t>& parts,
                                               double horizon_years);

/// How far the difference in expected cost of two options is left open by figures that are known
/// only so well: minutes and prices to 15 %, the value of the set to 20 %, wear to 30 %, pads and
/// what seeps to a half (judgement), taken as independent. What both have in common cancels.
[[nodiscard]] double left_open_between(const WeighedOption& a, const WeighedOption& b);

/// The range of horizons that are weighed, in years.
inline constexpr double horizon_min = 0.1;
inline constexpr double horizon_max = 30.0;

/// "replace what is convicted"; of a set in which something was mended already, what else to do.
[[nodiscard]] std::string title_of(Scope scope, const SetStock& set);
/// "nothing", "convicted-part", "cohort", "board", "all-electrolytics".
[[nodiscard]] std::string word_of(Scope scope);
/// All of them, in the order of Scope.
[[nodiscard]] std::vector<std::string> scope_words();

}  // namespace dryout::decision
