#include "casework/catalogue.h"

#include <algorithm>
#include <tuple>

#include "casework/wording.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

MeterChoice choice_of_meter(const readings::Meter& meter) {
  MeterChoice choice{meter.id, meter.title, meter.shows, "", meter.lead_zero.has_value()};
  choice.told = quantities::format(meter.frequency) + ", within " + percent(meter.accuracy);
  if (meter.test_volts) {
    choice.told += ", tests with " + quantities::format(*meter.test_volts);
  }
  choice.told += meter.lead_zero ? ", leads " + quantities::format(*meter.lead_zero)
                                 : std::string(", leads not zeroed");
  return choice;
}

}  // namespace

Catalogue catalogue_of(const knowledge::KnowledgeBase& knowledge,
                       const readings::ReadingKnowledge& readings, int year_now) {
  Catalogue catalogue;
  for (const knowledge::Equipment& equipment : knowledge.equipment) {
    catalogue.equipment.push_back({equipment.id, equipment.title, equipment.family,
                                   equipment.because, equipment.year_from, equipment.year_to});
  }
  std::sort(catalogue.equipment.begin(), catalogue.equipment.end(),
            [](const EquipmentChoice& a, const EquipmentChoice& b) {
              return std::tie(a.family, a.title) < std::tie(b.family, b.title);
            });
  for (const readings::Meter& meter : readings.meters) {
    catalogue.meters.push_back(choice_of_meter(meter));
  }
  catalogue.library = library_of(knowledge, readings);
  catalogue.year_now = year_now;
  return catalogue;
}

}  // namespace dryout::casework
