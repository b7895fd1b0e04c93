#include "casework/weigh_mending.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "casework/mending_reasons.h"
#include "casework/parts_list.h"
#include "casework/proof_steps.h"
#include "casework/sample_cohorts.h"
#include "casework/set_stock.h"
#include "casework/wording.h"
#include "decision/options.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using decision::Scope;
using quantities::Probability;
using quantities::Problem;
using quantities::Result;

/// What is left in the set is told of from this risk on (judgement).
constexpr double risk_told_from = 0.02;
constexpr std::size_t left_max = 8;

std::vector<std::size_t> items_of(const WeighedSet& set, const std::vector<std::size_t>& parts) {
  std::vector<std::size_t> items;
  items.reserve(parts.size());
  for (const std::size_t part : parts) {
    items.push_back(set.items[part]);
  }
  return items;
}

OptionView view_of_option(const CaseInHand& hand, const WeighedSet& set,
                          const decision::WeighedOption& option,
                          const MendingKnowledge& knowledge) {
  OptionView view;
  view.scope = decision::word_of(option.scope);
  view.title = decision::title_of(option.scope, set.stock);
  for (const std::size_t part : option.replaced) {
    view.replaced.push_back(set.stock.parts[part].title);
  }
  view.parts = option.parts;
  view.cost_now = option.cost_now;
  view.damage_cost = option.damage_cost;
  view.come_back_cost = option.come_back_cost;
  view.seep_cost = option.seep_cost;
  view.unmended_cost = option.unmended_cost;
  view.expected_cost = option.expected_cost;
  view.spread = option.spread;
  view.come_back = option.come_back;
  view.complaint_stays = Probability(set.stock.complaint_left.at(option.scope));
  PartsList list = parts_list_of(hand, items_of(set, option.replaced), knowledge);
  view.shopping = std::move(list.rows);
  view.csv = std::move(list.csv);
  return view;
}

std::vector<HorizonPoint> over_horizon(const WeighedSet& set, const decision::ShopSettings& shop,
                                       const std::vector<decision::WeighedOption>& order) {
  constexpr int points = 60;
  constexpr double years_max = 15.0;
  std::vector<HorizonPoint> curve;
  for (int i = 0; i <= points; ++i) {
    const double years = std::max(decision::horizon_min, years_max * i / points);
    const auto weighed = decision::options_at(set.stock, shop, years);
    HorizonPoint point{years, {}};
    for (const decision::WeighedOption& option : order) {
      point.expected_costs.push_back(
          weighed.at(static_cast<std::size_t>(option.scope)).expected_cost);
    }
    curve.push_back(std::move(point));
  }
  return curve;
}

Scope cheapest_at(const WeighedSet& set, const decision::ShopSettings& shop, double years) {
  return decision::weigh(set.stock, shop, years).options.front().scope;
}

std::string years_text(double years) {
  const auto months = std::lround(years * 12.0);
  return months < 24 ? std::to_string(months) + " months"
                     : quantities::whole_number(years) + " years";
}

/// When the answer would be another: by the horizon, and by what a come-back costs.
std::string flips_of(const WeighedSet& set, const decision::ShopSettings& shop,
                     const decision::Recommendation& advice, double horizon) {
  constexpr double a_little_beyond = 1.001;
  std::string text;
  if (advice.flips_at_years) {
    const double at = *advice.flips_at_years;
    const bool longer = at > horizon;
    const double beyond = std::clamp(longer ? at * a_little_beyond : at / a_little_beyond,
                                     decision::horizon_min, decision::horizon_max);
    text = (longer ? "From " + years_text(at) + " on" : "Below " + years_text(at)) +
           " the cheapest is to " + decision::title_of(cheapest_at(set, shop, beyond), set.stock) +
           '.';
  }
  if (advice.flips_at_come_back_cost) {
    const double at = *advice.flips_at_come_back_cost;
    const bool dearer = at > shop.come_back_cost.value;
    decision::ShopSettings other = shop;
    other.come_back_cost.value = dearer ? at * a_little_beyond : at / a_little_beyond;
    text += (text.empty() ? "" : " ") + std::string("If a come-back cost ") +
            (dearer ? "more" : "less") + " than " + quantities::whole_number(at) + ' ' +
            shop.currency + ", it would be to " +
            decision::title_of(cheapest_at(set, other, horizon), set.stock) + '.';
  }
  return text;
}

std::vector<Fitted> fitted_of(const CaseInHand& hand) {
  std::vector<Fitted> fitted;
  for (const auto& told : hand.state.repairs) {
    const auto item = hand.ground.item(told.what.item);
    fitted.push_back({item ? hand.ground.compiled.network.items[*item].id : told.what.item,
                      title_of_item(hand.ground, told.what.item), told.what.action,
                      told.what.fitted});
  }
  return fitted;
}

