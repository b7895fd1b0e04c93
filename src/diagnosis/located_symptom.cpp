#include "diagnosis/located_symptom.h"

#include <algorithm>
#include <map>
#include <utility>

#include "diagnosis/unlisted_share.h"
#include "knowledge/block_graph.h"
#include "quantities/check.h"
#include "quantities/holds.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Axis;
using knowledge::Consequence;
using knowledge::Extent;
using knowledge::Fact;
using quantities::holds;
using Rate = PlacedAnswer::Rate;
using Volume = PlacedAnswer::Volume;

constexpr std::array placed_axes{Axis::channel, Axis::band, Axis::path, Axis::source};

std::size_t index(Axis axis) { return static_cast<std::size_t>(axis); }

bool is_hum(const std::string& phenomenon) {
  return phenomenon == "hum" || phenomenon == "ripple" || phenomenon == "buzz";
}

bool is_mains_rate(const std::string& phenomenon) { return phenomenon.starts_with("mains-rate-"); }

}  // namespace

LocatedSymptom::LocatedSymptom(const knowledge::KnowledgeBase& knowledge,
                               const knowledge::Equipment& equipment,
                               const CompiledNetwork& compiled, const knowledge::Symptom& symptom,
                               std::vector<PlacedAnswer> answers)
    : knowledge_(&knowledge),
      equipment_(&equipment),
      compiled_(&compiled),
      symptom_(&symptom),
      answers_(std::move(answers)) {
  gather(symptom);
}

/// Of a hum: at mains rate where an open diode or a half-wave rectifier makes it, at twice that
/// where it comes from another rail, unsaid where a part of a stage lets either in.
Rate LocatedSymptom::rate_of(std::size_t consequence) const {
  const auto& consequences = compiled_->chained.consequences;
  const std::string& shown = knowledge_->phenomena[consequences[consequence].fact.phenomenon].id;
  if (!is_hum(shown) && !is_mains_rate(shown)) {
    return Rate::unsaid;
  }
  Rate rate = Rate::unsaid;
  for (std::size_t c = consequence; c != Consequence::none; c = consequences[c].before) {
    const Fact& fact = consequences[c].fact;
    const bool rail = fact.place.at == knowledge::Phenomenon::At::rail;
    if (is_mains_rate(knowledge_->phenomena[fact.phenomenon].id) ||
        (rail && equipment_->rails[fact.place.index].half_wave)) {
      return Rate::mains;
    }
    if (rail) rate = Rate::twice;
  }
  const knowledge::FaultSite& site = compiled_->chained.sites[consequences[consequence].site];
  const bool picked_up = site.kind == knowledge::FaultSite::Kind::cause;
  return rate == Rate::unsaid && picked_up ? Rate::mains : rate;
}

void LocatedSymptom::gather(const knowledge::Symptom& symptom) {
  const knowledge::SignalPlaces places(*knowledge_, *equipment_);
  bool told_of_path = false;
  bool told_of_mains_rate = false;
  for (const PlacedAnswer& answer : answers_) {
    told_of_path = told_of_path || answer.at[index(Axis::path)];
    told_of_mains_rate = told_of_mains_rate || answer.rate == Rate::mains;
  }
  const auto way = told_of_path ? std::nullopt : places.find_on(Axis::path, symptom.path);
  std::map<ItemState, std::size_t> slot_of;
  const auto& consequences = compiled_->chained.consequences;
  for (std::size_t c = 0; c < consequences.size(); ++c) {
    const Fact& fact = consequences[c].fact;
    const std::string& phenomenon = knowledge_->phenomena[fact.phenomenon].id;
    const std::string& kind = knowledge::kind_of(*equipment_, fact.place);
    double strength = 0.0;
    for (const auto& shows : symptom.shows) {
      // Who names the rate hears a hum; which of the two it is called is in the answer.
      const bool same = phenomenon == shows.phenomenon ||
                        (told_of_mains_rate && phenomenon == "mains-rate-" + shows.phenomenon);
      if (same && knowledge::accepts(shows.kinds, kind)) {
        strength = std::max(strength, consequences[c].strength * shows.strength);
      }
    }
    const knowledge::Extents& extents = compiled_->extents[c];
    if (strength == 0.0 || (way && (extents[index(Axis::path)].mask & (1U << *way)) == 0)) {
      continue;
    }
    for (const ItemState& state : compiled_->site_items[consequences[c].site]) {
      const auto [found, fresh] = slot_of.emplace(state, slots_.size());
      if (fresh) {
        slots_.push_back(state);
        ways_.emplace_back();
      }
      ways_[found->second].push_back({strength, extents, rate_of(c)});
    }
  }
}

