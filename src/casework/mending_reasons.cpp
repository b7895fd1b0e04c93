#include "casework/mending_reasons.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "casework/beside_figures.h"
#include "casework/word_list.h"
#include "casework/wording.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

using decision::PartStock;

/// A kind of which so many of the spent ones have seeped is known for it (judgement).
constexpr double known_to_seep_from = 0.25;
/// An era that makes seeping so much likelier is known for it (judgement).
constexpr double seeping_era_from = 2.0;

/// The newest number of an item that proves something: how many times its limit.
struct Measured {
  bool over = false;
  std::string shorted;  ///< what it read by itself: "2 Ω"; "" = it is no short
  std::optional<double> ratio;
  bool decided = true;  ///< over or within its limit, not masked or unproven
};

/// The reading that says most of a part; one that decides nothing only where that is asked for.
std::optional<Measured> measured_at(const CaseInHand& hand, std::size_t item,
                                    bool undecided_too = false) {
  std::optional<Measured> found;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const RecordReading& reading = hand.state.readings[i].what;
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const bool over = weighed.is_bad();
    const bool decided = over || weighed.is_good();
    if (hand.ground.item(reading.item) != item || (!decided && !undecided_too) ||
        (found && ((found->over && !over) || (found->decided && !decided)))) {
      continue;
    }
    const std::string before = found ? found->shorted : "";
    found = Measured{over, weighed.shorted ? shown(reading) : before, {}, decided};
    if (!weighed.shorted && weighed.limit && *weighed.limit > 0.0) {
      found->ratio = reading.value / *weighed.limit;
    }
  }
  return found;
}

std::string ratio_text(double ratio) {
  // "1.3", "12": a tenth matters near the limit only.
  const double shown = ratio < 10.0 ? std::round(ratio * 10.0) / 10.0 : std::round(ratio);
  std::string text = std::to_string(shown);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') {
    text.pop_back();
  }
  return text;
}

struct Batch {
  std::vector<std::size_t> over;     ///< parts of the stock over their limit that are to go
  std::vector<std::string> shorted;  ///< "C12 (2 Ω)": of those to go
  int measured = 0;
  double least = 0.0, most = 0.0;  ///< times the limit; 0: nothing to tell
};

std::string how_far(const Batch& batch) {
  if (batch.most <= 1.0) {
    return "";
  }
  return ratio_text(batch.least) == ratio_text(batch.most)
             ? ", " + ratio_text(batch.most) + " times it"
             : ", " + ratio_text(batch.least) + " to " + ratio_text(batch.most) + " times it";
}

std::map<std::string, Batch> batches_over(const CaseInHand& hand, const WeighedSet& set,
                                          const decision::WeighedOption& advised) {
  std::map<std::string, Batch> batches;
  for (std::size_t i = 0; i < set.stock.parts.size(); ++i) {
    const PartStock& part = set.stock.parts[i];
    const auto measured =
        part.renewed || part.effort ? std::nullopt : measured_at(hand, set.items[i]);
    if (!measured) {
      continue;
    }
    Batch& batch = batches[part.cohort];
    ++batch.measured;
    const auto& going = advised.replaced;
    if (!measured->over || std::find(going.begin(), going.end(), i) == going.end()) {
      continue;
    }
    if (!measured->shorted.empty()) {
      batch.shorted.push_back(mid_sentence(part.title) + " (" + measured->shorted + ')');
      continue;
    }
    batch.over.push_back(i);
    if (measured->ratio) {
      batch.least = batch.least == 0.0 ? *measured->ratio : std::min(batch.least, *measured->ratio);
      batch.most = std::max(batch.most, *measured->ratio);
    }
  }
  std::erase_if(batches, [](const auto& each) {
    return each.second.over.empty() && each.second.shorted.empty();
  });
  return batches;
}

bool is_seeping_era(const knowledge::EraVariant& era, const std::string& technology, int year) {
  const auto odds = era.odds.find("seeped");
  return odds != era.odds.end() && odds->second >= seeping_era_from && year >= era.year_from &&
         year <= era.year_to &&
         std::find(era.technologies.begin(), era.technologies.end(), technology) !=
             era.technologies.end();
}

