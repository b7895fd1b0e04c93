// Prints that makers run together, taken apart again: "22nJ100", "682J2A", "0.33/5/250",
// "50uF/350-385V", "400-/150~", and thousands parted by a blank, "12 000 pF".
#pragma once

#include <string>
#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// The words of a print (words_of_print), each of one meaning as far as that can be told: value
/// with its tolerance letter, "5%", "250V", "150~". A word that is clear by itself, or that nothing
/// parts, stays as it is.
[[nodiscard]] std::vector<std::string> words_apart(const std::vector<std::string>& words,
                                                   const MarkedPart& part);

}  // namespace dryout::quantities
