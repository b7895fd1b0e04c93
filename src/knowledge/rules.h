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

#include "quantities/problem.h"
#include "quantities/quantity.h"

namespace dryout::knowledge {

/// Where a rule or number comes from. `memory` is a published source recalled but not opened.
struct Source {
  enum class Kind { published, memory, common_practice, judgement };
  Kind kind = Kind::judgement;
  std::string text;  ///< document and page or table; empty for practice and judgement
};

/// What every entry has: a stable id, a title in the words of the trade, a reason a novice
/// understands, a source, and where it was read.
struct Entry {
  std::string id;
  std::string title;
  std::string because;
  Source source;
  quantities::Place place;
};

/// A way to fail: sound, tired, dried, leaky, shorted, open, seeped, drifted.
struct FaultMode : Entry {
  std::string looks_like;  ///< what it does to a circuit, one sentence
};

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
  int year_from = 0;          ///< sets built from ...
  int year_to = 9999;         ///< ... to here can have it
  double prior = 0.0;         ///< per block, in a set that came in for repair
  quantities::Second remedy;  ///< bench time to mend it
  std::string how_to_tell;    ///< what tells it from a capacitor
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
  std::vector<std::string> to_kinds;  ///< only where the target block (rail) has these kinds
  double strength = 0.0;              ///< P(consequence | only this)
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
  double leak = 0.01;  ///< P(symptom | nothing modelled is wrong)
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

// --- Equipment -----------------------------------------------------------------------------

struct AccessRule {
  std::string id;
  std::string title;
  quantities::Second effort;
  std::vector<std::string> needs;
  quantities::Place place = {};
};
struct Board {
  std::string id;
  std::string title;
  std::string access;         ///< what to open to reach its component side; "" = nothing
  std::string solder_access;  ///< what to open to reach its solder side
  quantities::Place place = {};
};
struct Rail {
  std::string id;
  std::string title;
  std::string kind;  ///< mains, raw, regulated, high-tension, heater, bias, primary, ...
  double volts = 0.0;
  quantities::Place place = {};
};
struct Block {
  std::string id;
  std::string title;
  std::string kind;  ///< rectifier, regulator, audio-power, if-amplifier, ...
  std::string board;
  std::vector<std::string> fed_by;     ///< rails
  std::vector<std::string> makes;      ///< rails
  std::vector<std::string> signal_to;  ///< blocks
  quantities::Place place = {};
};
struct PartGroup {
  std::string id;
  std::string title;
  std::string role;
  std::string block;
  std::string rail;        ///< the rail it serves; "" = none
  std::string technology;  ///< from the role unless said
  int count = 1;
  quantities::Farad capacitance;  ///< typical; zero = not said
  quantities::Volt rated;         ///< typical; zero = not said
  std::string cohort;             ///< groups of one name age together; "" = by themselves
  std::string warmth = "warm";
  /// What else sits across one of its parts in circuit, in the words of readings/reading.h;
  /// "" = follows from the rail.
  std::string across;
  std::vector<std::string> references;  ///< printed names of its parts, where a list gave them
  quantities::Place place = {};
};
/// A part of a list that found no place in any group: kept so that lint can tell of it.
struct UnplacedPart {
  std::string reference;  ///< "C12", "C12, C13"
  std::string value;      ///< as it stood in the list
  std::string missing;    ///< what is not known of it: its role, its block
  quantities::Place place = {};
};
/// What a time of building did to the parts inside.
struct EraVariant {
  std::string id;
  std::string title;
  int year_from = 0;
  int year_to = 0;
  std::vector<std::string> technologies;  ///< which groups it touches ...
  std::map<std::string, double> odds;     ///< ... and by which factor on a mode's odds
  std::string because;
  Source source;
  quantities::Place place = {};
};
struct Equipment : Entry {
  std::vector<std::string> said_as;  ///< what owners call such a set
  std::string family;
  int year_from = 0;  ///< built from
  int year_to = 0;    ///< to
  std::vector<AccessRule> access;
  std::vector<Board> boards;
  std::vector<Rail> rails;
  std::vector<Block> blocks;
  std::vector<PartGroup> groups;
  std::vector<std::string> hazards;  ///< caution ids
  std::vector<EraVariant> eras;      ///< shared ones live in rules/eras.json
  std::vector<std::string>
      symptoms;  ///< the symptoms this equipment can have; empty = any reachable
  std::vector<UnplacedPart> unplaced;
};

}  // namespace dryout::knowledge
