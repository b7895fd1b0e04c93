// Repair or recap: what each way of mending costs now, how likely the set comes back within the
// horizon the owner chooses, and where the answer flips. All numbers are expectations over the
// posterior of the case: nothing here is decided by a rule of thumb that the figures do not carry.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "decision/shop_settings.h"
#include "quantities/probability.h"
#include "quantities/quantity.h"

namespace dryout::decision {

/// A part group (or named part) of the set as the decision sees it.
struct PartStock {
  std::string item;  ///< id of the diagnosis item
  std::string title;
  int count = 1;
  std::string cohort;  ///< "" = by itself
  std::string board;
  std::string warmth = "warm";
  bool electrolytic = true;   ///< wears out
  bool convicted = false;     ///< to be replaced in any case
  double faulty = 0.0;        ///< P(not sound) after the evidence
  double seeping = 0.0;       ///< P(electrolyte on the board)
  std::vector<double> level;  ///< posterior of its cohort's ageing level
};

struct SetStock {
  std::vector<PartStock> parts;
  std::vector<std::string> level_names;  ///< parallel to PartStock::level
  double age_years = 30.0;
  /// Minutes still to be spent on access before each board can be soldered on.
  std::vector<std::pair<std::string, quantities::Second>> board_access;
};

enum class Scope { nothing, convicted_part, cohort, board, all_electrolytics };

struct WeighedOption {
  Scope scope = Scope::nothing;
  std::vector<std::size_t> replaced;  ///< indices into SetStock::parts
  int parts = 0;
  double cost_now = 0.0;              ///< labour, access, parts
  double damage_cost = 0.0;           ///< expected: lifted pads and errors of ours
  quantities::Probability come_back;  ///< within the horizon
  double come_back_cost = 0.0;        ///< expected: come-backs and what seeping parts eat
  double unmended_cost = 0.0;         ///< expected: a set left with a convicted part is of no use
  double expected_cost = 0.0;         ///< all of it
  double spread = 0.0;                ///< standard deviation of what it will have cost
};

struct Recommendation {
  std::vector<WeighedOption> options;  ///< cheapest first
  std::string sentence;                ///< plain recommendation
  std::vector<std::string> reasons;    ///< the three strongest
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

[[nodiscard]] std::string title_of(Scope scope);

}  // namespace dryout::decision
