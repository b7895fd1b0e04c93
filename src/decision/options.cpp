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

/// P(a fault that is in the set already, and was not noticed on the bench, shows in that time).
double latent_shows(const ShopSettings& shop, double horizon_years) {
  return 1.0 - std::pow(1.0 - shop.latent_shows.value, horizon_years);
}

bool in_scope(const SetStock& set, std::size_t index, Scope scope) {
  const PartStock& part = set.parts[index];
  if (scope == Scope::nothing || part.renewed) {
    return false;
  }
  if (part.must_go()) {
    return true;
  }
  if (!part.electrolytic || scope == Scope::convicted_part) {
    return false;
  }
  if (scope == Scope::all_electrolytics) {
    return true;
  }
  // Of a set that works, or on a guess, what nobody measured goes on its own ground alone.
  if (scope == Scope::cohort && part.unexamined && (set.preventive || set.on_a_guess)) {
    return false;
  }
  return std::any_of(set.parts.begin(), set.parts.end(), [&](const PartStock& other) {
    return (other.must_go() || other.renewed) &&
           (scope == Scope::board ? other.board == part.board
                                  : !part.cohort.empty() && other.cohort == part.cohort);
  });
}

/// P(no part left in place fails, or was bad all along and shows it): brothers share their level,
/// so the product runs inside the level and the levels are mixed outside.
double stays_well(const SetStock& set, const ShopSettings& shop, const std::vector<bool>& fresh,
                  double horizon_years) {
  const double shows = latent_shows(shop, horizon_years);
  double well = 1.0;
  std::set<std::string> done;
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    const PartStock& part = set.parts[i];
    if (!part.electrolytic) {
      well *= fresh[i] ? 1.0 : 1.0 - part.faulty * shows;
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
        if (of != cohort || fresh[j]) {
          continue;
        }
        all *= (1.0 - brother.faulty * shows) *
               std::pow(1.0 - fails(brother, set, shop, level, horizon_years), brother.count);
      }
      mixed += all;
    }
    well *= mixed;
  }
  return well;
}

double minutes_of(const PartStock& part, const ShopSettings& shop) {
  return part.effort ? quantities::in_minutes(*part.effort)
                     : part.count * shop.minutes_per_part.value;
}

double access_minutes(const SetStock& set, const std::vector<std::size_t>& replaced) {
  double minutes = 0.0;
  for (const AccessStep& step : set.access) {
    const bool needed = std::any_of(replaced.begin(), replaced.end(), [&](std::size_t part) {
      const auto& boards = step.boards;
      return std::find(boards.begin(), boards.end(), set.parts[part].board) != boards.end();
    });
    minutes += needed ? quantities::in_minutes(step.effort) : 0.0;
  }
  return minutes;
}

/// P(the set still has its fault): as the case says, or else that a convicted part stayed in.
double still_faulty(const SetStock& set, const std::vector<bool>& fresh, Scope scope) {
  if (const auto known = set.complaint_left.find(scope); known != set.complaint_left.end()) {
    return known->second;
  }
  double mended = 1.0;
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    mended *= set.parts[i].convicted && !fresh[i] ? 1.0 - set.parts[i].faulty : 1.0;
  }
  return 1.0 - mended;
}

double variance_of_chance(double p, double cost) { return p * (1.0 - p) * cost * cost; }

/// What the option risks: come-backs, seeping parts, a set that still has its fault.
void weigh_risks(const SetStock& set, const ShopSettings& shop, double horizon_years,
                 WeighedOption& option) {
  std::vector<bool> fresh(set.parts.size());
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    fresh[i] = set.parts[i].renewed;
  }
  for (const std::size_t i : option.replaced) {
    fresh[i] = true;
  }
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    option.seep_cost += fresh[i] ? 0.0 : set.parts[i].seeping * shop.seep_damage_cost.value;
  }
  const double no_error = std::pow(1.0 - shop.own_error_per_part.value, option.parts);
  const double well = stays_well(set, shop, fresh, horizon_years) * no_error;
  const double unmended = still_faulty(set, fresh, option.scope);
  option.come_back = quantities::Probability(1.0 - well);
  option.come_back_cost = (1.0 - well) * shop.come_back_cost.value + option.seep_cost;
  option.unmended_cost = unmended * shop.set_value.value;
  const double pads =
      option.parts * variance_of_chance(shop.pad_damage_per_part.value, shop.pad_damage_cost.value);
  option.spread = std::sqrt(pads + variance_of_chance(well, shop.come_back_cost.value) +
                            variance_of_chance(unmended, shop.set_value.value));
}

