#include "decision/substitution.h"

#include <algorithm>
#include <array>
#include <iomanip>
#include <numeric>
#include <sstream>

#include "decision/sold_parts.h"
#include "quantities/engineering_notation.h"

namespace dryout::decision {
namespace {

using quantities::Ampere;
using quantities::Farad;
using quantities::Volt;

bool among(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool names(const std::vector<std::string>& list, const std::string& word) {
  return list.empty() || among(list, word);
}

bool applies(const SubstitutionRule& rule, const PartNeed& need) {
  return names(rule.roles, need.role) && names(rule.technologies, need.technology) &&
         names(rule.rails, need.rail_kind) && !among(rule.except_roles, need.role) &&
         !among(rule.except_technologies, need.technology) &&
         (!rule.behind_valve_rectifier || need.behind_valve_rectifier) &&
         (!rule.on_the_mains || need.on_the_mains) &&
         (!rule.behind_a_transformer || !need.on_the_mains) &&
         (!rule.live_chassis || need.live_chassis) && (!rule.earthed || need.earthed) &&
         (!rule.unearthed || !need.earthed) &&
         (!rule.unloaded_peak_min || rule.rail_volts_min || need.unloaded_peak > Volt(0));
}

/// What is allowed after all rules that apply.
struct Band {
  std::optional<double> capacitance_min;
  std::optional<double> capacitance_max;
  bool as_marked = false;
  double volts_min = 1.0;
  double rail_volts_min = 0.0;
  double rail_ac_volts_min = 0.0;
  double unloaded_peak_min = 0.0;
  double mains_volts_min = 1.0;
  std::optional<Ampere> touch_current_max;
};

/// X1 stands every surge that X2 stands, Y1 what Y2 does, and Y also what X does.
int strictness(const std::string& safety_class) {
  constexpr std::array<const char*, 4> order{"X2", "X1", "Y2", "Y1"};
  const auto found = std::find(order.begin(), order.end(), safety_class);
  return found == order.end() ? -1 : static_cast<int>(found - order.begin());
}

void narrow(Band& band, Substitute& fit, const SubstitutionRule& rule) {
  if (rule.capacitance_min) {
    band.capacitance_min = std::max(band.capacitance_min.value_or(0.0), *rule.capacitance_min);
  }
  if (rule.capacitance_max) {
    band.capacitance_max =
        std::min(band.capacitance_max.value_or(*rule.capacitance_max), *rule.capacitance_max);
  }
  band.as_marked = band.as_marked || rule.as_marked;
  band.volts_min = std::max(band.volts_min, rule.volts_min);
  band.rail_volts_min = std::max(band.rail_volts_min, rule.rail_volts_min.value_or(0.0));
  band.rail_ac_volts_min = std::max(band.rail_ac_volts_min, rule.rail_ac_volts_min.value_or(0.0));
  band.unloaded_peak_min = std::max(band.unloaded_peak_min, rule.unloaded_peak_min.value_or(0.0));
  band.mains_volts_min = std::max(band.mains_volts_min, rule.mains_volts_min.value_or(1.0));
  if (rule.touch_current_max) {
    band.touch_current_max =
        std::min(band.touch_current_max.value_or(*rule.touch_current_max), *rule.touch_current_max);
  }
  if (rule.temperature_min) {
    const double known = fit.temperature_min ? fit.temperature_min->degrees() : 0.0;
    fit.temperature_min = quantities::Celsius(std::max(known, *rule.temperature_min));
  }
  if (rule.life_hours_min) {
    fit.life_hours_min = std::max(fit.life_hours_min.value_or(0.0), *rule.life_hours_min);
  }
  // "As original" is the careful choice: a lower ESR than a circuit expects can make it oscillate.
  if (!rule.esr.empty() && fit.esr != "as-original") {
    fit.esr = rule.esr;
  }
  if (!rule.fit.empty()) {
    fit.technology = rule.fit;
  }
  fit.certified = fit.certified || rule.certified;
  fit.pulse_rated = fit.pulse_rated || rule.pulse_rated;
  if (strictness(rule.safety_class) > strictness(fit.safety_class)) {
    fit.safety_class = rule.safety_class;
  }
  if (!rule.advice.empty()) {
    fit.advice.push_back(rule.advice);
  }
  fit.rules.push_back(rule.id);
}

/// Touch currents are told in milliamperes, as standards and meters have them.
std::string in_milliamperes(Ampere current) {
  std::ostringstream text;
  text << std::setprecision(2) << current.si() * 1000.0 << " mA";
  return text.str();
}

std::string at_mains(const Mains& mains) {
  return quantities::format(mains.highest()) + ' ' + quantities::format(mains.frequency()) +
         " (mains of " + quantities::format(mains.volts) + " at their highest)";
}

/// What all parts from the mains to the same metal come to, this one first, when each is bought so
/// that their sum stays below the limit.
std::vector<Farad> bought_to_touch(const PartNeed& need, Ampere limit, const Substitute& fit) {
  std::vector<Farad> wanted{need.capacitance};
  wanted.insert(wanted.end(), need.bridging_beside.begin(), need.bridging_beside.end());
  for (Farad& each : wanted) {
    each = each == Farad(0) ? each : sold_value(fit.technology, each, 0.8, 1.1);
  }
  std::vector<Farad> shares = share_out(capacitance_for(limit, need.mains), wanted);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    shares[i] = shares[i] == wanted[i] ? wanted[i] : sold_not_above(shares[i]);
  }
  return shares;
}

/// "; with the 2 other parts to that metal 0.24 mA in all", or "".
std::string in_all(const PartNeed& need, const std::vector<Farad>& bought) {
  const std::size_t others = bought.size() - 1;
  if (others == 0) {
    return "";
  }
  const Farad sum = std::accumulate(bought.begin(), bought.end(), Farad(0));
  return ", with the " + std::to_string(others) + (others == 1 ? " other part" : " other parts") +
         " from the mains to that metal " + in_milliamperes(touch_current(sum, need.mains)) +
         " in all";
}

/// The value of a part from the mains to metal: its share of what touch current allows, and never
/// more than the old one.
void limit_by_touch(const PartNeed& need, Ampere limit, Substitute& fit) {
  const Farad most = capacitance_for(limit, need.mains);
  const std::vector<Farad> bought = bought_to_touch(need, limit, fit);
  const std::string allowed =
      in_milliamperes(limit) + " are allowed where " +
      (limit < touch_limit_earthed ? "nothing earths the metal" : "a third wire earths the metal");
  if (need.capacitance == Farad(0)) {
    fit.why.push_back("At most " + quantities::format(bought.front()) + in_all(need, bought) +
                      ": " + allowed + ", at " + at_mains(need.mains) + '.');
    return;
  }
  fit.capacitance = bought.front();
  const std::string through = quantities::format(fit.capacitance) + " let " +
                              in_milliamperes(touch_current(fit.capacitance, need.mains)) +
                              " through to whoever touches the metal" + in_all(need, bought) +
                              ", at " + at_mains(need.mains) + "; " + allowed;
  fit.why.push_back(through +
                    (need.capacitance <= most
                         ? "."
                         : ", and the old " + quantities::format(need.capacitance) + " would let " +
                               in_milliamperes(touch_current(need.capacitance, need.mains)) +
                               " through."));
}

/// Only interference suppressors carry a mark in volts a.c.; no class goes above 500 V.
bool is_mains_mark(const PartNeed& need) {
  constexpr double highest_class_volts = 500.0;
  const bool suppressor = need.technology == "mains-film" || need.technology == "ceramic";
  return suppressor && need.rated.si() <= highest_class_volts;
}

void rate_for_mains(const PartNeed& need, const Band& band, Substitute& fit) {
  const bool marked = is_mains_mark(need);
  const Volt least = need.mains.highest() * band.mains_volts_min;
  const Volt needed = marked ? std::max(need.rated, least) : least;
  fit.pulse_rated = false;  // the class says more
  if (band.mains_volts_min > 1.0) {
    fit.why.push_back("It needs " + quantities::format(needed) + " a.c. or more: the mains stand " +
                      "there on top of what the rectifier has charged, at " + at_mains(need.mains) +
                      '.');
  }
  fit.rated = sold_mains_rating(fit.safety_class, needed).value_or(needed);
  if (!marked && need.rated > Volt(0)) {
    fit.why.push_back("The " + quantities::format(need.rated) +
                      " on the old part are of direct current and say nothing of the mains.");
  }
}

void rate(const PartNeed& need, const Band& band, Substitute& fit) {
  if (fit.certified && !fit.safety_class.empty()) {
    return rate_for_mains(need, band, fit);
  }
  if (fit.certified) {  // a motor's part is marked in volts a.c.
    fit.pulse_rated = false;
    fit.rated = need.rated > Volt(0) ? sold_motor_rating(std::max(need.rated, need.mains.highest()))
                                     : need.rated;
    return;
  }
  // A can marked for less than its rail shares it with others of a string. Other parts do not: what
  // hangs on a dropping resistor has the whole rail across it until something draws current.
  const bool of_a_string =
      need.technology == "wet-aluminium" && need.rated > Volt(0) && need.rated < need.rail_volts;
  const Volt by_rail = of_a_string ? Volt(0) : need.rail_volts * band.rail_volts_min;
  const bool rises = !of_a_string && band.unloaded_peak_min > 0.0 && need.unloaded_peak > Volt(0);
  const Volt by_peak =
      rises ? need.unloaded_peak * band.unloaded_peak_min + need.bias_volts : Volt(0);
  const Volt needed = std::max({need.rated * band.volts_min, by_rail, by_peak});
  fit.ac_min = need.rail_volts * band.rail_ac_volts_min;
  if (needed <= Volt(0) && fit.ac_min <= Volt(0)) {
    return;
  }
  const auto sold = fit.pulse_rated && fit.technology == "film"
                        ? sold_pulse_rating(needed, fit.ac_min)
                        : sold_rating(fit.technology, needed);
  fit.rated = sold.value_or(needed);
  if (!sold) {
    fit.advice.push_back("No single part of this kind is commonly sold for " +
                         quantities::format(needed) +
                         ": ask for one, or look for another technology that stands it");
  }
  if (fit.ac_min > Volt(0)) {
    fit.why.push_back("The volts alternate there, up to " + quantities::format(fit.ac_min) +
                      " a.c.; a mark of direct current alone says little of that.");
  }
  if (rises) {
    fit.why.push_back("With no valve drawing current yet its high tension rises to " +
                      quantities::format(need.unloaded_peak) +
                      " (1.414 times the winding or the mains, at mains a tenth high)" +
                      (need.bias_volts > Volt(0)
                           ? ", and its other end stands at " +
                                 quantities::format(need.bias_volts) + " of bias below common"
                           : "") +
                      (need.rated > Volt(0) && by_peak > need.rated
                           ? ": more than the " + quantities::format(need.rated) +
                                 " that the old one is marked for."
                           : "."));
  } else if (by_rail > need.rated * band.volts_min && need.rated > Volt(0)) {
    fit.why.push_back("The old rating of " + quantities::format(need.rated) + " is too near the " +
                      quantities::format(need.rail_volts) + " that it stands at.");
  }
}

void size(const OldBody& body, Substitute& fit) {
  fit.body = fits_in_place_of(body);
  fit.ripple_min = body.ripple;
  if (body.grade && (!fit.temperature_min || *fit.temperature_min < *body.grade)) {
    fit.temperature_min = body.grade;
  }
}

}  // namespace

Substitute substitute_for(const PartNeed& need, const SubstitutionRules& rules) {
  Substitute fit;
  if (!need.other.empty()) {
    fit.other = need.other;
    fit.why = need.other_why;
    fit.advice = need.other_look_at;
    return fit;
  }
  fit.technology = need.technology;
  Band band;
  for (const SubstitutionRule& rule : rules.rules) {
    if (applies(rule, need)) {
      narrow(band, fit, rule);
    }
  }
  if (band.touch_current_max) {
    limit_by_touch(need, *band.touch_current_max, fit);
  } else if (need.capacitance > Farad(0)) {
    // Where no rule says, the tolerance of old parts.
    fit.capacitance = band.as_marked ? need.capacitance
                                     : sold_value(fit.technology, need.capacitance,
                                                  band.capacitance_min.value_or(0.8),
                                                  band.capacitance_max.value_or(1.25));
  }
  rate(need, band, fit);
  size(need.body, fit);
  return fit;
}

}  // namespace dryout::decision
