// From weighed options to advice: the order, the reasons, and where the answer would be another.
#include <algorithm>
#include <cmath>

#include "decision/options.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"

namespace dryout::decision {
namespace {

/// Behind what is advised, however cheap: to leave a set as it is that calls for mending (2); and,
/// of a set that works or of which nothing is convicted, to replace on a guess what nobody measured
/// (1), while a minute a part would tell.
int set_back(const SetStock& set, const WeighedOption& option) {
  if (option.replaced.empty()) {
    return set.calls_for_mending ? 2 : 0;
  }
  return (set.preventive || set.on_a_guess) && option.scope > Scope::cohort ? 1 : 0;
}

bool comes_before(const SetStock& set, const WeighedOption& a, const WeighedOption& b) {
  const int back_a = set_back(set, a);
  const int back_b = set_back(set, b);
  return back_a != back_b ? back_a < back_b : a.expected_cost < b.expected_cost;
}

Scope cheapest(const SetStock& set, const ShopSettings& shop, double horizon_years) {
  const auto options = options_at(set, shop, horizon_years);
  return std::min_element(options.begin(), options.end(),
                          [&](const auto& a, const auto& b) { return comes_before(set, a, b); })
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

double squared(double value) { return value * value; }

std::string rounded(double value) { return quantities::whole_number(value); }

/// "5 years", "1 year", "6 months".
std::string span_text(double horizon_years) {
  constexpr double months_per_year = 12.0;
  if (horizon_years < 2.0 && std::lround(horizon_years * months_per_year) != 12) {
    return rounded(horizon_years * months_per_year) + " months";
  }
  return rounded(horizon_years) + (horizon_years < 1.5 ? " year" : " years");
}

std::vector<std::string> reasons_for(const SetStock& set, const WeighedOption& best,
                                     const WeighedOption& second, const ShopSettings& shop,
                                     double horizon_years) {
  struct Reason {
    double weight;
    bool differs;  ///< as it is told: "96 % instead of 96 %" is no reason
    bool against;  ///< the way advised is the worse one in this
    std::string text;
  };
  std::vector<Reason> reasons;
  const auto add = [&](double ours, double theirs, const std::string& before,
                       const std::string& first, const std::string& between,
                       const std::string& other, const std::string& after) {
    reasons.push_back({std::abs(ours - theirs), first != other, ours > theirs,
                       before + first + between + other + after});
  };
  const auto hundred = [](double probability) { return rounded(probability * 100.0); };
  const auto comes_back = [](const WeighedOption& o) { return o.come_back_cost - o.seep_cost; };
  const double value = std::max(shop.set_value.value, 1e-9);
  add(comes_back(best), comes_back(second),
      "the set comes back within " + span_text(horizon_years) + " with ",
      hundred(best.come_back.value()), " % instead of ", hundred(second.come_back.value()), " %");
  add(best.cost_now, second.cost_now, "bench and parts cost ", rounded(best.cost_now),
      ' ' + shop.currency + " now instead of ", rounded(second.cost_now), "");
  add(best.damage_cost, second.damage_cost, "", std::to_string(best.parts),
      best.parts == 1 ? " part is touched instead of " : " parts are touched instead of ",
      std::to_string(second.parts), ", each with its risk to a pad");
  if (!set.preventive) {  // nobody complained
    add(best.unmended_cost, second.unmended_cost, "the complaint stays with ",
        hundred(best.unmended_cost / value), " % instead of ",
        hundred(second.unmended_cost / value), " %");
  }
  add(best.seep_cost, second.seep_cost, "electrolyte of parts left in does damage of ",
      rounded(best.seep_cost), ' ' + shop.currency + " instead of ", rounded(second.seep_cost),
      ", on average");
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.weight > b.weight; });
  constexpr std::size_t told = 3;
  std::erase_if(reasons, [](const Reason& each) { return !each.differs; });
  reasons.resize(std::min(reasons.size(), told));
  std::stable_partition(reasons.begin(), reasons.end(),
                        [](const Reason& each) { return !each.against; });
  std::vector<std::string> texts;
  texts.reserve(reasons.size());
  for (Reason& each : reasons) {
    texts.push_back((each.against ? "against it speaks: " : "") + std::move(each.text));
  }
  return texts;
}

/// Cheapest first, each set of parts once: the smallest scope that replaces it.
std::vector<WeighedOption> in_order(const SetStock& set, std::vector<WeighedOption> all) {
  std::vector<WeighedOption> options;
  for (WeighedOption& option : all) {
    if (std::none_of(options.begin(), options.end(), [&](const WeighedOption& other) {
          return other.replaced == option.replaced;
        })) {
      options.push_back(std::move(option));
    }
  }
  std::stable_sort(options.begin(), options.end(),
                   [&](const auto& a, const auto& b) { return comes_before(set, a, b); });
  return options;
}

bool is_danger(const SetStock& set) {
  return std::any_of(set.parts.begin(), set.parts.end(),
                     [](const PartStock& part) { return part.is_danger(); });
}

/// What would be cheaper by the figures and is not advised all the same, and what to do about it.
std::string what_is_set_back(const SetStock& set, const ShopSettings& shop,
                             const std::vector<WeighedOption>& options) {
  for (const WeighedOption& option : options) {
    const int back = set_back(set, option);
    if (back == 0 || option.expected_cost >= options[0].expected_cost) {
      continue;
    }
    if (back == 2 && is_danger(set)) {
      return " To leave it is no choice, whatever it costs: as it is, the set is a danger.";
    }
    const std::string figures = rounded(option.expected_cost) + ' ' + shop.currency;
    return back == 1 ? " To " + title_of(option.scope, set) + " comes to " + figures +
                           " by the same figures, on a guess: measure some of the rest first."
                     : " That is more than the " + figures +
                           " that leaving it costs by the shop's figures: ask the owner " +
                           (set.preventive ? "how long the set has to last."
                                           : "what the set is worth to him.");
  }
  return "";
}

/// Both may be advised, and no figure of the shop is good enough to say which is cheaper.
bool are_alike(const SetStock& set, const WeighedOption& best, const WeighedOption& second) {
  return set_back(set, best) == set_back(set, second) &&
         std::abs(second.expected_cost - best.expected_cost) < left_open_between(best, second);
}

/// ", 27 min at the bench": lids, boards and the work itself.
std::string bench_text(const WeighedOption& option) {
  return option.replaced.empty()
             ? ""
             : ", " + quantities::format_duration(option.bench) + " at the bench";
}

std::string sentence_of(const SetStock& set, const ShopSettings& shop, double horizon_years,
                        const std::vector<WeighedOption>& options) {
  const WeighedOption& best = options[0];
  const WeighedOption& second = options[1];
  const std::string over = "Over " + span_text(horizon_years);
  const std::string costs =
      ": " + rounded(best.expected_cost) + ' ' + shop.currency + " in all" + bench_text(best);
  const std::string back = what_is_set_back(set, shop, options);
  if (!back.empty()) {
    return over + " what is called for is to " + title_of(best.scope, set) + costs + '.' + back;
  }
  if (are_alike(set, best, second)) {
    return over + " two ways come out alike: to " + title_of(best.scope, set) + " (" +
           rounded(best.expected_cost) + ' ' + shop.currency + " in all" + bench_text(best) +
           ") and to " + title_of(second.scope, set) + " (" + rounded(second.expected_cost) +
           bench_text(second) + "). " +
           rounded(std::abs(second.expected_cost - best.expected_cost)) + ' ' + shop.currency +
           " one way or the other is not more than the figures can tell apart: let the owner "
           "choose, or measure more.";
  }
  return over + " the least expected cost is to " + title_of(best.scope, set) + costs +
         ", against " + rounded(second.expected_cost) + " to " + title_of(second.scope, set) + '.';
}

}  // namespace

