// What can be picked or looked up before there is a case: the kinds of equipment the knowledge
// covers, the shop's meters, and everything else that is known. Plain values, as a face may read
// them.
#pragma once

#include <string>
#include <vector>

#include "casework/library.h"
#include "readings/reading.h"

namespace dryout::complaints {
class ComplaintReader;
}

namespace dryout::casework {

struct EquipmentChoice {
  std::string id, title, family;
  std::string because;  ///< what the architecture is, in words
  int year_from = 0, year_to = 0;
};

struct MeterChoice {
  std::string id, title;
  std::vector<readings::Kind> shows;  ///< empty = everything
  std::string told;                   ///< "100 kHz, within 5 %, leads not zeroed"
  bool zeroed = false;                ///< its leads are subtracted by the list already
};

struct Catalogue {
  std::vector<EquipmentChoice> equipment;  ///< by family, then title
  std::vector<MeterChoice> meters;
  std::vector<LibraryEntry> library;
  int year_now = 0;  ///< for date codes
  /// The workshop's, which outlives the catalogue; null where there is none.
  const complaints::ComplaintReader* complaint_reader = nullptr;
};

[[nodiscard]] Catalogue catalogue_of(const knowledge::KnowledgeBase& knowledge,
                                     const readings::ReadingKnowledge& readings, int year_now);

}  // namespace dryout::casework
