// Bands and dots of colour in the place of figures, typed as words or as the letters of IEC 60757
// ("brown black orange", "BN BK OG"). The codes differ by what carries them and are from memory:
// moulded and flat micas and papers of RMA, EIA and JAN parts, ceramic tubes and discs with a
// leading dot for the temperature, film parts with five bands, tantalum beads.
//
// Order: as the bands follow each other from the end that is nearer to the first; dots along the
// arrow. Six dots in two rows: the upper row along the arrow, then the lower row backwards.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

enum class Colour {
  black,
  brown,
  red,
  orange,
  yellow,
  green,
  blue,
  violet,
  grey,
  white,
  gold,
  silver,
  pink
};

/// Three to six colours and nothing else; nothing where a word is no colour.
[[nodiscard]] std::optional<std::vector<Colour>> colours_in(const std::vector<std::string>& words);

/// Every code of that many colours, each with how badly it fits the body (0 = as usual).
[[nodiscard]] std::vector<MarkingReading> read_colours(const std::vector<Colour>& colours,
                                                       Body body);

}  // namespace dryout::quantities