/// What stays in the set, once the repairs are done (or, before the first, the option advised).
std::vector<std::string> left_in(const WeighedSet& set, const decision::ShopSettings& shop,
                                 const decision::WeighedOption& advised, bool repaired,
                                 double horizon) {
  struct Left {
    double risk;
    std::string sentence;
  };
  std::vector<Left> left;
  for (std::size_t i = 0; i < set.stock.parts.size(); ++i) {
    const decision::PartStock& part = set.stock.parts[i];
    const auto& going = advised.replaced;
    const bool goes =
        part.renewed || (!repaired && std::find(going.begin(), going.end(), i) != going.end());
    const double risk = goes || !part.electrolytic
                            ? 0.0
                            : decision::gives_up(set.stock, shop, {i}, horizon).value();
    if (risk < risk_told_from) {
      continue;
    }
    std::string sentence =
        part.title + (part.count > 1 ? " (" + std::to_string(part.count) + ")" : "");
    sentence += ": a chance of " + percent(risk) +
                (part.count > 1 ? " that one of them" : " that it") + " gives up within " +
                years_text(horizon);
    sentence += part.seeping >= risk_told_from
                    ? ", of " + percent(part.seeping) + " that it seeps onto the board."
                    : ".";
    left.push_back({risk, std::move(sentence)});
  }
  std::stable_sort(left.begin(), left.end(),
                   [](const Left& a, const Left& b) { return a.risk > b.risk; });
  std::vector<std::string> sentences;
  for (std::size_t i = 0; i < std::min(left.size(), left_max); ++i) {
    sentences.push_back(std::move(left[i].sentence));
  }
  return sentences;
}

/// The items that hands were or will be on: what was mended, or else what is advised.
std::vector<std::size_t> touched_items(const CaseInHand& hand, const WeighedSet& set,
                                       const decision::WeighedOption& advised) {
  return hand.state.repairs.empty() ? items_of(set, advised.replaced)
                                    : hand.reasoning.evidence.mended;
}

/// Parts that were read and held against nothing better than a general table, which decided
/// nothing.
std::size_t parts_held_against_tables(const CaseInHand& hand) {
  std::set<std::string> parts;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const bool undecided = weighed.verdict == "masked" || weighed.verdict == "not-proven";
    if (undecided && weighed.limit_source == "general-table") {
      parts.insert(hand.state.readings[i].what.item);
    }
  }
  return parts.size();
}

/// In a set that works, "replace nothing" must not rest on a table that could clear a bad part.
std::string not_decided_by_tables(const CaseInHand& hand) {
  const std::size_t parts = parts_held_against_tables(hand);
  return parts == 0 ? std::string()
                    : "Not decided yet: " + std::to_string(parts) +
                          (parts == 1 ? " part was" : " parts were") +
                          " held against a general table alone, which is too generous to clear "
                          "anything. Find the maker's sheet, or measure a fresh part of the same "
                          "value and volts, before they are left in or replaced.";
}

Problem no_figures() {
  return {"what mending costs cannot be weighed without the shop's figures",
          {"rules/decision/shop.json", 0, {}},
          "",
          "a knowledge tree with this file"};
}

Problem bad_horizon(double years) {
  return {"no horizon to weigh over", {}, std::to_string(years), "0.1 to 30 years"};
}

}  // namespace

Result<MendingView> weigh_mending(const CaseInHand& hand, const MendingKnowledge& knowledge,
                                  double horizon_years) {
  if (!knowledge.shop) {
    return no_figures();
  }
  if (!(horizon_years >= decision::horizon_min && horizon_years <= decision::horizon_max)) {
    return bad_horizon(horizon_years);
  }
  const decision::ShopSettings& shop = *knowledge.shop;
  WeighedSet set = weighed_set_of(hand, knowledge.rules);
  const decision::Recommendation advice = decision::weigh(set.stock, shop, horizon_years);
  const decision::WeighedOption& advised = advice.options.front();
  MendingView view;
  view.shop = shop.name;
  view.currency = shop.currency;
  view.horizon_years = horizon_years;
  view.preventive = set.preventive;
  view.settled = set.settled;
  for (const decision::WeighedOption& option : advice.options) {
    view.options.push_back(view_of_option(hand, set, option, knowledge));
  }
  view.sentence = advice.sentence;
  if (set.preventive && advised.scope == Scope::nothing) {
    if (std::string open = not_decided_by_tables(hand); !open.empty()) {
      view.sentence = std::move(open);
    }
  }
  view.reasons = reasons_of_the_set(hand, set, knowledge, advised);
  view.reasons.insert(view.reasons.end(), advice.reasons.begin(), advice.reasons.end());
  view.flips = flips_of(set, shop, advice, horizon_years);
  view.over_horizon = over_horizon(set, shop, advice.options);
  view.shopping = view.options.front().shopping;
  view.proof = proof_steps_of(hand, touched_items(hand, set, advised));
  view.compared = compare_readings(hand);
  view.fitted = fitted_of(hand);
  view.left = left_in(set, shop, advised, !hand.state.repairs.empty(), horizon_years);
  view.sampling = sample_cohorts(hand, set, shop, horizon_years);
  view.sampling_rule = sampling_rule_of(shop);
  view.notices = std::move(set.notices);
  const auto read_off = parts_list_of(hand, items_of(set, advised.replaced), knowledge).notices;
  view.notices.insert(view.notices.end(), read_off.begin(), read_off.end());
  return view;
}

}  // namespace dryout::casework
