// Everything a person can do to a case. Window and command line both make these; the journal
// stores them; undo is replay. Each alternative has a spelling on the command line and a place in
// the window, and a test walks the list.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "readings/reading.h"

namespace dryout::casework {

/// What is told at the counter. The first command of every case, and corrected by the same: a text
/// left empty (a year left out) then keeps what stood there.
struct TakeIn {
  std::string equipment;  ///< id of the nearest architecture
  std::string set_name;   ///< maker and model as the owner says it
  std::optional<int> year_built;
  std::string owner;
  std::string complaint;  ///< in the owner's words
};

enum class Seen { yes, no, unclear };

/// Where and when a symptom is there; "" = not said. Of which channels, bands and sources there are
/// the equipment decides (rules/README.md, "Places").
struct SymptomPlace {
  std::string channel = {}, band = {}, path = {}, source = {};
  std::string follows = {};  ///< volume: goes down with it; not: stays
  std::string rate = {};     ///< of a hum: mains, twice
  std::string when = {};     ///< cold, warm, load, minutes=10
  friend bool operator==(const SymptomPlace&, const SymptomPlace&) = default;
};

/// A symptom is there, is not there, or cannot be told (which withdraws an earlier answer). Told of
/// several places, each answer stands; told of none, no and unclear speak of all of them.
struct ReportSymptom {
  std::string symptom;
  Seen seen = Seen::yes;
  SymptomPlace where = {};
};

/// The outcome of a yes/no check at a place: did it look bad? The same check at the same place
/// recorded again takes the place of the earlier outcome (unless something was mended in between:
/// then both stand, one for the set as it came in, one for what is left); unclear withdraws it and
/// sets the check aside, as DeclineCheck does.
struct RecordOutcome {
  std::string check;
  std::string place;  ///< rail, block, group or part id; "" = the whole set
  Seen bad = Seen::yes;
  std::string remark;
};

using ReadingKind = readings::Kind;
using readings::Across;  ///< what else sits across the part while it is measured in circuit
using readings::is_over_range;

/// A number read from a meter at a part (or at a group that has no named parts yet). Read again in
/// the same manner (kind, in circuit or not), it takes the place of the earlier number.
struct RecordReading {
  std::string item;  ///< part reference, or group id
  ReadingKind kind = ReadingKind::esr;
  double value = 0.0;  ///< SI unit of the kind
  quantities::Hertz frequency{100e3};
  quantities::Celsius temperature{23.0};
  bool in_circuit = true;
  Across across = Across::unknown;
  std::optional<double> limit;      ///< SI; from the sheet in hand
  std::string limit_source;         ///< datasheet, look-alike, fresh-part, tan-delta, general-table
  std::optional<double> lead_zero;  ///< ohm, subtracted by us
  std::string meter;                ///< id in the shop's meter list
  std::string remark;
  /// Other figures to hold it against on paper, without weight: "general-table 2.75; fresh-part
  /// 0.367".
  std::string beside;
  bool over_range = false;  ///< the meter showed OL; `value` is then 0 and means nothing
  std::optional<quantities::Volt> test_volts =
      std::nullopt;  ///< at which leakage or insulation was read
};

/// Takes a part out of its group by its printed name.
struct NamePart {
  std::string reference;
  std::string group;
  std::optional<quantities::Farad> capacitance;
  std::optional<quantities::Volt> rated;
  std::string technology;  ///< "" = as its group
  std::string make;        ///< maker and series if printed
  std::string body = {};   ///< as decision/old_body.h reads it: "10x16 pitch 5 radial 105C 0.6A"
};

/// The cautions of a check were read and are heeded; so are its dangers at every later check
/// (heeding.h). For a number read outside a check: `check` holds the part or group, `place` the
/// kind of reading ("" = esr).
struct AcknowledgeCautions {
  std::string check;
  std::string place;
};
/// This check is refused or out of reach; it is no longer proposed. And back again.
struct DeclineCheck {
  std::string check;
  std::string place;
  std::string reason;
};
struct ReconsiderCheck {
  std::string check;
  std::string place;
};
/// Lid off, shield off, board out.
struct OpenAccess {
  std::string access;
};
struct CloseAccess {
  std::string access;
};

/// The technician overrules: this item is (or is not) at fault, whatever the figures say. Enters
/// the figures as strong evidence, 1000 to 1 (30 dB), not as certainty, so that it can still be
/// outweighed; `open` takes it back.
struct JudgeSuspect {
  enum class Verdict { at_fault, cleared, open };
  std::string item;
  Verdict verdict = Verdict::open;
};

struct RecordRepair {
  std::string item;    ///< what was mended or replaced
  std::string action;  ///< "replaced", "resoldered", "cleaned", "adjusted"
  std::string fitted;  ///< maker, series, value, volts of what went in
};
struct RetestSymptom {
  std::string symptom;
  bool still_there = false;
};
enum class Proved { passed, failed, skipped };

/// A step of the proof (proof_steps.h) was done. Recorded again, it takes the place of the earlier
/// outcome; after a further repair the proof begins anew.
struct RecordProof {
  std::string step;  ///< "first-power", "rail-volts@main-rail"
  Proved outcome = Proved::passed;
  std::string remark;
};
struct AddNote {
  std::string text;
};
struct CloseCase {
  std::string cause;
  std::string summary;
};  ///< cause: item id; "" = none found
struct ReopenCase {
  std::string reason;
};

using Command =
    std::variant<TakeIn, ReportSymptom, RecordOutcome, RecordReading, NamePart, AcknowledgeCautions,
                 DeclineCheck, ReconsiderCheck, OpenAccess, CloseAccess, JudgeSuspect, RecordRepair,
                 RetestSymptom, RecordProof, AddNote, CloseCase, ReopenCase>;

}  // namespace dryout::casework
