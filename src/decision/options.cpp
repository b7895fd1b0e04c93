#include "decision/options.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "decision/wear_out.h"

namespace dryout::decision {
namespace {

constexpr double hours_per_year = 8766.0;

double factor(const std::map<std::string, double>& factors, const std::string& name) {
  const auto found = factors.find(name);
  return found == factors.end() ? 1.0 : found->second;
}

quantities::Second years(double y) { return quantities::hours(y * hours_per_year); }

/// P(one part of this kind fails within the horizon | its ageing level).
double fails(const PartStock& part, const SetStock& set, const ShopSettings& shop,
             std::size_t level, double horizon_years) {
  const double scale = shop.wear_scale_years.value * factor(shop.warmth_life, part.warmth) *
                       factor(shop.level_life, set.level_names[level]);
  const Weibull wear{shop.wear_shape.value, years(scale)};
  return failure_within(wear, years(set.age_years), years(horizon_years));
}

bool in_scope(const SetStock& set, std::size_t index, Scope scope) {
  const PartStock& part = set.parts[index];
  if (scope == Scope::nothing) {
    return false;
  }
  if (part.convicted) {
    return true;
  }
  if (!part.electrolytic || scope == Scope::convicted_part) {
    return false;
  }
  if (scope == Scope::all_electrolytics) {
    return true;
  }
  return std::any_of(set.parts.begin(), set.parts.end(), [&](const PartStock& other) {
    return other.convicted &&
           (scope == Scope::board ? other.board == part.board
                                  : !part.cohort.empty() && other.cohort == part.cohort);
  });
}

/// P(no part left in place fails or was bad all along): brothers share their level, so the product
/// runs inside the level and the levels are mixed outside.
double stays_well(const SetStock& set, const ShopSettings& shop, const std::vector<bool>& replaced,
                  double horizon_years) {
  double well = 1.0;
  std::set<std::string> done;
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    const PartStock& part = set.parts[i];
    if (!part.electrolytic) {
      well *= replaced[i] ? 1.0 : 1.0 - part.faulty;
      continue;
    }
    const std::string cohort = part.cohort.empty() ? part.item : part.cohort;
    if (!done.insert(cohort).second) {
      continue;
    }
    double mixed = 0.0;
    for (std::size_t level = 0; level < set.level_names.size(); ++level) {
      double all = part.level[level];
      for (std::size_t j = i; j < set.parts.size(); ++j) {
        const PartStock& brother = set.parts[j];
        const std::string of = brother.cohort.empty() ? brother.item : brother.cohort;
        if (of != cohort || replaced[j]) {
          continue;
        }
        all *= (1.0 - brother.faulty) *
               std::pow(1.0 - fails(brother, set, shop, level, horizon_years), brother.count);
      }
      mixed += all;
    }
    well *= mixed;
  }
  return well;
}

double access_minutes(const SetStock& set, const std::vector<bool>& replaced) {
  double minutes = 0.0;
  for (const auto& [board, effort] : set.board_access) {
    bool touched = false;
    for (std::size_t i = 0; i < set.parts.size(); ++i) {
      touched = touched || (replaced[i] && set.parts[i].board == board);
    }
    minutes += touched ? quantities::in_minutes(effort) : 0.0;
  }
  return minutes;
}

WeighedOption weigh_scope(const SetStock& set, const ShopSettings& shop, Scope scope,
                          double horizon_years) {
  WeighedOption option;
  option.scope = scope;
  std::vector<bool> replaced(set.parts.size());
  double seeping_left = 0.0;
  double mended = 1.0;  // P(no convicted part that is left in place is really at fault)
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    replaced[i] = in_scope(set, i, scope);
    if (replaced[i]) {
      option.replaced.push_back(i);
      option.parts += set.parts[i].count;
    } else {
      seeping_left += set.parts[i].seeping;
      mended *= set.parts[i].convicted ? 1.0 - set.parts[i].faulty : 1.0;
    }
  }
  const double minutes = access_minutes(set, replaced) + option.parts * shop.minutes_per_part.value;
  option.cost_now =
      minutes / 60.0 * shop.labour_per_hour.value + option.parts * shop.part_price.value;
  const double error = 1.0 - std::pow(1.0 - shop.own_error_per_part.value, option.parts);
  option.damage_cost = option.parts * shop.pad_damage_per_part.value * shop.pad_damage_cost.value;
  const double well = stays_well(set, shop, replaced, horizon_years) * (1.0 - error);
  option.come_back = quantities::Probability(1.0 - well);
  const double seep_cost = seeping_left * shop.seep_damage_cost.value;
  option.come_back_cost = (1.0 - well) * shop.come_back_cost.value + seep_cost;
  option.unmended_cost = (1.0 - mended) * shop.set_value.value;
  option.expected_cost =
      option.cost_now + option.damage_cost + option.come_back_cost + option.unmended_cost;
  const double pad = shop.pad_damage_per_part.value;
  const double pad_variance =
      option.parts * pad * (1.0 - pad) * shop.pad_damage_cost.value * shop.pad_damage_cost.value;
  const double back_variance =
      well * (1.0 - well) * shop.come_back_cost.value * shop.come_back_cost.value;
  option.spread = std::sqrt(pad_variance + back_variance);
  return option;
}

