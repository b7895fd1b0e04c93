// The one door to this room: a number read from a meter, and what it is worth.
//
//   auto knowledge = load_reading_knowledge({"/usr/share/dryout"});
//   Priors priors = priors_of(technology, ageing, years);
//   auto assessment = assess_reading(input, priors, *knowledge);
//
// A high reading in circuit convicts, for whatever sits across a part lowers what is shown; a low
// one acquits only when nothing hides a bad part; one far below anything the type can do asks for
// a check of the d.c. resistance.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/netlist_json.h"
#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"
#include "readings/caveats.h"
#include "readings/cohort.h"
#include "readings/limits_library.h"
#include "readings/meter.h"
#include "readings/states.h"

namespace dryout::readings {

struct ReadingInput {
  double value = 0.0;       ///< SI unit of the kind
  bool over_range = false;  ///< the meter showed OL; `value` is not looked at
  Kind kind = Kind::esr;
  std::string technology = "wet-aluminium";
  Body body = Body::unknown;
  std::optional<quantities::Farad> capacitance;
  /// False: the capacitance is what such sets usually have there; what is printed on the part was
  /// not told, so that no reading of capacitance convicts or acquits it.
  bool mark_known = true;
  std::optional<quantities::Volt> rated;
  quantities::Hertz frequency{100e3};
  quantities::Celsius temperature{23.0};
  /// In the unit of the kind: what it may be at most (capacitance: the marked value; dc-volts: the
  /// volts that should be there). `limit_kind` where an ESR reading meets a limit on |Z|, or the
  /// other way round.
  std::optional<double> limit;
  LimitSource limit_source = LimitSource::datasheet;
  std::optional<Kind> limit_kind;
  std::optional<quantities::Hertz> limit_frequency;      ///< as the reading's where absent
  std::optional<quantities::Celsius> limit_temperature;  ///< 20 degrees where absent
  std::string limit_document;
  std::optional<quantities::Volt> test_volts;  ///< at which leakage or insulation was read
  double years = 30.0;  ///< of the part: sheets of its day allowed more leakage
  bool in_circuit = true;
  Across across = Across::unknown;
  std::optional<circuit::NetlistFile> netlist;  ///< with a target; takes the place of `across`
  std::optional<quantities::Ohm> lead_zero;
  std::optional<Meter> meter;
  std::vector<double> brothers;  ///< readings of parts of the same type, same meter, same leads
  /// More of those, which are known of but not compared: comparing costs as much as reading each.
  std::size_t brothers_uncompared = 0;
};

struct FiredCaveat {
  std::string id, title, effect, because;
};

struct Assessment {
  Verdict verdict = Verdict::not_proven;
  std::string sentence;  ///< the verdict in one plain sentence
  /// The one judged by and told, in the terms of the reading: its kind, frequency, temperature.
  std::optional<Limit> limit;
  std::optional<BelievedLimit> believed;  ///< the part's own limit, as far as it is known
  std::string provenance;                 ///< how the limit came to be what it is
  std::string limit_told;                 ///< "3 Ω (the part's own data sheet)"
  std::string limit_refusal;              ///< why a limit could not be used
  double over_probability = 0.5;  ///< that the part is beyond its own limit, from this number alone
  double masking = 0.0;           ///< probability that an open part would read within the limit
  double corrected_value = 0.0;
  std::optional<double> reading_at_limit, reading_if_open,
      ceiling;                     ///< absent = no end, or not known
  std::vector<double> esr_behind;  ///< with a netlist: what the part's own ESR can be
  std::vector<std::string> states;
  std::vector<double> before, after;  ///< P(state), P(state | reading and brothers)
  /// P(reading | level, state): one row a level; for the fault network. Only this part's reading.
  std::vector<std::vector<double>> likelihood;
  std::optional<CohortAssessment> cohort;  ///< where brothers were given
  /// In place of `likelihood` where the part stands off its brothers, upwards, and its own limit
  /// decides nothing; else empty. As strong as they make it, and never enough to convict alone.
  std::vector<std::vector<double>> among_brothers;
  std::vector<std::string> advice;  ///< what would make it seen, what to do next
  std::vector<FiredCaveat> caveats;
};

struct ReadingKnowledge {
  LimitsLibrary limits;
  std::vector<Caveat> caveats;
  std::vector<Meter> meters;  ///< the shop's list
};
[[nodiscard]] quantities::Result<ReadingKnowledge> load_reading_knowledge(
    const std::vector<std::string>& directories);

/// Refused: a value or limit that is not above zero, a capacitance reading without the marked
/// value, a netlist without a target.
[[nodiscard]] quantities::Result<Assessment> assess_reading(const ReadingInput& input,
                                                            const Priors& priors,
                                                            const ReadingKnowledge& knowledge);

[[nodiscard]] documents::Value to_json(const Assessment& assessment, Kind kind);

}  // namespace dryout::readings
