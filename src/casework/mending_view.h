// What comes after the verdict, as a face may read it: repair or recap, what to buy, how the repair
// is proved, and what the owner is told of it. Plain values, worked out and worded.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "quantities/probability.h"

namespace dryout::casework {

/// What an owner is taken to mean who names no horizon (judgement).
inline constexpr double usual_horizon_years = 5.0;

struct ShoppingRow {
  std::string part;  ///< "47 µF 63 V 105 °C wet aluminium, low ESR"
  int needed = 0, spares = 0;
  std::vector<std::string> for_parts;
  std::vector<std::string> why;      ///< what the substitution rules chose, and their reason
  std::vector<std::string> look_at;  ///< what to look at when fitting it
};

/// One way of mending, over the horizon of the owner. Costs are expectations in MendingView's
/// currency.
struct OptionView {
  std::string scope;  ///< nothing, convicted-part, cohort, board, all-electrolytics
  std::string title;
  std::vector<std::string> replaced;  ///< titles of the groups and parts that it replaces
  int parts = 0;
  double cost_now = 0.0, damage_cost = 0.0, come_back_cost = 0.0, unmended_cost = 0.0;
  double seep_cost = 0.0;  ///< part of come_back_cost: what seeping parts eat
  double expected_cost = 0.0;
  double spread = 0.0;                      ///< standard deviation of what it will have cost
  quantities::Probability come_back;        ///< within the horizon
  quantities::Probability complaint_stays;  ///< though all of `replaced` was replaced
  std::vector<ShoppingRow> shopping;
  std::string csv;  ///< the same as a file for a spreadsheet
};

/// Expected cost of every option at one horizon, in the order of MendingView::options.
struct HorizonPoint {
  double years = 0.0;
  std::vector<double> expected_costs;
};

/// A batch in the preventive job: how many of it to measure, and what the readings so far say.
struct CohortSample {
  std::string cohort;
  std::string title;  ///< "Reservoirs, regulator outputs"
  std::vector<std::string> items;
  int parts = 0, measured = 0, out_of_limit = 0;
  int undecided = 0;     ///< read, and what they were held against proves nothing of them
  std::string advice;    ///< measure-another, clear, recap
  std::string sentence;  ///< what to do next with this batch
  int good_to_clear = 0, bad_to_recap = 0;         ///< in a row, from the start
  double mean_if_sound = 0.0, mean_if_gone = 0.0;  ///< parts measured until it is decided
  quantities::Probability spent;                   ///< P(the batch is at the last ageing level)
  quantities::Probability gives_up;  ///< P(one of it is bad or gives up within the horizon)
};

/// One step of proving the repair.
struct ProofStep {
  std::string id;
  std::string title, wording, because;
  std::string caution;  ///< wording of the caution that goes with it, or ""
  bool done = false, failed = false;
  std::string remark;                 ///< what was noted when it was done
  bool skipped = false;               ///< left out on purpose; the remark says why
  std::string caution_title, danger;  ///< of the caution; danger: none, stored-charge, ...
  std::string symptom;  ///< of a retest: told by RetestSymptom; else RecordProof tells it
};

/// One number before and after the repair, taken in the same manner.
struct BeforeAfter {
  std::string item, item_title, kind;
  double before = 0.0, after = 0.0;  ///< SI unit of the kind
  std::string before_shown, after_shown;
  std::optional<double> limit;
  std::string limit_source;
};

struct Fitted {
  std::string item, item_title, action, fitted;
};

struct MendingView {
  std::string shop;  ///< the workshop's name by its settings; "" = not given
  std::string currency;
  double horizon_years = 0.0;
  bool preventive = false;  ///< no symptom was reported
  bool settled = false;     ///< something is convicted or was mended; else the leader stands in
  std::vector<OptionView> options;  ///< cheapest expectation first
  std::string sentence;             ///< the recommendation
  /// What is convicted and hurts somebody as it is, and why, one sentence each.
  std::vector<std::string> dangers;
  std::vector<std::string> reasons;  ///< those of this very set, then the three strongest figures
  std::string flips;                 ///< when the answer would be another, in one sentence; or ""
  std::vector<HorizonPoint> over_horizon;
  std::vector<ShoppingRow> shopping;  ///< of the recommended option
  std::vector<ProofStep> proof;
  std::vector<BeforeAfter> compared;
  std::vector<Fitted> fitted;
  std::vector<std::string> left;  ///< what was left in the set, and its risk, one sentence each
  std::vector<CohortSample> sampling;  ///< the batch that most threatens a come-back first
  std::string sampling_rule;           ///< shares and error bounds it is tested with
  std::vector<std::string> notices;    ///< figures missing and what was taken instead
};

}  // namespace dryout::casework