LocatedSymptom::Places LocatedSymptom::told_on(Axis axis, bool present) const {
  Places places;
  for (const PlacedAnswer& answer : answers_) {
    if (axis == Axis::control) {
      if (!answer.present || answer.volume == Volume::unsaid) continue;
      const bool follows = answer.volume == Volume::follows;
      if (present) {
        places.push_back(follows ? knowledge::before_control : knowledge::behind_control);
      } else if (follows) {
        places.push_back(knowledge::behind_control);
      }
      continue;
    }
    const auto& at = answer.at[index(axis)];
    if (answer.present == present && at && !holds(places, *at)) places.push_back(*at);
  }
  return places;
}

/// The share of the fault's strength that fits "in all of `there` and in none of `not_there`".
double LocatedSymptom::fit(const std::vector<Way>& ways, Axis axis, const Places& there,
                           const Places& not_there, double weight_of_rest) const {
  constexpr std::size_t places_most = 32;
  std::array<double, places_most> all{};  // of a fault that shows in every place it reaches
  std::array<double, places_most> one{};  // of a fault that shows in one of them
  double whole = 0.0;
  for (const Way& way : ways) {
    const Extent& extent = way.extents[index(axis)];
    whole = std::max(whole, way.strength);
    const auto count = static_cast<double>(__builtin_popcount(extent.mask));
    for (std::size_t v = 0; v < places_most; ++v) {
      if ((extent.mask & (1U << v)) == 0) continue;
      double& best = extent.one_of ? one.at(v) : all.at(v);
      best = std::max(best, extent.one_of ? way.strength / count : way.strength);
    }
  }
  double least = 1.0;
  double least_one = 1.0;
  double none = 0.0;
  double rest = 0.0;
  double anywhere = 0.0;
  double one_anywhere = 0.0;
  for (std::size_t v = 0; v < places_most; ++v) {
    if (holds(there, v)) {
      least = std::min(least, all.at(v));
      least_one = std::min(least_one, one.at(v));
    } else if (holds(not_there, v)) {
      none = std::max(none, all.at(v));
    } else {
      rest = std::max(rest, all.at(v));
      anywhere = std::max(anywhere, all.at(v));
      one_anywhere += one.at(v);
    }
  }
  if (there.empty()) {
    const double left = std::max({0.0, anywhere - none, one_anywhere});
    return std::max(left / whole, slip);
  }
  const double only_there = std::max(0.0, least - std::max(none, rest));
  const double at_least_there = std::max(0.0, least - none);
  const double shared = weight_of_rest * only_there + (1.0 - weight_of_rest) * at_least_there;
  // Two equal parts that failed alike are a rare chance.
  const double of_one = there.size() == 1 ? least_one : 0.0;
  const double some = std::max(least, least_one);
  return std::max({shared, of_one, slip * some}) / whole;
}

double LocatedSymptom::in_condition(const ItemState& at, const std::string& condition) const {
  if (condition.empty()) {
    return 1.0;
  }
  const CompiledItem& item = compiled_->items[at.item];
  const std::map<std::string, double>* habits = nullptr;
  if (item.kind == CompiledItem::Kind::cause) {
    if (const auto* cause = knowledge::find(knowledge_->causes, item.cause)) {
      habits = &cause->shows_when;
    }
  } else if (const auto* mode = knowledge::find(
                 knowledge_->modes, compiled_->network.items[at.item].states[at.state])) {
    habits = &mode->shows_when;
  }
  const auto found =
      habits == nullptr ? std::map<std::string, double>::const_iterator{} : habits->find(condition);
  return habits == nullptr || found == habits->end() ? knowledge::no_habit : found->second;
}

