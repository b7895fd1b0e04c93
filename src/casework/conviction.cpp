#include "casework/conviction.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "casework/wording.h"
#include "quantities/holds.h"
#include "readings/verdict.h"

namespace dryout::casework {
namespace {

/// The readings of an item that tell of the part as it came in, by their verdict.
struct ItsReadings {
  bool over = false, within = false, over_its_own_sheet = false;
  bool shorted = false, proven_no_short = false;
  double over_alone = 0.0;  ///< P(not sound) by one of those over the limit, the most of them
  int over_step = 0, within_step = 0;
};

/// A short reads like a splendid capacitor to a meter of ESR: only direct current and capacitance
/// tell the two apart.
bool speaks_against_a_short(ReadingKind kind) {
  return kind == ReadingKind::dc_resistance || kind == ReadingKind::leakage_current ||
         kind == ReadingKind::insulation || kind == ReadingKind::capacitance;
}

/// What the meter shows there is made by more than the part.
bool is_of_a_rail(ReadingKind kind) {
  return kind == ReadingKind::dc_volts || kind == ReadingKind::ripple;
}

ItsReadings readings_of_item(const Ground& ground, const CaseState& state,
                             const CaseEvidence& evidence, std::size_t item) {
  ItsReadings found;
  for (std::size_t i = 0; i < state.readings.size(); ++i) {
    const WeighedReading& weighed = evidence.weighed.at(i);
    if (ground.item(state.readings[i].what.item) != item) {
      continue;
    }
    if (weighed.is_bad()) {
      found.over = true;
      found.shorted = found.shorted || weighed.shorted;
      // A rail's volts or ripple are no row of the part's sheet, whoever says what is due there.
      found.over_its_own_sheet =
          found.over_its_own_sheet ||
          (weighed.limit_source == "datasheet" && !is_of_a_rail(state.readings[i].what.kind) &&
           weighed.unsound_alone >= readings::convicted_from);
      found.over_alone = std::max(found.over_alone, weighed.unsound_alone);
      found.over_step = state.readings[i].event;
    } else if (weighed.is_good()) {
      found.within = true;
      found.proven_no_short =
          found.proven_no_short || speaks_against_a_short(state.readings[i].what.kind);
      found.within_step = state.readings[i].event;
    }
  }
  return found;
}

}  // namespace

std::string_view word_of(Conviction conviction) {
  switch (conviction) {
    case Conviction::none:
      return "";
    case Conviction::by_reading:
      return "reading";
    case Conviction::by_judgement:
      return "judgement";
    case Conviction::by_blame:
      break;
  }
  return "blame";
}

bool was_judged(const Ground& ground, const CaseState& state, std::size_t item,
                JudgeSuspect::Verdict verdict) {
  return std::any_of(state.judged.begin(), state.judged.end(), [&](const auto& each) {
    return ground.item(each.first) == item && each.second.what.verdict == verdict;
  });
}

std::vector<double> weight_of_unproven_readings(const CaseState& state,
                                                const CaseEvidence& evidence,
                                                const diagnosis::EvidenceWeights& weights,
                                                std::size_t items) {
  std::vector<double> decibans(items, 0.0);
  const std::vector<Piece> pieces = evidence.pieces();
  for (std::size_t i = 0; i < state.readings.size(); ++i) {
    const WeighedReading& weighed = evidence.weighed.at(i);
    if (weighed.is_bad() || weighed.is_good()) {
      continue;
    }
    for (std::size_t piece = 0; piece < pieces.size() && piece < weights.weight.size(); ++piece) {
      for (std::size_t item = 0; pieces[piece].event == state.readings[i].event && item < items;
           ++item) {
        decibans[item] += std::max(0.0, weights.weight[piece][item].value);
      }
    }
  }
  return decibans;
}

double without_unproven(double probability, double decibans) {
  if (decibans <= 0.0 || probability >= 1.0) {
    return probability;
  }
  const double odds = probability / (1.0 - probability) / std::pow(10.0, decibans / 10.0);
  return odds / (1.0 + odds);
}

std::vector<Conviction> convictions(const Ground& ground, const CaseState& state,
                                    const CaseEvidence& evidence, const diagnosis::Posterior& now,
                                    const std::vector<double>& blame) {
  std::vector<Conviction> all(ground.compiled.items.size(), Conviction::none);
  for (std::size_t item = 0; item < all.size(); ++item) {
    if (quantities::holds(evidence.mended, item) ||
        was_judged(ground, state, item, JudgeSuspect::Verdict::cleared)) {
      continue;
    }
    const ItsReadings read = readings_of_item(ground, state, evidence, item);
    const bool beyond_doubt = 1.0 - now.items[item][0] >= readings::convicted_from;
    const bool by_itself =
        (read.over_its_own_sheet && !read.within) || (read.shorted && !read.proven_no_short);
    if (read.over && (beyond_doubt || by_itself)) {
      all[item] = Conviction::by_reading;
    } else if (was_judged(ground, state, item, JudgeSuspect::Verdict::at_fault)) {
      all[item] = Conviction::by_judgement;
    } else if (!blame.empty() && blame[item] >= settled_from) {
      all[item] = Conviction::by_blame;
    }
  }
  return all;
}

double convicted_alone(const Ground& ground, const CaseState& state, const CaseEvidence& evidence,
                       std::size_t item) {
  return readings_of_item(ground, state, evidence, item).over_alone;
}

std::vector<std::string> judged_against_readings(const Ground& ground, const CaseState& state,
                                                 const CaseEvidence& evidence) {
  std::vector<std::string> told;
  for (const auto& [id, judged] : state.judged) {
    const auto item = ground.item(id);
    if (!item || quantities::holds(evidence.mended, *item)) {
      continue;
    }
    const ItsReadings read = readings_of_item(ground, state, evidence, *item);
    const bool cleared = judged.what.verdict == JudgeSuspect::Verdict::cleared && read.over;
    const bool accused =
        judged.what.verdict == JudgeSuspect::Verdict::at_fault && read.within && !read.over;
    if (cleared || accused) {
      const int step = cleared ? read.over_step : read.within_step;
      told.push_back(
          title_of_item(ground, id) + (cleared ? ": cleared by you" : ": judged at fault by you") +
          " (step " + std::to_string(judged.event) + "), and read " +
          (cleared ? "over its limit" : "within its limit") + " (step " + std::to_string(step) +
          "). Both count: measure it again, or take one of the two steps back.");
    }
  }
  return told;
}

}  // namespace dryout::casework
