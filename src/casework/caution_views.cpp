#include "casework/caution_views.h"

#include <algorithm>
#include <map>

#include "casework/stored_charge.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

/// Where the last sentence begins; 0 where there is only one.
std::size_t closing_of(const std::string& wording) {
  const std::size_t end = wording.rfind(". ");
  return end == std::string::npos ? 0 : end + 2;
}

/// Of those that will be shown in full, each but the last leaves a closing sentence to the last.
void say_closing_once(std::vector<CautionView>& views) {
  std::map<std::string, std::size_t> last_with;
  for (std::size_t i = 0; i < views.size(); ++i) {
    if (!views[i].read) {
      last_with[views[i].wording.substr(closing_of(views[i].wording))] = i;
    }
  }
  for (std::size_t i = 0; i < views.size(); ++i) {
    std::string& wording = views[i].wording;
    const std::size_t closing = closing_of(wording);
    if (!views[i].read && closing > 0 && last_with[wording.substr(closing)] != i) {
      wording.resize(closing - 1);
    }
  }
}

}  // namespace

std::vector<CautionView> views_of(const std::vector<const knowledge::Caution*>& cautions) {
  std::vector<CautionView> views;
  views.reserve(cautions.size());
  for (const knowledge::Caution* caution : cautions) {
    views.push_back(view_of(*caution));
  }
  say_closing_once(views);
  return views;
}

std::vector<CautionView> views_of(const Hazard& hazard, const Heeded& heeded,
                                  const std::string& here) {
  std::vector<CautionView> views;
  views.reserve(hazard.cautions.size());
  for (const knowledge::Caution* caution : hazard.cautions) {
    views.push_back(view_of(*caution));
    views.back().read = heeded.has_read(hazard, *caution);
  }
  say_closing_once(views);
  for (CautionView& view : views) {
    if (!here.empty() && !view.read && view.danger == word_of(planning::Danger::stored_charge)) {
      view.wording = here + ' ' + view.wording;
      break;
    }
  }
  return views;
}

std::optional<MeasuringView> heeding_view(const Ground& ground, const CaseState& state,
                                          const AcknowledgeCautions& heeding) {
  const auto hazard = hazard_heeded(ground, heeding);
  if (!hazard) {
    return std::nullopt;
  }
  const Heeded heeded = heeded_of(ground, state);
  const auto finding = ground.check_finding(heeding.check, heeding.place);
  const auto reading = reading_heeded(ground, heeding.check, heeding.place);
  const std::string here = finding ? discharge_told(ground, state, ground.compiled.named(*finding))
                           : reading ? discharge_told(ground, state, reading->item)
                                     : std::string();
  return MeasuringView{heeding.check + (heeding.place.empty() ? "" : '@' + heeding.place),
                       {},
                       views_of(*hazard, heeded, here),
                       heeded.covers(*hazard),
                       reminder_of(*hazard, heeded, here)};
}

std::vector<MeasuringView> measuring_of(const Ground& ground, const CaseState& state,
                                        const Heeded& heeded) {
  std::vector<MeasuringView> views;
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    if (!is_capacitor(ground.compiled.items[i])) {
      continue;
    }
    std::vector<Hazard> told;  // as many as views of this item
    for (int k = 0; k <= static_cast<int>(ReadingKind::hold_up); ++k) {
      const auto kind = static_cast<ReadingKind>(k);
      const Hazard hazard = hazard_of_reading(ground, i, kind);
      if (!hazard.dangerous()) {
        continue;
      }
      const auto same = std::find(told.begin(), told.end(), hazard);
      if (same == told.end()) {
        const std::string here = discharge_told(ground, state, i);
        told.push_back(hazard);
        views.push_back({ground.compiled.network.items[i].id,
                         {std::string(readings::word_of(kind))},
                         views_of(hazard, heeded, here),
                         heeded.covers(hazard),
                         reminder_of(hazard, heeded, here)});
      } else {
        views[views.size() - static_cast<std::size_t>(told.end() - same)].kinds.emplace_back(
            readings::word_of(kind));
      }
    }
  }
  return views;
}

}  // namespace dryout::casework