/// `only_where_present`: how strongly it shows there, whatever was said of other places.
double LocatedSymptom::strength(std::size_t slot, bool only_where_present) const {
  const std::vector<Way>& ways = ways_[slot];
  double whole = 0.0;
  double at_rate = 0.0;
  Rate told_rate = Rate::unsaid;
  std::string condition;
  for (const PlacedAnswer& answer : answers_) {
    if (!answer.present) continue;
    if (answer.rate != Rate::unsaid) told_rate = answer.rate;
    if (!answer.condition.empty()) condition = answer.condition;
  }
  for (const Way& way : ways) {
    const bool fits =
        told_rate == Rate::unsaid || way.rate == Rate::unsaid || way.rate == told_rate;
    whole = std::max(whole, way.strength);
    at_rate = std::max(at_rate, way.strength * (fits ? 1.0 : other_rate));
  }
  double share = at_rate / whole * in_condition(slots_[slot], condition);
  for (const Axis axis : knowledge::all_axes) {
    const Places there = told_on(axis, true);
    const Places not_there = only_where_present ? Places{} : told_on(axis, false);
    if (there.empty() && not_there.empty()) continue;
    const bool guess = !only_where_present && axis != Axis::control;
    share *= fit(ways, axis, there, not_there, guess ? unasked : 0.0);
  }
  return whole * share;
}

Finding LocatedSymptom::with_leak(Finding finding) const {
  std::sort(finding.causes.begin(), finding.causes.end(), [](const Cause& a, const Cause& b) {
    return std::pair(a.item, a.state) < std::pair(b.item, b.state);
  });
  finding.leak =
      leak_of_share(state_chances(compiled_->network), finding.causes, symptom_->unlisted);
  return finding;
}

Finding LocatedSymptom::present() const {
  Finding finding{id("symptom:" + symptom_->id), 0.0, {}};
  for (std::size_t slot = 0; slot < slots_.size(); ++slot) {
    const double fits = strength(slot, false);
    if (fits > 0.0) finding.causes.push_back({slots_[slot].item, slots_[slot].state, fits});
  }
  return with_leak(std::move(finding));
}

Finding LocatedSymptom::absent(std::size_t answer) const {
  CHECK(answer < answers_.size() && !answers_[answer].present);
  const PlacedAnswer& told = answers_[answer];
  const bool elsewhere = std::any_of(answers_.begin(), answers_.end(),
                                     [](const PlacedAnswer& each) { return each.present; });
  Finding finding{"symptom:" + symptom_->id + '!' + words_of(told), 0.0, {}};
  for (std::size_t slot = 0; slot < slots_.size(); ++slot) {
    double here = 1.0;
    double whole = 0.0;
    for (const Way& way : ways_[slot]) whole = std::max(whole, way.strength);
    for (const Axis axis : placed_axes) {
      if (const auto& at = told.at[index(axis)]) here *= fit(ways_[slot], axis, {*at}, {}, 0.0);
    }
    here *= whole * in_condition(slots_[slot], told.condition);
    // What shows there as well as here was weighed by present().
    const double left = elsewhere ? here - strength(slot, true) : here;
    if (left > 0.0) finding.causes.push_back({slots_[slot].item, slots_[slot].state, left});
  }
  return with_leak(std::move(finding));
}

std::string LocatedSymptom::words_of(const PlacedAnswer& answer) const {
  std::string words;
  for (const Axis axis : placed_axes) {
    if (const auto& at = answer.at[index(axis)]) {
      words += ';' + std::string(knowledge::word_of(axis)) + '=' + std::to_string(*at);
    }
  }
  words += answer.volume == Volume::follows ? ";follows" : "";
  words += answer.volume == Volume::stays ? ";stays" : "";
  words += answer.rate == Rate::mains ? ";mains" : "";
  words += answer.rate == Rate::twice ? ";twice" : "";
  return words + (answer.condition.empty() ? "" : ';' + answer.condition);
}

std::string LocatedSymptom::id(const std::string& symptom) const {
  std::string name = symptom;
  for (const PlacedAnswer& answer : answers_) {
    name += (answer.present ? '+' : '!') + words_of(answer);
  }
  return name;
}

}  // namespace dryout::diagnosis
