// All that a face may read of a case: plain values, already worked out, already worded. The window
// draws it, the command line prints it; neither computes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "casework/command.h"
#include "quantities/probability.h"
#include "quantities/quantity.h"

namespace dryout::casework {

struct EvidenceLine {
  std::string text;             ///< "Ripple on the +38 V rail looked bad"
  quantities::Decibans weight;  ///< for (positive) or against the suspect
  int event = 0;                ///< the step of the journal that told it
};

struct StateShare {
  std::string state;  ///< mode id
  std::string title;
  quantities::Probability probability;
};

struct SuspectView {
  std::string item;  ///< id: "group:reservoirs", "part:C12", "cause:..."
  std::string title;
  std::string kind;  ///< group, part, cause
  std::string block, block_title, board, board_title;
  bool capacitor = false;
  /// P(it makes some of what was reported); before anything is reported: P(not sound). What stands
  /// convicted by its own reading or by the technician's word is under suspicion whatever else
  /// explains the complaint: then P(not sound), and never below what convicted it.
  quantities::Probability suspicion;
  quantities::Probability before;   ///< the same before any evidence
  quantities::Probability unsound;  ///< P(not sound), to blame for the complaint or not
  quantities::Probability blame;    ///< P(it makes some of what was reported), convicted or not
  std::string convicted;            ///< "", or by what: reading, judgement, blame
  quantities::Decibans weight;      ///< odds now over odds before
  std::vector<StateShare> states;
  std::vector<EvidenceLine> evidence;  ///< leave one out, strongest first
  std::vector<std::string> paths;      ///< why it shows what was seen
  std::string judged;                  ///< "", at-fault, cleared
  std::string mended;                  ///< "", or what was done: "replaced"
};

struct CautionView {
  std::string id, title, wording;
  std::string danger;  ///< none, stored-charge, mains, high-tension
  bool read = false;   ///< heeded earlier in this case: one line (reminder) is enough
};

struct CheckView {
  std::string check, place;  ///< ids
  std::string title, place_title;
  std::string state;  ///< unpowered, powered, lifted
  std::string instrument, probes, good, bad, because, source;
  std::string quantity;        ///< "", esr, ripple, ...: what number may be typed
  std::string technology;      ///< of the capacitors looked at, "" = none or not known
  std::string across;          ///< what is known to sit across one of them, "" = to be asked
  std::string across_because;  ///< "2 more electrolytics on the +38 V rail"
  std::string reason;          ///< why now, one sentence
  quantities::Second effort, access_effort, saving;
  std::vector<std::string> opens, opens_titles;
  double gain_bits = 0.0;
  quantities::Probability looks_bad;  ///< how likely it is to look bad
  std::vector<CautionView> cautions;
  bool dangerous = false;
  bool acknowledged = false;  ///< its dangers were heeded in this case, or there are none
  std::string reminder;       ///< of the cautions read earlier, one line; "" = of none
};

/// What can hurt whoever reads a number at a part; for parts and groups where something can.
struct MeasuringView {
  std::string item;                ///< id of the suspect
  std::vector<std::string> kinds;  ///< of reading: esr, ..., dc-volts
  std::vector<CautionView> cautions;
  bool acknowledged = false;
  std::string reminder;
};

struct BlockView {
  std::string id, title, kind, board, board_title;
  quantities::Probability suspicion;       ///< of all its items together, meant as for a suspect
  std::vector<std::string> signal_to;      ///< block ids
  std::vector<std::string> fed_by, makes;  ///< rail titles
  std::vector<std::string> items;          ///< ids of its suspects
};

struct BoardView {
  std::string id, title;
  quantities::Probability suspicion;
  quantities::Second access_effort;  ///< still to be opened before it is reached
  std::vector<std::string> opens_titles;
};

/// What a reading is shown beside and not judged by.
struct BesideFigure {
  std::string source;  ///< as of a limit: general-table, fresh-part, ...
  double value = 0.0;  ///< SI unit of the reading
};

struct ReadingView {
  int event = 0;
  std::string item, item_title, kind, shown;  ///< shown: "2.4 Ω"
  double value = 0.0;
  bool over_range = false;  ///< OL: `value` means nothing
  std::optional<double> limit;
  std::string limit_source;
  bool after_repair = false;  ///< of the part that went in; no evidence on what was wrong
  std::string batch;          ///< shared by brothers read in the same manner; "" = can have none
  std::string verdict;        ///< a word of readings::Verdict
  bool shorted = false;       ///< read by itself, and a short: as good as over its limit
  std::string sentence;       ///< the verdict in one plain sentence
  std::vector<std::string> caveats;
  std::vector<BesideFigure> beside;
};

struct SymptomView {
  std::string id, title, family;
  std::vector<std::string> owner_words;
  std::string quick_test;
  std::string seen;  ///< "", yes, no
  struct Answer {
    SymptomPlace where;
    std::string seen;   ///< yes, no
    std::string words;  ///< "Left channel, stays with the volume down"
  };
  std::vector<Answer> placed = {};  ///< what was told with a place or condition
  bool has_rate = false;            ///< it is a hum
};

/// What this equipment parts its complaints by.
struct PlaceAxisView {
  std::string axis;  ///< channel, band, path, source
  struct Choice {
    std::string id, title;
  };
  std::vector<Choice> choices;
};

struct AccessView {
  std::string id, title;
  quantities::Second effort;
  bool open = false;
};

struct LogLine {
  int event = 0;
  std::string when;  ///< local time, "2026-03-04 10:22"
  std::string text;  ///< "Ripple on the +38 V rail: looked bad"
  bool undone = false;
  std::string lane;     ///< told, opened, probed, read, judged, mended, proved
  std::string bearing;  ///< bad, good, "" = neither
};

struct Leading {
  std::string sentence;               ///< where the case stands, in one sentence
  bool settled = false;               ///< one suspect is beyond reasonable doubt
  quantities::Probability capacitor;  ///< P(some capacitor makes some of what was reported)
  quantities::Probability other;      ///< P(none does, but something else in the lists)
  quantities::Probability unlisted =
      {};  ///< P(nothing listed does); all 0 while nothing is reported
};

/// The one thing to do now (planning/next_step.h). Nothing to do, or nothing told yet: none.
struct Advice {
  enum class Act {
    none,
    check,  ///< CaseView::next.front()
    mend,   ///< SuspectView::item
    stop    ///< what is left is not worth its time: other means, or another pair of eyes
  };
  Act act = Act::none;
  std::string item;  ///< to mend
};

/// How good the figures of a view are.
struct Figures {
  std::string sentence;       ///< "" where they are exact
  std::string refused;        ///< why there are none; then they are those before any evidence
  std::size_t draws = 0;      ///< drawn sets of faults they are averages over; 0 = exact
  std::size_t set_aside = 0;  ///< observations that the draws make up for by their weights
  double within =
      0.0;  ///< each is right within this, 99 times in a hundred (diagnosis/posterior.h)
};

/// Where a part that has no name yet may belong.
struct GroupChoice {
  std::string id, title;
};

struct CaseView {
  std::int64_t number = 0;
  std::string equipment, equipment_title, set_name, owner, complaint;
  std::optional<int> year_built;
  bool closed = false;
  std::string cause;
  std::vector<SymptomView> symptoms;  ///< all this equipment can have
  std::vector<PlaceAxisView> places;  ///< where a symptom of it can be; empty: in one place only
  bool has_volume = false;            ///< it has a volume control on its path
  std::vector<SuspectView> suspects;  ///< most suspicious first
  std::vector<GroupChoice> groups;    ///< of capacitors; also those whose parts all have names
  std::vector<BoardView> boards;
  std::vector<BlockView> blocks;  ///< in the order of the equipment
  std::vector<CheckView> next;    ///< best first
  std::vector<CheckView> declined;
  std::vector<AccessView> access;
  std::vector<ReadingView> readings;
  std::vector<MeasuringView> measuring;
  std::vector<CautionView> hazards;  ///< of the equipment
  bool high_tension = false;         ///< some rail of it stands above 60 V, the mains apart
  std::vector<LogLine> log;
  Leading leading;
  Advice advice;
  Figures figures;
  bool can_undo = false, can_redo = false;
  /// The evidence cannot all be true: names the smallest set and how to take one back. The figures
  /// leave that set out.
  std::string contradiction;
  std::vector<std::string> notices;  ///< told, but without effect on the figures, and why
};

}  // namespace dryout::casework
