#include "window/terms.h"

namespace dryout::window {

const std::vector<Term>& terms() {
  static const std::vector<Term> words{
      {"ESR",
       "Equivalent series resistance: the part of a capacitor that behaves like a resistor in "
       "series with it. As an electrolyte dries it rises, long before the capacitance falls."},
      {"In circuit",
       "Measured without taking the part out. Resistors and capacitors across it make the reading "
       "lower, so a high reading convicts and a low one may be borrowed from a neighbour; a "
       "winding can also raise it."},
      {"Masked",
       "Something across the part would read low even if the part were open. The reading says "
       "nothing about the part until a leg is lifted or the neighbour is known."},
      {"Limit",
       "The figure above which a part is out of order. Its own data sheet convicts; a look-alike "
       "weighs less; a general table proves little."},
      {"Brothers",
       "Parts of one make, kind and age in the same warmth. They age together: one bad brother "
       "makes the others suspect, a good one speaks for them."},
      {"Ripple",
       "What is left of the mains on a rail that should be steady, at mains rate (half wave) or "
       "twice that (full wave)."},
      {"Reservoir",
       "The first capacitor after a rectifier. It carries the set between the peaks of the mains."},
      {"Leakage",
       "Direct current through a capacitor that should pass none. It heats the part and shifts "
       "whatever it should keep apart."},
      {"Stored charge",
       "A capacitor keeps its volts after switching off. Discharge it through a resistor that "
       "stands the power, never a screwdriver; then measure, and measure again before each "
       "touch: some of it comes back, most within ten to twenty days. A clip across a stored can "
       "keeps it down."},
      {"Decibans",
       "Weight of evidence: 10 dB multiply the odds by ten, 3 dB double them. Evidence adds up "
       "in decibans (I. J. Good, Probability and the Weighing of Evidence, 1950)."},
      {"Bit",
       "What a check is expected to teach: one bit is the answer to an even yes-or-no question."},
      {"Dried, leaky, seeped",
       "Dried: its function is gone, ESR far up. Leaky: it passes direct current. Seeped: its "
       "electrolyte is on the board and eats the tracks."}};
  return words;
}

}  // namespace dryout::window