double left_open_between(const WeighedOption& a, const WeighedOption& b) {
  constexpr double now = 0.15, value = 0.2, wear = 0.3, pads = 0.5, seeping = 0.5;
  const auto comes_back = [](const WeighedOption& o) { return o.come_back_cost - o.seep_cost; };
  return std::sqrt(squared(now * (a.cost_now - b.cost_now)) +
                   squared(pads * (a.damage_cost - b.damage_cost)) +
                   squared(wear * (comes_back(a) - comes_back(b))) +
                   squared(seeping * (a.seep_cost - b.seep_cost)) +
                   squared(value * (a.unmended_cost - b.unmended_cost)));
}

Recommendation weigh(const SetStock& set, const ShopSettings& shop, double horizon_years) {
  Recommendation advice;
  advice.options = in_order(set, options_at(set, shop, horizon_years));
  const WeighedOption& best = advice.options[0];
  if (advice.options.size() == 1) {
    advice.sentence = "There is nothing here to choose between.";
    return advice;
  }
  const WeighedOption& second = advice.options[1];
  advice.reasons = reasons_for(set, best, second, shop, horizon_years);
  advice.flips_at_years = flip(horizon_years, horizon_min, horizon_max,
                               [&](double horizon) { return cheapest(set, shop, horizon); });
  const double price = shop.come_back_cost.value;
  advice.flips_at_come_back_cost = flip(price, 0.0, price * 10.0, [&](double cost) {
    ShopSettings other = shop;
    other.come_back_cost.value = cost;
    return cheapest(set, other, horizon_years);
  });
  advice.alike =
      what_is_set_back(set, shop, advice.options).empty() && are_alike(set, best, second);
  advice.sentence = sentence_of(set, shop, horizon_years, advice.options);
  return advice;
}

}  // namespace dryout::decision
