// What is printed on a capacitor, read as makers and standards print it and as an old hand reads
// it. A print is often ambiguous ("100" is 10 pF on a disc and 100 uF on a can, "0.1F" a tenth of a
// farad or a tenth of a microfarad within a hundredth), so reading gives every candidate with the
// way it was read and why it stands where it does, the likeliest for the stated part first.
//
// Codes: capacitance of three and four figures and a letter for the point (IEC 60062), tolerance
// letters (the same), rated voltage as figure and letter or one letter, temperature characteristics
// and the two characters of chips (EIA-198), colours (colour_code.h), military part numbers
// (part_number.h). All tables are from memory except the voltage letters that makers' data sheets
// print; part_marking_test.cpp names each source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::quantities {

/// What the print stands on.
enum class Body {
  unknown,
  ceramic_or_film,  ///< one of the small parts, not known which
  tantalum,
  electrolytic_can,
  ceramic,
  film,
  mica,
  paper,
  double_layer
};

/// What is known of the part beside its print; each decides which reading makes more sense.
struct MarkedPart {
  Body body = Body::unknown;
  std::optional<Volt> in_circuit;  ///< what stands across it
  std::optional<int> year_made;
};

/// Deviation allowed by a tolerance letter, relative (0.2 = 20 %) or, below 10 pF, absolute.
struct Tolerance {
  double minus = 0.0;
  double plus = 0.0;
  bool absolute_farads = false;  ///< minus and plus are farads
};

/// The way a figure is to be understood.
enum class Convention {
  written_unit,         ///< "2200 pF", "8 mF", ".05 MFD"
  three_figures,        ///< "104", in pF
  four_figures,         ///< "1502", in pF
  microfarad_figures,   ///< "221" on a can: 22 x 10 uF
  letter_for_point,     ///< "4n7", "R47"
  kilo_picofarads,      ///< "4K7" on old ceramics
  plain_microfarads,    ///< "47"
  plain_picofarads,     ///< "330"
  plain_farads,         ///< "0.33" on a double-layer cell
  voltage_and_figures,  ///< "A475"
  two_characters,       ///< "A5"
  colours,
  part_number  ///< "CK05BX104K"
};

/// One of several capacitors in a can.
struct MarkedSection {
  Farad capacitance;
  std::optional<Volt> rated;
};

struct MarkingReading {
  Farad capacitance;  ///< of the first section where there are several
  std::optional<Volt> rated;
  std::optional<Tolerance> tolerance;
  std::string how;  ///< "three-figure code in pF", "plain figure in uF, as on cans"
  Convention convention = Convention::plain_microfarads;
  bool alternating = false;             ///< the rating is one for a.c.
  std::vector<MarkedSection> sections;  ///< empty where the part is single
  std::vector<std::string> remarks;     ///< "X7R: ...", "bipolar"
  std::string why;                      ///< in a sentence, for or against it
  double misfit = 0.0;  ///< smaller is likelier; only for comparing readings of a print
};

/// Reads a print such as "104K", "4n7 J 400", "2A104J", "A475", "47/16", "8 MFD 450 VDC",
/// "40/20/20 450V", "brown black orange". Lines of the print may be given with blanks or line
/// breaks between them. At least one candidate, or a Problem saying which part could not be read.
[[nodiscard]] Result<std::vector<MarkingReading>> read_marking(std::string_view print,
                                                               const MarkedPart& part);
[[nodiscard]] Result<std::vector<MarkingReading>> read_marking(std::string_view print,
                                                               Body body = Body::unknown);

/// The tolerance a letter stands for at this capacitance; nothing for an unknown letter.
[[nodiscard]] std::optional<Tolerance> tolerance_of(char letter, Farad capacitance);

/// "1H" -> 50 V, "0J" -> 6.3 V, "V" -> 35 V (one letter, as on surface-mount parts).
[[nodiscard]] std::optional<Volt> voltage_of(std::string_view code);

}  // namespace dryout::quantities
