// From probabilities to a word and a plain sentence. Thresholds lie on the comparison itself (is
// the part beyond its own limit?), so that a verdict rises with the reading.
//
// Three rules hold of every verdict, and tests hold them over roles, technologies, values, volts
// and provenance: nothing at or below the limit that the sentence prints is over it; "convicted" is
// said only where the figures leave the part at most one chance in ten of being sound; what is
// convicted is not asked to be lifted.
#pragma once

#include <optional>
#include <string>

#include "readings/limit.h"
#include "readings/reading.h"

namespace dryout::readings {

/// At or above this a reading convicts, at or below one minus it, it acquits.
inline constexpr double convincing = 0.97;
/// An acquittal needs the chance that an open part would pass unseen to be no more than this.
inline constexpr double hiding_tolerated = 0.10;
/// From here on the honest word is "masked".
inline constexpr double mostly_hidden = 0.5;
/// Below this, of the part not being sound, nobody says "convicted".
inline constexpr double convicted_from = 0.9;

/// What an ESR or impedance reading is judged by. Probabilities are about the part's own limit.
struct ResistanceFigures {
  double over_as_bound = 0.5;  ///< the reading exceeds anything a part within its limit shows here
  double over_by_inversion = 0.5;  ///< the same after undoing what sits across the part
  double far_too_low = 0.0;        ///< that it lies below anything the type can do
  double hidden = 0.0;             ///< that an open part would read within the limit
  bool exact = false;              ///< the circuit is known, so undoing it may convict too
  bool explained = true;           ///< some resistance of the part gives this reading
  bool above_printed = true;       ///< the reading lies above the limit that is told
  bool undone = false;             ///< a netlist was undone: the part's own figure is told
  /// In circuit a winding in resonance would show as much of a part within its limit.
  bool resonance_explains = false;
  bool leads_explain = false;  ///< a meter that nobody zeroed would show as much by its leads
  double unsound = 1.0;        ///< P(not sound) that the reading leaves
};
[[nodiscard]] Verdict judge(const ResistanceFigures& figures);

/// What the sentence is made of.
struct Wording {
  Kind kind = Kind::esr;
  std::string reading;     ///< "4.5 Ω"
  std::string limit;       ///< "3 Ω"; "" = none
  std::string limit_told;  ///< "the part's own data sheet"
  LimitSource source = LimitSource::datasheet;
  bool in_circuit = true;
  Across across = Across::unknown;
  bool exact = false;     ///< a netlist was given
  std::string hidden_at;  ///< "0.53 Ω": what an open part would read; "" = not known
  std::string behind;     ///< "3.1 Ω": the part's own figure, the circuit undone; "" = not known
  std::string leads;      ///< "80 mΩ": leads that would explain it, were the meter not zeroed; ""
};
[[nodiscard]] std::string sentence_for(Verdict verdict, const ResistanceFigures& figures,
                                       const Wording& wording);

/// "nothing", "a ceramic capacitor", "another electrolytic", ...
[[nodiscard]] std::string_view told(Across across);

}  // namespace dryout::readings