constexpr Scope scopes[] = {Scope::nothing, Scope::convicted_part, Scope::cohort, Scope::board,
                            Scope::all_electrolytics};

Scope cheapest(const SetStock& set, const ShopSettings& shop, double horizon_years) {
  const auto options = options_at(set, shop, horizon_years);
  return std::min_element(
             options.begin(), options.end(),
             [](const auto& a, const auto& b) { return a.expected_cost < b.expected_cost; })
      ->scope;
}

/// The parameter between `low` and `high` at which the cheapest scope is first another one than at
/// `here`, found by bisection towards the nearer change; nothing where it never changes.
template <class ScopeAt>
std::optional<double> flip(double here, double low, double high, ScopeAt scope_at) {
  const Scope now = scope_at(here);
  std::optional<double> nearest;
  for (const double end : {low, high}) {
    if (scope_at(end) == now) {
      continue;
    }
    double same = here;
    double other = end;
    for (int i = 0; i < 40; ++i) {
      const double middle = 0.5 * (same + other);
      (scope_at(middle) == now ? same : other) = middle;
    }
    if (!nearest || std::abs(other - here) < std::abs(*nearest - here)) {
      nearest = other;
    }
  }
  return nearest;
}

std::string rounded(double value) { return std::to_string(std::lround(value)); }

std::vector<std::string> reasons_for(const WeighedOption& best, const WeighedOption& second,
                                     const ShopSettings& shop) {
  struct Reason {
    double weight;
    std::string text;
  };
  const double back_best = best.come_back.value() * 100.0;
  const double back_second = second.come_back.value() * 100.0;
  std::vector<Reason> reasons;
  reasons.push_back({std::abs(best.come_back_cost - second.come_back_cost),
                     "the set comes back with " + rounded(back_best) + " % instead of " +
                         rounded(back_second) + " %"});
  reasons.push_back({std::abs(best.cost_now - second.cost_now),
                     "bench and parts cost " + rounded(best.cost_now) + ' ' + shop.currency +
                         " now instead of " + rounded(second.cost_now)});
  reasons.push_back({std::abs(best.damage_cost - second.damage_cost),
                     std::to_string(best.parts) + " parts are touched instead of " +
                         std::to_string(second.parts) + ", each with its risk to a pad"});
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.weight > b.weight; });
  std::vector<std::string> texts;
  texts.reserve(reasons.size());
  for (const Reason& reason : reasons) {
    texts.push_back(reason.text);
  }
  return texts;
}

}  // namespace

std::string title_of(Scope scope) {
  switch (scope) {
    case Scope::nothing:
      return "replace nothing";
    case Scope::convicted_part:
      return "replace what is convicted";
    case Scope::cohort:
      return "replace it and its brothers";
    case Scope::board:
      return "replace all electrolytics on its board";
    case Scope::all_electrolytics:
      break;
  }
  return "replace all electrolytics of the set";
}

std::vector<WeighedOption> options_at(const SetStock& set, const ShopSettings& shop,
                                      double horizon_years) {
  std::vector<WeighedOption> options;
  for (const Scope scope : scopes) {
    options.push_back(weigh_scope(set, shop, scope, horizon_years));
  }
  return options;
}

Recommendation weigh(const SetStock& set, const ShopSettings& shop, double horizon_years) {
  constexpr double horizon_min = 0.1;
  constexpr double horizon_max = 30.0;
  Recommendation advice;
  advice.options = options_at(set, shop, horizon_years);
  std::stable_sort(advice.options.begin(), advice.options.end(),
                   [](const auto& a, const auto& b) { return a.expected_cost < b.expected_cost; });
  const WeighedOption& best = advice.options[0];
  const WeighedOption& second = advice.options[1];
  advice.reasons = reasons_for(best, second, shop);
  advice.flips_at_years = flip(horizon_years, horizon_min, horizon_max,
                               [&](double horizon) { return cheapest(set, shop, horizon); });
  const double price = shop.come_back_cost.value;
  advice.flips_at_come_back_cost = flip(price, 0.0, price * 10.0, [&](double cost) {
    ShopSettings other = shop;
    other.come_back_cost.value = cost;
    return cheapest(set, other, horizon_years);
  });
  advice.sentence = "Over " + rounded(horizon_years) + " years the least expected cost is to " +
                    title_of(best.scope) + ": " + rounded(best.expected_cost) + ' ' +
                    shop.currency + " in all, against " + rounded(second.expected_cost) + " to " +
                    title_of(second.scope) + '.';
  return advice;
}

}  // namespace dryout::decision