/// Known to let its electrolyte out: by its kind, or by the years in which it was made.
bool is_known_to_seep(const CaseInHand& hand, const WeighedSet& set, std::size_t item) {
  const knowledge::KnowledgeBase& knowledge = *hand.ground.knowledge;
  const std::string kind = technology_of_item(hand, item);
  if (const auto* technology = knowledge::find(knowledge.technologies, kind)) {
    const auto seeped = technology->modes.find("seeped");
    if (seeped != technology->modes.end() && !seeped->second.empty() &&
        seeped->second.back() >= known_to_seep_from) {
      return true;
    }
  }
  const int built = year_of(hand.state.opened_at) - static_cast<int>(set.stock.age_years);
  const auto seeps = [&](const auto& era) { return is_seeping_era(era, kind, built); };
  return std::any_of(knowledge.eras.begin(), knowledge.eras.end(), seeps) ||
         std::any_of(hand.ground.equipment->eras.begin(), hand.ground.equipment->eras.end(), seeps);
}

void tell_what_goes_first(const CaseInHand& hand, const WeighedSet& set,
                          const decision::MendingRules& rules,
                          const decision::WeighedOption& advised,
                          std::vector<std::string>& reasons) {
  std::map<const decision::OnSight*, std::vector<std::string>> first;
  for (const std::size_t part : advised.replaced) {
    if (!set.stock.parts[part].goes_first) {
      continue;
    }
    const std::size_t item = set.items[part];
    const auto* rule = rules.first_to_go(hand.ground.group_of(item)->role,
                                         technology_of_item(hand, item), set.stock.age_years);
    first[rule].push_back(mid_sentence(set.stock.parts[part].title));
  }
  for (const decision::OnSight& rule : rules.on_sight) {
    if (const auto found = first.find(&rule); found != first.end()) {
      reasons.push_back("On sight, before power: " + listed(found->second) + ", for " +
                        rule.because);
    }
  }
}

bool read_at(const CaseInHand& hand, const WeighedSet& set, const Batch& batch,
             const RecordReading& reading) {
  return std::any_of(batch.over.begin(), batch.over.end(), [&](std::size_t part) {
    return hand.ground.item(reading.item) == set.items[part];
  });
}

/// What the parts of a batch were held against.
std::string yardstick(const CaseInHand& hand, const WeighedSet& set, const Batch& batch) {
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const std::string& source = hand.reasoning.evidence.weighed.at(i).limit_source;
    if (source == "datasheet" && read_at(hand, set, batch, hand.state.readings[i].what)) {
      return batch.over.size() == 1 ? "its own sheet" : "their own sheet";
    }
    if (source == "fresh-part" && read_at(hand, set, batch, hand.state.readings[i].what)) {
      return "what a fresh part reads";
    }
  }
  return "what like parts are allowed";
}

/// What who reads general tables alone would have done: "" where none was written down beside.
std::string passed_by_tables(const CaseInHand& hand, const WeighedSet& set, const Batch& batch) {
  std::set<std::string> passed;
  std::set<std::string> tables;
  for (const auto& told : hand.state.readings) {
    const auto beside = read_beside_figures(told.what.beside, told.what.kind);
    if (!beside || !read_at(hand, set, batch, told.what)) {
      continue;
    }
    for (const BesideFigure& figure : *beside) {
      if (figure.source == "general-table" && told.what.value <= figure.value) {
        passed.insert(told.what.item);
        tables.insert(shown(told.what.kind, figure.value));
      }
    }
  }
  return passed.empty()
             ? ""
             : "who reads a general table alone (" + listed({tables.begin(), tables.end()}) +
                   ") would have passed " + std::to_string(passed.size()) + " of them";
}

/// Then "it works today" is no comfort.
bool tells_of_danger(const WeighedSet& set, const Batch& batch) {
  return std::any_of(batch.over.begin(), batch.over.end(),
                     [&](std::size_t part) { return set.stock.parts[part].is_danger(); });
}

void tell_of_dangers(const WeighedSet& set, std::vector<std::string>& reasons) {
  std::map<std::string, std::vector<std::string>> dangers;
  for (const PartStock& part : set.stock.parts) {
    if (part.is_danger()) {
      dangers[part.whatever_it_costs].push_back(mid_sentence(part.title));
    }
  }
  for (const auto& [because, titles] : dangers) {
    reasons.push_back("whatever it costs, " + listed(titles) +
                      (titles.size() == 1 ? " is" : " are") + " renewed: " + because);
  }
}

