// What the shop's history does to the figures, laid open.
#include <algorithm>
#include <cmath>

#include "casework/case_ground.h"
#include "casework/shop_history.h"
#include "casework/shop_memory.h"
#include "casework/subject.h"
#include "casework/wording.h"
#include "casework/words.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using quantities::Result;

constexpr const char* bound =
    "The odds of a suspect move by no more than two to one either way, those between two suspects "
    "by no more than four to one (6 dB); a typical reading by no more than a factor of two. All "
    "closed cases together never count for more than 50, as much as the knowledge itself.";

/// What is believed of a type the library says nothing about: anything from a tenth of an ohm to
/// ten (judgement). Shown, never used.
constexpr NormalBelief anything{0.0, 2.3};

std::string times(double spread) {
  return "times or over " + quantities::fixed_point(std::exp(spread), 2);
}

}  // namespace

LearnedTypicalView ShopMemory::learned_typical(const SoundReadings& type) const {
  LearnedTypicalView view;
  const auto kind = choice_of<ReadingKind>(type.kind).value_or(ReadingKind::esr);
  const auto* technology = knowledge::find(knowledge_->technologies, type.technology);
  view.title = title_of(kind) + ", " +
               (technology == nullptr ? type.technology : mid_sentence(technology->title)) + ", " +
               quantities::format(type.capacitance) + ", " + quantities::format(type.rated);
  const auto by_library =
      type.capacitance.si() > 0.0 && type.rated.si() > 0.0
          ? typical_by_library(
                readings_->limits,
                {type.technology, readings::Body::unknown, type.capacitance, type.rated}, kind)
          : std::nullopt;
  const NormalBelief before = by_library.value_or(anything);
  const NormalBelief after =
      by_library ? learn_typical(before, type)
                 : updated(before, std::min(readings_most, static_cast<double>(type.readings)),
                           type.log_mean, typical_spread);
  view.readings = type.readings;
  view.counted = std::min(readings_most, static_cast<double>(type.readings));
  view.known_to_library = by_library.has_value();
  view.before = shown(kind, std::exp(before.mean));
  view.after = shown(kind, std::exp(after.mean));
  view.spread_before = times(before.spread);
  view.spread_after = times(after.spread);
  return view;
}

Result<LearnedView> ShopMemory::learned(const std::string& equipment_id, int year_now) const {
  const auto equipment = find_equipment(*knowledge_, equipment_id);
  if (!equipment) {
    return equipment.problems();
  }
  const auto history = ShopHistory::read(*store_);
  if (!history) {
    return history.problems();
  }
  LearnedView view;
  view.on = learning_;
  view.equipment_title = (*equipment)->title;
  view.family = (*equipment)->family;
  view.bound = bound;
  diagnosis::SetParticulars set;
  set.year_now = year_now;
  const auto compiled = diagnosis::compile_network(*knowledge_, **equipment, set);
  for (LearnedShare& share : learn_shares(expected_shares(compiled, **equipment),
                                          history->causes((*equipment)->family))) {
    view.causes.push_back({title_of_subject(*knowledge_, share.subject), std::move(share)});
  }
  std::stable_sort(view.causes.begin(), view.causes.end(), [](const auto& a, const auto& b) {
    return a.share.cases != b.share.cases ? a.share.cases > b.share.cases
                                          : a.share.before > b.share.before;
  });
  for (const SoundReadings& type : history->sound_parts()) {
    if (type.kind == word_of(ReadingKind::esr) || type.kind == word_of(ReadingKind::impedance)) {
      view.typical.push_back(learned_typical(type));
    }
  }
  std::stable_sort(view.typical.begin(), view.typical.end(),
                   [](const auto& a, const auto& b) { return a.readings > b.readings; });
  return view;
}

}  // namespace dryout::casework
