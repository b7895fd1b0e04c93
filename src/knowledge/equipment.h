// The architecture of a kind of set, as the files under rules/equipment/ describe it: what feeds
// what through what, where the signal goes, which channel, band, source and way each part serves,
// and which groups of capacitors stand where. Where nothing is said, a part serves all.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "knowledge/entry.h"
#include "quantities/problem.h"
#include "quantities/quantity.h"

namespace dryout::knowledge {

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
  /// The rail it hangs on, where no block makes it; "" = a block does, or it is a source itself.
  std::string from = {};
  /// What feeds it: direct, resistor, choke, diode, regulator, winding, converter; "" = not said.
  std::string through = {};
  bool half_wave = false;  ///< its ripple is at mains rate when all is well
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
  std::string channel = {};  ///< one of the equipment's, "each" = a half for each; "" = all of them
  /// Those of the equipment's it serves; "each" alone = a section for each band; empty = all.
  std::vector<std::string> bands = {};
  std::string path = {};  ///< receive, transmit; "" = both
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
  std::string channel = {};             ///< as of a block; "" = as its block
  std::vector<std::string> bands = {};  ///< as of a block; empty = as its block
  quantities::Place place = {};
};
/// A part of a list that found no place in any group: kept so that lint can tell of it.
struct UnplacedPart {
  std::string reference;  ///< "C12", "C12, C13"
  std::string value;      ///< as it stood in the list
  std::string missing;    ///< what is not known of it: its role, its block
  quantities::Place place = {};
};
/// A channel or band of an equipment: where a complaint can be.
struct NamedPlace {
  std::string id;
  std::string title;
  quantities::Place place = {};
};
/// What can be chosen to listen to. All that reaches the output through this block alone is its.
struct SignalSource {
  std::string id;
  std::string title;
  std::string through;  ///< a block; "" = comes in behind all of them
  quantities::Place place = {};
};
/// A control on the signal path: what lies before it is turned down with it.
struct SignalControl {
  std::string id;  ///< volume, tone, balance, ...
  std::string title;
  std::string from;  ///< the block before it
  std::string to;    ///< a block; "" = between `from` and all that it sends to
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
  std::vector<NamedPlace> channels, bands;
  std::vector<SignalSource> sources;
  std::vector<SignalControl> controls;
  std::vector<std::string> hazards;  ///< caution ids
  std::vector<EraVariant> eras;      ///< shared ones live in rules/eras.json
  std::vector<std::string>
      symptoms;  ///< the symptoms this equipment can have; empty = any reachable
  std::vector<UnplacedPart> unplaced;
};

}  // namespace dryout::knowledge