void tell_of_batch(const CaseInHand& hand, const WeighedSet& set, const Batch& batch,
                   std::vector<std::string>& reasons) {
  if (!batch.shorted.empty()) {
    reasons.push_back("shorted, read by " +
                      std::string(batch.shorted.size() == 1 ? "itself: " : "themselves: ") +
                      listed(batch.shorted));
  }
  const auto over = batch.over.size();
  if (over == 0) {
    return;
  }
  const std::string title = mid_sentence(set.stock.parts[batch.over.front()].title);
  reasons.push_back((over == 1 && batch.measured == 1
                         ? title + " is over its limit"
                         : std::to_string(over) + " of " + std::to_string(batch.measured) +
                               " measured are over their limit") +
                    how_far(batch) +
                    (set.preventive && !tells_of_danger(set, batch)
                         ? (over == 1 ? ": it works today, and is worn out by "
                                      : ": they work today, and are worn out by ") +
                               yardstick(hand, set, batch)
                         : std::string()));
  if (std::string passed = passed_by_tables(hand, set, batch); !passed.empty()) {
    reasons.push_back(std::move(passed));
  }
  const bool seeps = std::any_of(batch.over.begin(), batch.over.end(), [&](std::size_t part) {
    return is_known_to_seep(hand, set, set.items[part]);
  });
  if (seeps) {
    reasons.emplace_back(
        "they are of a kind that seeps: what runs out eats pads and tracks while the set still "
        "works");
    reasons.emplace_back(
        "look under each for residue, brown or damp, and clean it off before the new one goes in");
  }
}

/// What is mended and is no capacitor: how long it takes, what is bought, what to mind.
void tell_of_remedies(const CaseInHand& hand, const WeighedSet& set,
                      const decision::MendingRules& rules, const decision::WeighedOption& advised,
                      std::vector<std::string>& reasons) {
  for (const std::size_t i : advised.replaced) {
    const PartStock& part = set.stock.parts[i];
    if (!part.effort) {
      continue;
    }
    const auto* remedy = rules.remedy_for(hand.ground.compiled.items[set.items[i]].cause);
    std::string told = mid_sentence(part.title) + ": " + quantities::format_duration(*part.effort) +
                       " at the bench";
    if (remedy != nullptr) {
      told += remedy->buy.empty() ? ", nothing to buy" : ", what to buy stands on the list";
      told += remedy->look_at.empty() ? "" : "; " + mid_sentence(remedy->look_at);
    }
    reasons.push_back(std::move(told));
  }
}

/// A measured brother by place, but of another make: within its limit, it is nobody's concern.
void tell_of_odd_ones(const CaseInHand& hand, const WeighedSet& set,
                      const std::map<std::string, Batch>& batches,
                      std::vector<std::string>& reasons) {
  std::set<std::string> groups;
  for (const auto& [name, batch] : batches) {
    for (const std::size_t part : batch.over) {
      groups.insert(hand.ground.compiled.items[set.items[part]].group);
    }
  }
  for (std::size_t i = 0; i < set.stock.parts.size(); ++i) {
    const PartStock& part = set.stock.parts[i];
    if (part.renewed || part.effort || part.must_go() || batches.contains(part.cohort) ||
        !groups.contains(hand.ground.compiled.items[set.items[i]].group)) {
      continue;
    }
    if (const auto measured = measured_at(hand, set.items[i], true); measured && !measured->over) {
      reasons.push_back(mid_sentence(part.title) + " is of another make and " +
                        (measured->decided ? "within its limit" : "not over its limit") +
                        (measured->ratio ? ", " + ratio_text(*measured->ratio) + " times it" : "") +
                        ": it stays or goes by choice, and clears none of the others");
    }
  }
}

/// Of the age of what goes, and nobody measured them: they neither go nor stay with it.
void tell_of_unmeasured(const WeighedSet& set, const std::map<std::string, Batch>& batches,
                        std::vector<std::string>& reasons) {
  std::vector<std::string> titles;
  for (const PartStock& part : set.stock.parts) {
    if (part.unexamined && part.electrolytic && !part.renewed && !part.must_go() &&
        !part.cohort.empty() && batches.contains(part.cohort)) {
      titles.push_back(mid_sentence(part.title));
    }
  }
  if (set.preventive && !titles.empty()) {
    reasons.push_back("not measured, though of the same age: " + listed(titles) +
                      ". They are decided by their own samples, not by these");
  }
}

}  // namespace

std::vector<std::string> reasons_of_the_set(const CaseInHand& hand, const WeighedSet& set,
                                            const MendingKnowledge& knowledge,
                                            const decision::WeighedOption& advised) {
  std::vector<std::string> reasons;
  tell_of_dangers(set, reasons);
  tell_what_goes_first(hand, set, knowledge.rules, advised, reasons);
  tell_of_remedies(hand, set, knowledge.rules, advised, reasons);
  const auto batches = batches_over(hand, set, advised);
  for (const auto& [name, batch] : batches) {
    tell_of_batch(hand, set, batch, reasons);
  }
  tell_of_odd_ones(hand, set, batches, reasons);
  tell_of_unmeasured(set, batches, reasons);
  return reasons;
}

}  // namespace dryout::casework