WeighedOption weigh_scope(const SetStock& set, const ShopSettings& shop, Scope scope,
                          double horizon_years) {
  WeighedOption option;
  option.scope = scope;
  option.replaced = replaced_by(set, scope);
  double minutes = access_minutes(set, option.replaced);
  for (const std::size_t i : option.replaced) {
    const PartStock& part = set.parts[i];
    option.parts += part.count;
    minutes += minutes_of(part, shop);
    option.cost_now += part.price.value_or(part.count * shop.part_price.value);
  }
  option.bench = quantities::minutes(minutes);
  option.cost_now += minutes / 60.0 * shop.labour_per_hour.value;
  option.damage_cost = option.parts * shop.pad_damage_per_part.value * shop.pad_damage_cost.value;
  weigh_risks(set, shop, horizon_years, option);
  option.expected_cost =
      option.cost_now + option.damage_cost + option.come_back_cost + option.unmended_cost;
  return option;
}

constexpr Scope scopes[] = {Scope::nothing, Scope::convicted_part, Scope::cohort, Scope::board,
                            Scope::all_electrolytics};

constexpr const char* words[] = {"nothing", "convicted-part", "cohort", "board",
                                 "all-electrolytics"};

}  // namespace

namespace {

/// What the smallest scope that does something is for.
std::string what_must_go(const SetStock& set) {
  bool convicted = false;
  bool judged = false;
  bool first = false;
  bool cause = false;
  for (const PartStock& part : set.parts) {
    convicted = convicted || (part.convicted && !part.renewed && !part.judged);
    judged = judged || (part.judged && !part.renewed);
    first = first || (part.goes_first && !part.renewed);
    cause = cause || (part.convicted && part.effort);
  }
  const std::string verb = cause ? "mend " : "replace ";
  const std::string other = set.mended ? "what else " : "what ";
  if (first && !convicted && !judged) {
    return verb + other + "goes first, on sight";
  }
  const std::string by_limit = set.on_a_guess   ? "is most suspected"
                               : set.preventive ? "is out of limit"
                                                : "is convicted";
  const std::string by_word = "was judged at fault";
  return verb + other +
         (judged && convicted ? by_limit + " and what " + by_word
          : judged            ? by_word
                              : by_limit) +
         (first ? " and what goes first" : "");
}

}  // namespace

std::string title_of(Scope scope, const SetStock& set) {
  switch (scope) {
    case Scope::nothing:
      return set.measure_first ? "measure before anything is replaced"
             : set.mended      ? "leave it as it now is"
                               : "replace nothing";
    case Scope::convicted_part:
      return what_must_go(set);
    case Scope::cohort:
      return set.mended ? "replace its brothers too" : "replace what is at fault and its brothers";
    case Scope::board:
      return set.mended ? "replace everything else on its board that wears out"
                        : "replace everything on its board that wears out";
    case Scope::all_electrolytics:
      break;
  }
  return set.mended ? "replace everything else in the set that wears out"
                    : "replace everything in the set that wears out";
}

std::string word_of(Scope scope) { return words[static_cast<std::size_t>(scope)]; }

std::vector<std::string> scope_words() { return {std::begin(words), std::end(words)}; }

std::vector<std::size_t> replaced_by(const SetStock& set, Scope scope) {
  std::vector<std::size_t> replaced;
  for (std::size_t i = 0; i < set.parts.size(); ++i) {
    if (in_scope(set, i, scope)) {
      replaced.push_back(i);
    }
  }
  return replaced;
}

quantities::Probability gives_up(const SetStock& set, const ShopSettings& shop,
                                 const std::vector<std::size_t>& parts, double horizon_years) {
  std::vector<bool> fresh(set.parts.size(), true);
  for (const std::size_t part : parts) {
    fresh[part] = set.parts[part].renewed;
  }
  return quantities::Probability(1.0 - stays_well(set, shop, fresh, horizon_years));
}

std::vector<WeighedOption> options_at(const SetStock& set, const ShopSettings& shop,
                                      double horizon_years) {
  std::vector<WeighedOption> options;
  for (const Scope scope : scopes) {
    options.push_back(weigh_scope(set, shop, scope, horizon_years));
  }
  return options;
}

}  // namespace dryout::decision
