// Signs between the words of a print that mean one thing or another: the "x" of ".25 x 200 V", "0.1
// x 3" and "0.1 X 250~", the "+" of "0.1 + 2x2500p", the stroke of "25/25", the "F" of "0.47 F".
#pragma once

#include <string>
#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

/// One way to take a print apart.
struct WayOfReading {
  std::vector<std::string> words;  ///< no sign stands by itself but for a class ("X")
  double misfit = 0.0;             ///< what is put on each of its readings
  bool equal_is_volts = false;     ///< "25/25" is 25 uF of 25 V, not twice 25 uF
  std::vector<std::string> remarks;
};

/// The words of a print (words_of_print) with such signs resolved; the likeliest way first, at
/// least one.
[[nodiscard]] std::vector<WayOfReading> ways_of_reading(const std::vector<std::string>& words,
                                                        const MarkedPart& part);

}  // namespace dryout::quantities
