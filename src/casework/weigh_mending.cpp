#include "casework/weigh_mending.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "casework/beside_figures.h"
#include "casework/mending_reasons.h"
#include "casework/parts_list.h"
#include "casework/proof_steps.h"
#include "casework/sample_cohorts.h"
#include "casework/set_stock.h"
#include "casework/word_list.h"
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

/// Parts that were read, and what they were held against decides nothing of them.
struct Undecided {
  std::set<std::string> parts, by_tables, beside_fresh;
};

Undecided undecided_of(const CaseInHand& hand) {
  Undecided found;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const RecordReading& reading = hand.state.readings[i].what;
    if (weighed.verdict != "masked" && weighed.verdict != "not-proven") {
      continue;
    }
    found.parts.insert(reading.item);
    if (weighed.limit_source == "general-table") {
      found.by_tables.insert(reading.item);
    }
    const auto beside = read_beside_figures(reading.beside, reading.kind);
    if (beside && std::any_of(beside->begin(), beside->end(), [](const BesideFigure& figure) {
          return figure.source == "fresh-part";
        })) {
      found.beside_fresh.insert(reading.item);
    }
  }
  return found;
}

std::string parts_were(std::size_t parts) {
  return std::to_string(parts) + (parts == 1 ? " part was" : " parts were");
}

/// Groups of which a part was read, whatever that proves.
std::set<std::string> groups_read(const CaseInHand& hand) {
  std::set<std::string> groups;
  for (const auto& told : hand.state.readings) {
    if (const auto item = hand.ground.item(told.what.item)) {
      groups.insert(hand.ground.compiled.items[*item].group);
    }
  }
  return groups;
}

/// Groups of which nobody measured a part, and how many parts that is.
std::string unmeasured_of(const CaseInHand& hand, const WeighedSet& set) {
  constexpr std::size_t named_most = 3;
  const std::set<std::string> read = groups_read(hand);
  std::vector<std::string> titles;
  int parts = 0;
  for (std::size_t i = 0; i < set.stock.parts.size(); ++i) {
    const decision::PartStock& part = set.stock.parts[i];
    if (part.electrolytic && part.unexamined && !part.renewed &&
        !read.contains(hand.ground.compiled.items[set.items[i]].group)) {
      titles.push_back(mid_sentence(part.title));
      parts += part.count;
    }
  }
  if (titles.empty()) {
    return "";
  }
  const std::size_t more = titles.size() - std::min(titles.size(), named_most);
  titles.resize(titles.size() - more);
  if (more > 0) {
    titles.push_back(std::to_string(more) + " more");
  }
  return " Not measured so far: " + listed(titles) + " (" + std::to_string(parts) +
         (parts == 1 ? " part" : " parts") + "). The batches to sample say how many to measure.";
}

/// What it comes to by age alone, for who asks all the same.
std::string by_age_alone(const WeighedSet& set, const decision::Recommendation& advice,
                         const std::string& currency) {
  std::string told;
  for (const decision::WeighedOption& option : advice.options) {
    told += (told.empty() ? " By age alone, " : ", ") +
            (option.replaced.empty() ? "to leave all as it is"
                                     : "to " + decision::title_of(option.scope, set.stock)) +
            " would come to " + quantities::whole_number(option.expected_cost) + ' ' + currency;
  }
  return told + '.';
}

/// Of a set that works, neither to leave nor to replace may rest on a guess, or on a table that
/// could clear a bad part.
std::string not_decided(const CaseInHand& hand, const WeighedSet& set,
                        const decision::Recommendation& advice, const std::string& currency) {
  if (hand.state.readings.empty()) {
    return "Measure first. Nothing was measured yet, and age alone decides nothing." +
           unmeasured_of(hand, set) + by_age_alone(set, advice, currency);
  }
  const Undecided open = undecided_of(hand);
  std::string told = "Not decided yet";
  if (!open.by_tables.empty()) {
    told += ": " + parts_were(open.by_tables.size()) +
            " held against a general table alone, which is too generous to clear anything";
  } else if (!open.parts.empty()) {
    told += ": " + parts_were(open.parts.size()) +
            " read, and what there is to hold against decides nothing of " +
            (open.parts.size() == 1 ? "it" : "them");
  }
  told += '.';
  if (!open.parts.empty()) {
    told +=
        " Find the maker's sheet, or measure a fresh part of the same value and volts, before "
        "they are left in or replaced.";
  }
  if (!open.beside_fresh.empty()) {
    told +=
        " A fresh part's figure stands beside, for the paper alone: record it as the limit, from "
        "a fresh part, and it is judged by.";
  }
  return told + unmeasured_of(hand, set);
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
  const std::vector<CohortSample> samples = sample_cohorts(hand, set, shop, horizon_years);
  const bool open = !undecided_of(hand).parts.empty() ||
                    std::any_of(samples.begin(), samples.end(), [](const CohortSample& sample) {
                      return sample.advice == "measure-another";
                    });
  const bool not_decided_yet =
      set.preventive && !set.stock.calls_for_mending && !set.stock.mended && open;
  set.stock.measure_first = set.stock.measure_first || not_decided_yet;
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
  for (const decision::PartStock& part : set.stock.parts) {
    if (part.is_danger()) {
      view.dangers.push_back(part.title + ": " + part.whatever_it_costs + '.');
    }
  }
  view.reasons = reasons_of_the_set(hand, set, knowledge, advised);
  if (not_decided_yet) {
    view.sentence = not_decided(hand, set, advice, shop.currency);
  } else {
    view.reasons.insert(view.reasons.end(), advice.reasons.begin(), advice.reasons.end());
    view.flips = flips_of(set, shop, advice, horizon_years);
  }
  view.over_horizon = over_horizon(set, shop, advice.options);
  view.shopping = view.options.front().shopping;
  view.proof = proof_steps_of(hand, touched_items(hand, set, advised));
  view.compared = compare_readings(hand);
  view.fitted = fitted_of(hand);
  view.left = left_in(set, shop, advised, !hand.state.repairs.empty(), horizon_years);
  view.sampling = samples;
  view.sampling_rule = sampling_rule_of(shop);
  view.notices = std::move(set.notices);
  const auto read_off = parts_list_of(hand, items_of(set, advised.replaced), knowledge).notices;
  view.notices.insert(view.notices.end(), read_off.begin(), read_off.end());
  return view;
}

}  // namespace dryout::casework
