// The library of published limits: rows of data sheets with where they were read. A row read in
// its sheet is worth more than one quoted second-hand, and both more than one from memory.
//
// Files: DIR/rules/limits/*.json, {"schema": 1, "limits": [row, ...]}; limits.schema.json stands
// beside them. A technician's own folder is laid over the shipped one; a row of the same id takes
// the place of the shipped one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "documents/value.h"
#include "quantities/quantity.h"
#include "quantities/result.h"
#include "readings/limit.h"

namespace dryout::readings {

enum class Mark { read, second_hand, memory };

/// I_max = per_cv C V, at least `least`, plus `plus`, plus per_root_cv sqrt(C V), at most `most`
/// (amperes; C in farad, V in volt). The sheet of a can says "3 sqrt(CV)" with C in uF: that is
/// per_root_cv = 0.003; or "0.02 CV or 3 mA, whichever is smaller".
struct LeakageRule {
  double per_cv = 0.0;
  double least = 0.0;
  double plus = 0.0;
  double minutes = 0.0;  ///< after so long at rated volts; 0 = not said
  double most = 0.0;     ///< 0 = no such ceiling
  double per_root_cv = 0.0;
};
/// In ampere.
[[nodiscard]] double leakage_allowed(const LeakageRule& rule, quantities::Farad capacitance,
                                     quantities::Volt rated);

/// Insulation resistance is at least `least_ohm`, or ohm_farad / C where that is less: a sheet
/// states the first for small parts and the second, a time constant, for large ones. The two meet
/// at C = ohm_farad / least_ohm (0.33 uF where a sheet of PET film says 15 GOhm and 5000 s).
struct InsulationRule {
  double least_ohm = 0.0;   ///< ohm; 0 = not said
  double ohm_farad = 0.0;   ///< ohm farad, that is seconds; 0 = not said
  double test_volts = 0.0;  ///< d.c. volts of the test; 0 = not said
  double minutes = 0.0;     ///< after so long at the test volts; 0 = not said
};

/// What the grade of a row may be: the class, the dielectric or the use that its sheet is for.
[[nodiscard]] const std::vector<std::string_view>& grade_words();

struct LimitRow {
  std::string id;
  std::string maker;
  std::string series;
  std::string technology;  ///< a technology id of the knowledge base
  Body body = Body::unknown;
  std::string grade;                             ///< one of grade_words(); "" = not said
  std::optional<quantities::Farad> capacitance;  ///< absent: for every value of the series
  quantities::Volt rated;
  std::string size;  ///< can or chip size as printed
  std::optional<quantities::Ohm> impedance_max;
  std::optional<quantities::Ohm> esr_max;
  quantities::Hertz frequency{100e3};  ///< of impedance and ESR
  quantities::Celsius temperature{20.0};
  std::optional<double> tan_delta_max;
  quantities::Hertz tan_delta_frequency{120.0};
  /// What the sheet adds to tan delta for each 1,000 uF above 1,000 uF; 0 = nothing is said.
  double tan_delta_per_1000uF = 0.0;
  std::optional<LeakageRule> leakage;
  std::optional<InsulationRule> insulation;   ///< of films, paper, mica, ceramic
  std::optional<quantities::Ohm> dc_esr_max;  ///< of double-layer parts, by a step of current
  std::string endurance;  ///< as printed: hours, temperature, what the part may have lost by then
  std::string document;   ///< publisher, title, number
  Mark mark = Mark::read;
  std::string remark;
  quantities::Place place;
};

struct LimitsLibrary {
  std::vector<LimitRow> rows;
};

/// Loads the shipped tree, then the others over it. Every fault of every file is told, and every
/// row that no sheet can state (readings/impossible_limits.h).
[[nodiscard]] quantities::Result<LimitsLibrary> load_limits(
    const std::vector<std::string>& directories);
/// One file alone, by the same reader; `file` is how complaints name it.
[[nodiscard]] quantities::Result<LimitsLibrary> parse_limits(const std::string& text,
                                                             const std::string& file);

/// For keeping a row that the technician typed from the sheet in hand.
[[nodiscard]] documents::Value to_json(const LimitRow& row);
/// A whole file of such rows, ready for documents::to_text.
[[nodiscard]] documents::Value to_json(const std::vector<LimitRow>& rows);

/// The greatest tan delta the row allows a part of this value: what is printed, and 0.02 (or what
/// the sheet says) more for each 1,000 uF above 1,000 uF. Nothing where the row has no tan delta.
[[nodiscard]] std::optional<double> tan_delta_allowed(const LimitRow& row,
                                                      quantities::Farad capacitance);

/// The least insulation resistance the row allows a part of this value; nothing where it has no
/// rule. A capacitance of zero or less meets the rule for small parts.
[[nodiscard]] std::optional<quantities::Ohm> insulation_floor(const LimitRow& row,
                                                              quantities::Farad capacitance);

/// What is known of the part whose limit is wanted.
struct PartDescription {
  std::string technology;
  Body body = Body::unknown;
  std::optional<quantities::Farad> capacitance;
  std::optional<quantities::Volt> rated;
};

struct LookAlike {
  const LimitRow* row = nullptr;
  double distance = 0.0;  ///< 0 = same value, volts and body; 1 is far
};

/// Rows of the same kind of part that have an impedance or ESR, nearest first: within a factor of
/// two in capacitance and 2.2 in volts.
[[nodiscard]] std::vector<LookAlike> look_alikes(const LimitsLibrary& library,
                                                 const PartDescription& part);

/// Leakage limit in ampere by the nearest series' rule; 0.01 CV or 3 uA where none is nearer.
[[nodiscard]] Limit leakage_limit(const LimitsLibrary& library, const PartDescription& part);

/// As a rung of the ladder, from a row that was found: maker, series and document told.
[[nodiscard]] std::string told(const LimitRow& row);

}  // namespace dryout::readings
