// What was heeded in a case. A danger is heeded once: where it was heeded at one check, one line
// reminds of it at every later one. A danger of its own kind (a picture tube, a kilovolt bank, a
// live chassis) is heeded by itself.
#pragma once

#include <optional>
#include <set>
#include <string>

#include "casework/case_state.h"
#include "casework/danger.h"

namespace dryout::casework {

struct Heeded {
  std::set<std::string> dangers;  ///< "mains", "caution:crt"
  std::set<std::string> read;     ///< ids of cautions that were shown at what was done so far

  /// Nothing at this hazard is left that would have to be heeded first.
  [[nodiscard]] bool covers(const Hazard& hazard) const;
  /// The caution was read, and its danger, with the power on or off, is heeded.
  [[nodiscard]] bool has_read(const Hazard& hazard, const knowledge::Caution& caution) const;
};

/// A number read at a part or group outside a check, heeded as "reservoirs" (series resistance) or,
/// by its kind, as "reservoirs@dc-volts".
struct HeededReading {
  std::size_t item = 0;
  ReadingKind kind = ReadingKind::esr;
};
/// What the two words of AcknowledgeCautions mean where they name no check; nothing where they name
/// no capacitor either.
[[nodiscard]] std::optional<HeededReading> reading_heeded(const Ground& ground,
                                                          const std::string& item,
                                                          const std::string& kind);

/// What must be heeded before this command; nothing where it is neither an outcome nor a reading.
[[nodiscard]] std::optional<AcknowledgeCautions> heeding_for(const Command& command);
/// The hazard that these words are about.
[[nodiscard]] std::optional<Hazard> hazard_heeded(const Ground& ground,
                                                  const AcknowledgeCautions& heeding);

/// From the cautions acknowledged, at checks or at parts, and the checks made since.
[[nodiscard]] Heeded heeded_of(const Ground& ground, const CaseState& state);

/// One line instead of the cautions already read; "" where none was. `here`: figures of this place.
[[nodiscard]] std::string reminder_of(const Hazard& hazard, const Heeded& heeded,
                                      const std::string& here);

}  // namespace dryout::casework
