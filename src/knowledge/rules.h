// What the shipped (and the technician's own) knowledge says, as immutable data. Each struct
// mirrors one kind of file under rules/ or symptoms/; the JSON Schema beside the files is the
// format's reference, load.h reads them.
//
// Speech of the rules. A fault (a part group in a state, or a cause that is no capacitor) gives
// rise to a phenomenon at a place: "a dried reservoir puts ripple on its rail". A phenomenon gives
// rise to others: "ripple on a rail is heard as hum in every audio block it feeds". A symptom or a
// check looks for phenomena at places. chain.h follows these links over the block graph of one
// equipment.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "knowledge/entry.h"
#include "knowledge/equipment.h"
#include "quantities/quantity.h"

namespace dryout::knowledge {

/// A way to fail: sound, tired, dried, leaky, shorted, open, seeped, drifted.
struct FaultMode : Entry {
  std::string looks_like;  ///< what it does to a circuit, one sentence
  /// cold, warm, load -> how much of its effect is left where the complaint comes with that
  /// condition alone, 0 to 1. What is not named is `no_habit`.
  std::map<std::string, double> shows_when;
};

/// Of a fault that is the same cold and warm: how well it explains a trouble that is not
/// (judgement: the condition may be chance, or the owner's impression).
inline constexpr double no_habit = 0.2;

/// How likely one part of a technology is in each mode, given its ageing level.
struct Technology : Entry {
  /// mode id -> P(mode | level), one number per ageing level; what is left is sound.
  std::map<std::string, std::vector<double>> modes;
  bool wears_out = false;  ///< has an electrolyte that dries: age and warmth shift its level
  std::vector<std::string> called;  ///< what parts lists call it, in lower case
};

/// The latent ageing level shared by a cohort, by effective age.
struct Ageing {
  std::vector<std::string> levels;  ///< "fresh", "worn", "spent"
  struct Step {
    double age_years_max = 0.0;   ///< applies up to this effective age
    std::vector<double> weights;  ///< P(level)
  };
  std::vector<Step> steps;
  std::map<std::string, double> warmth_factor;  ///< cool, warm, hot: multiplies the age
  Source source;
  quantities::Place place = {};
};

/// The task a group of capacitors does, with the odds of its modes under that stress.
struct Role : Entry {
  std::string technology;                ///< the usual one; equipment may say otherwise
  std::map<std::string, double> stress;  ///< mode id -> factor on the odds of that mode, default 1
  std::string measure;                   ///< best measurement in circuit, one sentence
  bool across_rail = false;              ///< its parts sit straight across the rail they serve
};

/// A cause that is not a capacitor.
struct OtherCause : Entry {
  std::vector<std::string> block_kinds;  ///< where it can happen; "*" = in every block
  /// Kinds of blocks whose signal keeps it away: no transistor dies where a valve does the work.
  std::vector<std::string> not_served_by;
  /// Kinds of rails of which one must feed the block, "*" = any rail; empty = it needs none. A
  /// block without a supply has no transistor to die.
  std::vector<std::string> fed_by;
  /// Of its kinds those in which it happens only where the block has a section for each band.
  std::vector<std::string> section_kinds;
  int year_from = 0;          ///< sets built from ...
  int year_to = 9999;         ///< ... to here can have it
  double prior = 0.0;         ///< per block, in a set that came in for repair
  quantities::Second remedy;  ///< bench time to mend it
  std::string how_to_tell;    ///< what tells it from a capacitor
  /// Strikes one band at a time in a block that has a section for each: a contact, a coil.
  bool one_band = false;
  bool from_outside = false;  ///< comes in ahead of a control at the entry of its block
  std::map<std::string, double> shows_when;  ///< as of a FaultMode
};

struct Phenomenon : Entry {
  enum class At { rail, block, group };
  At at = At::block;
  std::string phrase;  ///< "ripple on {place}"
};

/// Where a consequence lands, seen from where its cause stands.
enum class Reach {
  here,             ///< the same rail, block or group
  own_rail,         ///< group: the rail it serves
  own_block,        ///< group or cause: the block it sits in
  fed_blocks,       ///< rail: every block fed by it
  source_block,     ///< rail: the block that makes it
  next_blocks,      ///< block: those its signal goes to
  previous_blocks,  ///< block: those its signal comes from
  made_rails,       ///< block: the rails it makes
  supply_rails,     ///< block: the rails that feed it
  branch_rails,     ///< rail: those that hang on it through a resistor, a choke, a diode
  neighbours,       ///< group: other groups on the same board
};

/// One link of the chain. Exactly one of (role(s) or technology with mode), cause, phenomenon opens
/// it.
struct Link : Entry {
  std::vector<std::string> roles;  ///< with `mode`: a group of one of these roles ("*" = any) ...
  std::string mode;                ///< ... in this mode
  std::string cause;               ///< or this cause that is no capacitor
  std::string from_phenomenon;     ///< or this phenomenon
  std::vector<std::string> from_kinds;  ///< only in blocks (rails) of these kinds; empty = any
  std::string phenomenon;               ///< what it gives rise to
  Reach reach = Reach::here;
  std::vector<std::string> to_kinds;    ///< only where the target block (rail) has these kinds
  std::vector<std::string> to_through;  ///< only where the target rail is fed through one of these
  double strength = 0.0;                ///< P(consequence | only this)
};

/// What a person complains of or sees at once. Asked of the whole set.
struct Symptom : Entry {
  std::string family;                    ///< supply, audio, receive, ...
  std::vector<std::string> owner_words;  ///< how an owner says it
  std::vector<std::string> said_as;      ///< further ways to say it, for the complaint reader
  std::string quick_test;                ///< what confirms it in a minute
  std::string discriminates;             ///< what tells it from its neighbours
  struct Shows {
    std::string phenomenon;
    std::vector<std::string> kinds;  ///< block (or rail) kinds where it counts; empty = any
    double strength = 1.0;
  };
  std::vector<Shows> shows;
  /// Of the sets that come in with it, the share in which something that is not in the lists makes
  /// it. 8 in 100 unless a source says otherwise (judgement).
  double unlisted = 0.08;
  /// Only what goes that way makes it, unless it is told otherwise: receive, transmit; "" = both.
  std::string path;
  std::vector<std::string> cautions;
};

struct Caution : Entry {
  std::string wording;  ///< what the technician is told; defers to local codes
  std::string danger;   ///< none, stored-charge, mains, high-tension
  /// What a set must have in it for this to have a place there, one of them: mains, primary,
  /// high-tension (direct volts above 60), kilovolts, extra-high-tension, live-chassis, valves;
  /// empty: any set. What an equipment names among its hazards has a place in it anyhow.
  std::vector<std::string> where;
  int year_from = 0;   ///< sets built from ...
  int year_to = 9999;  ///< ... to here can have it
  /// A danger of its own: whoever has heeded another of its kind has not heeded this one.
  bool by_itself = false;
};

/// Something one can look at or measure. Made once per place it applies to.
struct CheckRule : Entry {
  enum class State { unpowered, powered, lifted };  ///< of the set; lifted = a leg is off the board
  State state = State::unpowered;
  enum class Per { set, rail, block, group };
  Per per = Per::set;
  std::vector<std::string> kinds;  ///< block or rail kinds, or roles for per = group; empty = any
  std::vector<std::string> technologies;  ///< per = group: only for these; empty = any
  std::string instrument;
  quantities::Second effort;                          ///< per place
  enum class Access { board, solder_side, outside };  ///< what it must be able to reach
  Access access = Access::board;
  std::string probes;  ///< how to place them
  std::string good;    ///< what a good outcome looks like, with numbers
  std::string bad;
  double false_alarm = 0.05;  ///< P(looks bad | nothing it looks for is there)
  /// per set, rail, block: phenomena it sees, with sensitivity.
  std::vector<std::pair<std::string, double>> sees;
  /// per group: modes it sees, with sensitivity.
  std::map<std::string, double> detects;
  std::string quantity;  ///< "", or what is read: esr, impedance, ripple, volts, ...
  std::vector<std::string> cautions;
};

}  // namespace dryout::knowledge
