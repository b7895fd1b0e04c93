#include "window/sample.h"

#include <array>

namespace dryout::window {
namespace {

using namespace casework;
using quantities::Decibans;
using quantities::minutes;
using quantities::Probability;

CautionView stored_charge() {
  return {"stored-charge", "reservoirs hold 45 V",
          "Switch off, pull the plug, wait, then discharge each reservoir through a resistor that "
          "stands the power. Measure before you touch. Local codes and licensed practice come "
          "first.",
          "stored-charge"};
}
CautionView mains() {
  return {"mains", "the rectifier board carries mains",
          "One hand, insulated probes, an isolating transformer on the bench. Where you may not "
          "work on mains by local code, hand the set to someone who may.",
          "mains"};
}

void add_symptoms(CaseView& view) {
  view.symptoms = {
      {"hum",
       "Hum from both channels, volume down",
       "audio",
       {"it hums all the time", "a low drone"},
       "Turn the volume fully down: does it stay?",
       "yes"},
      {"weak",
       "Weak and strained at normal volume",
       "audio",
       {"goes quiet"},
       "Compare both channels with one source.",
       "yes"},
      {"scratchy", "Scratchy controls", "audio", {"crackles when I turn it"}, "", "no"},
      {"dead", "Dead, no lamp", "supply", {"nothing at all"}, "Mains at the switch?", ""},
      {"fuse", "Blows its fuse", "supply", {"the fuse goes at once"}, "", ""},
      {"drift", "Station drifts away", "receive", {"I have to retune"}, "", ""},
  };
}

void add_blocks(CaseView& view) {
  const auto block = [&view](const char* id, const char* title, const char* kind, const char* board,
                             const char* board_title, double p, std::vector<std::string> to,
                             std::vector<std::string> fed, std::vector<std::string> makes) {
    view.blocks.push_back({id,
                           title,
                           kind,
                           board,
                           board_title,
                           Probability(p),
                           std::move(to),
                           std::move(fed),
                           std::move(makes),
                           {}});
  };
  block("tuner", "Tuner front end", "rf-front-end", "tuner", "Tuner board", 0.03, {"if"}, {"+12 V"},
        {});
  block("if", "IF strip", "if-amplifier", "tuner", "Tuner board", 0.05, {"decoder"}, {"+12 V"}, {});
  block("decoder", "Stereo decoder", "stereo-decoder", "tuner", "Tuner board", 0.02, {"tone"},
        {"+12 V"}, {});
  block("phono", "Phono stage", "phono-stage", "main", "Main board", 0.04, {"tone"}, {"+24 V"}, {});
  block("tone", "Tone and volume", "audio-tone", "main", "Main board", 0.12, {"power-l", "power-r"},
        {"+24 V"}, {});
  block("power-l", "Power stage, left", "audio-power", "main", "Main board", 0.18, {"out"},
        {"+38 V", "\u221238 V"}, {});
  block("power-r", "Power stage, right", "audio-power", "main", "Main board", 0.17, {"out"},
        {"+38 V", "\u221238 V"}, {});
  block("out", "Loudspeaker relay and sockets", "audio-output", "main", "Main board", 0.02, {}, {},
        {});
  block("rectifier", "Rectifier and reservoirs", "rectifier", "supply", "Supply board", 0.86, {},
        {}, {"+38 V", "\u221238 V"});
  block("reg24", "24 V regulator", "regulator", "supply", "Supply board", 0.22, {}, {"+38 V"},
        {"+24 V"});
  block("reg12", "12 V regulator", "regulator", "supply", "Supply board", 0.09, {}, {"+24 V"},
        {"+12 V"});
  view.boards = {{"supply", "Supply board", Probability(0.88), minutes(3), {"lid"}},
                 {"main", "Main board", Probability(0.35), minutes(11), {"lid", "bottom plate"}},
                 {"tuner", "Tuner board", Probability(0.08), minutes(8), {"lid", "tuner shield"}}};
}

SuspectView suspect(const char* item, const char* title, const BlockView& block, double now,
                    double before, double weight) {
  SuspectView view;
  view.item = item;
  view.title = title;
  view.kind = view.item.substr(0, view.item.find(':'));
  view.block = block.id;
  view.block_title = block.title;
  view.board = block.board;
  view.board_title = block.board_title;
  view.capacitor = view.kind != "cause";
  view.suspicion = Probability(now);
  view.unsound = Probability(now);
  view.before = Probability(before);
  view.weight = Decibans{weight};
  view.states = {{"sound", "sound", Probability(1 - now)}, {"dried", "dried", Probability(now)}};
  return view;
}

void add_suspects(CaseView& view) {
  const BlockView& power = view.blocks[5];
  const BlockView& rectifier = view.blocks[8];
  const BlockView& reg24 = view.blocks[9];
  SuspectView first =
      suspect("group:reservoirs", "Reservoirs of the 38 V rails", rectifier, 0.81, 0.22, 11.8);
  first.states = {{"sound", "sound", Probability(0.19)},
                  {"tired", "tired", Probability(0.17)},
                  {"dried", "dried", Probability(0.61)},
                  {"leaky", "leaky", Probability(0.03)}};
  first.evidence = {{"Hum from both channels, volume down", Decibans{6.4}},
                    {"Ripple on the +38 V rail looked bad", Decibans{5.1}},
                    {"Weak and strained at normal volume", Decibans{1.6}},
                    {"Cans look sound", Decibans{-1.3}}};
  first.paths = {"dried reservoir \u2192 ripple on the +38 V rail \u2192 hum in both power stages"};
  SuspectView diode =
      suspect("cause:open-diode@rectifier", "Open rectifier diode", rectifier, 0.24, 0.04, 8.8);
  diode.evidence = {{"Hum from both channels, volume down", Decibans{5.5}}};
  SuspectView output =
      suspect("group:reg24-out", "Output capacitor of the 24 V regulator", reg24, 0.19, 0.17, 0.6);
  output.evidence = {{"Ripple on the +24 V rail looked good", Decibans{-4.2}}};
  SuspectView coupling =
      suspect("group:coupling-l", "Coupling capacitors, left", power, 0.11, 0.12, -0.4);
  coupling.judged = "cleared";
  SuspectView part = suspect("part:C12", "C12 (24 V regulator input)", reg24, 0.07, 0.1, -1.7);
  part.mended = "replaced";
  view.suspects = {first, diode, output, coupling, part};
  view.groups = {{"reservoirs", "Reservoirs"}, {"output-coupling", "Output coupling"}};
}

void add_checks(CaseView& view) {
  CheckView best;
  best.check = "esr-in-circuit";
  best.place = "reservoirs";
  best.title = "ESR across the reservoirs";
  best.place_title = "Reservoirs of the 38 V rails";
  best.state = "unpowered";
  best.instrument = "ESR meter, 100 kHz";
  best.probes = "one tip on each terminal of the can, from the component side";
  best.good = "below 0.1 \u03a9 on both cans";
  best.bad = "above 0.3 \u03a9, or the two cans differ by more than two to one";
  best.because = "A dried reservoir loses its plates' wetting; its series resistance climbs first.";
  best.source = "common practice";
  best.quantity = "esr";
  best.reason = "It parts the reservoirs from the diodes, and only the lid stands in the way.";
  best.effort = minutes(4);
  best.access_effort = minutes(3);
  best.saving = minutes(26);
  best.opens = {"lid"};
  best.opens_titles = {"lid"};
  best.gain_bits = 0.62;
  best.looks_bad = Probability(0.71);
  best.acknowledged = true;
  view.next.push_back(best);
  const std::array<std::pair<const char*, const char*>, 8> others{
      {{"Diode test", "Rectifier and reservoirs"},
       {"Ripple", "+24 V"},
       {"Look at the cans", "Supply board"},
       {"Bridge with a known-good capacitor", "Reservoirs of the 38 V rails"},
       {"Ripple", "\u221238 V"},
       {"Offset at the loudspeaker", "Power stage, left"},
       {"Offset at the loudspeaker", "Power stage, right"},
       {"Signal tracing", "Tone and volume"}}};
  double gain = 0.41;
  for (std::size_t i = 0; i < others.size(); ++i) {
    CheckView check = best;
    check.check = "other-" + std::to_string(i);
    check.title = others[i].first;
    check.place_title = others[i].second;
    check.quantity = "";
    check.gain_bits = gain;
    check.effort = minutes(3.0 + static_cast<double>(i));
    gain *= 0.8;
    view.next.push_back(check);
  }
  CheckView declined = best;
  declined.check = "thermal";
  declined.title = "Warm the supply board gently";
  view.declined.push_back(declined);
}

ReadingView reading(int event, const char* title, const char* kind, const char* shown, double value,
                    double limit, const char* source, const char* verdict, const char* sentence) {
  ReadingView view;
  view.event = event;
  view.item = view.item_title = title;
  view.kind = kind;
  view.shown = shown;
  view.value = value;
  view.limit = limit;
  view.limit_source = source;
  view.verdict = verdict;
  view.sentence = sentence;
  return view;
}

void add_readings(CaseView& view) {
  view.readings = {
      reading(7, "C801", "esr", "0.42 \u03a9", 0.42, 0.1, "datasheet", "over-limit",
              "Four times what its data sheet allows: it is convicted."),
      reading(8, "C802", "esr", "0.08 \u03a9", 0.08, 0.1, "datasheet", "within-limit",
              "Within its data sheet, and nothing across it could have hidden a bad one."),
      reading(9, "C12", "esr", "0.9 \u03a9", 0.9, 1.5, "general-table", "not-proven",
              "Below a general table's figure: that proves little for this part."),
      reading(10, "+38 V rail", "ripple", "1.9 V", 1.9, 0.5, "look-alike", "over-limit",
              "Far more ripple than a sound pair leaves.")};
  view.readings.front().caveats = {"Leads were not zeroed."};
}

void add_log(CaseView& view) {
  view.log = {
      {1, "2026-03-04 10:02", "Taken in: hums all the time, goes quiet", false, "told", ""},
      {2, "2026-03-04 10:04", "Hum from both channels, volume down: yes", false, "told", "bad"},
      {3, "2026-03-04 10:04", "Weak and strained at normal volume: yes", false, "told", "bad"},
      {4, "2026-03-04 10:05", "Scratchy controls: no", false, "told", "good"},
      {5, "2026-03-04 10:12", "Lid off", false, "opened", ""},
      {6, "2026-03-04 10:15", "Look at the cans, supply board: looked good", false, "probed",
       "good"},
      {7, "2026-03-05 09:01", "C801 ESR 0.42 \u03a9", false, "read", ""},
      {8, "2026-03-05 09:03", "C802 ESR 0.8 \u03a9", true, "read", ""},
      {9, "2026-03-05 09:03", "C802 ESR 0.08 \u03a9", false, "read", ""}};
}

}  // namespace

Catalogue sample_catalogue() {
  return {{{"stereo-receiver", "Stereo receiver, solid state", "audio",
            "A tuner, tone controls and two power stages on one supply.", 1968, 1992},
           {"stereo-amplifier", "Stereo amplifier", "audio", "", 1965, 1995},
           {"hf-transceiver", "HF transceiver, synthesised", "radio", "", 1978, 2000},
           {"valve-receiver", "AM receiver with valves", "radio", "", 1934, 1965},
           {"switch-mode", "Switch-mode supply", "bench", "", 1980, 2015}},
          {{"bench-bridge", "Bridge on the left bench", {}, "1 kHz, within 2 %", false}},
          {{casework::Shelf::roles,
            "reservoir",
            "Reservoir after the rectifier",
            "It keeps the rail up between the crests.",
            casework::SourceKind::common_practice,
            "",
            {{"Usually", "wet-aluminium"}},
            {"rule x: a dried reservoir lets ripple through"}},
           {casework::Shelf::causes,
            "open-diode",
            "A diode of the bridge is open",
            "Half the crests are missing.",
            casework::SourceKind::judgement,
            "",
            {},
            {}}},
          2026};
}

std::vector<CaseSummary> sample_cases() {
  std::vector<CaseSummary> cases(3);
  cases[0].number = 12;
  cases[0].set_name = "Tarnbeck 614";
  cases[0].equipment_title = "Stereo receiver, solid state";
  cases[0].complaint = "hums all the time, goes quiet";
  cases[1].number = 11;
  cases[1].set_name = "Quillon P3";
  cases[1].equipment_title = "Switch-mode supply";
  cases[1].complaint = "ticks and will not start";
  cases[2].number = 9;
  cases[2].equipment_title = "AM receiver with valves";
  for (CaseSummary& summary : cases) {
    summary.opened = "2026-03-0" + std::to_string(summary.number % 10);
    summary.state = summary.number == 11 ? "closed" : "open";
  }
  return cases;
}

CaseView fresh_case() {
  CaseView view;
  view.number = 12;
  view.equipment = "stereo-receiver";
  view.equipment_title = "Stereo receiver, solid state";
  view.set_name = "Tarnbeck 614";
  view.owner = "Ticket 88";
  view.complaint = "hums all the time, goes quiet";
  view.year_built = 1976;
  view.hazards = {stored_charge(), mains()};
  view.access = {{"lid", "lid", minutes(3), false},
                 {"bottom", "bottom plate", minutes(8), false},
                 {"shield", "tuner shield", minutes(5), false}};
  add_symptoms(view);
  for (SymptomView& symptom : view.symptoms) {
    symptom.seen.clear();
  }
  add_blocks(view);
  for (BlockView& block : view.blocks) {
    block.suspicion = Probability(0.05);
  }
  view.leading = {"Nothing is known yet: tell what the set does wrong.", false, Probability(0.5),
                  Probability(0.5)};
  view.log = {
      {1, "2026-03-04 10:02", "Taken in: hums all the time, goes quiet", false, "told", ""}};
  view.can_undo = false;
  return view;
}

CaseView sample_case() {
  CaseView view = fresh_case();
  view.symptoms.clear();
  view.blocks.clear();
  add_symptoms(view);
  add_blocks(view);
  add_suspects(view);
  add_checks(view);
  add_readings(view);
  add_log(view);
  view.access.front().open = true;
  view.leading = {"Dried reservoirs of the 38 V rails are four times likelier than all else.",
                  false, Probability(0.78), Probability(0.22)};
  view.can_undo = view.can_redo = true;
  return view;
}

CaseView dangerous_case() {
  CaseView view = sample_case();
  CheckView& check = view.next.front();
  check.title = "Ripple on the +38 V rail";
  check.place_title = "+38 V";
  check.state = "powered";
  check.quantity = "ripple";
  check.dangerous = true;
  check.acknowledged = false;
  check.cautions = {stored_charge(), mains()};
  return view;
}

CaseView contradictory_case() {
  CaseView view = sample_case();
  view.contradiction =
      "Hum from both channels, volume down: yes; Ripple on every rail looked good; No hum at the "
      "loudspeaker with the input shorted.";
  view.suspects.clear();
  view.next.clear();
  return view;
}

CaseView long_winded_case() {
  CaseView view = sample_case();
  const std::string tail =
      ", the one beside the heat sink that somebody has already resoldered at least twice";
  view.set_name = "Tarnbeck Consolidated Audio Works 614 Mk II Professional Export" + tail;
  view.complaint += tail + tail;
  for (SuspectView& suspect : view.suspects) {
    suspect.title += tail;
    suspect.block_title += tail;
  }
  for (CheckView& check : view.next) {
    check.title += tail;
    check.place_title += tail;
    check.reason += tail;
  }
  for (BlockView& block : view.blocks) {
    block.title += tail;
  }
  for (BoardView& board : view.boards) {
    board.title += tail;
  }
  for (SymptomView& symptom : view.symptoms) {
    symptom.title += tail;
  }
  for (ReadingView& reading : view.readings) {
    reading.item_title += tail;
    reading.sentence += tail;
  }
  view.leading.sentence += tail;
  view.log.back().text += tail + tail;
  return view;
}

CaseView large_case(int readings) {
  CaseView view = sample_case();
  for (int copy = 0; copy < 4; ++copy) {
    const std::string mark = " " + std::to_string(copy + 2);
    const CaseView one = sample_case();
    for (BlockView block : one.blocks) {
      block.id += mark;
      block.title += mark;
      for (std::string& to : block.signal_to) {
        to += mark;
      }
      view.blocks.push_back(block);
    }
    for (int again = 0; again < 12; ++again) {
      for (SuspectView suspect : one.suspects) {
        suspect.item += mark + '.' + std::to_string(again);
        suspect.suspicion = Probability(suspect.suspicion.value() / (2 + again));
        view.suspects.push_back(suspect);
      }
    }
  }
  view.readings.clear();
  const CaseView one = sample_case();
  for (int i = 0; i < readings; ++i) {
    ReadingView reading = one.readings[static_cast<std::size_t>(i) % one.readings.size()];
    reading.event = 100 + i;
    reading.item_title += " no. " + std::to_string(i);
    reading.value *= 0.2 + 0.01 * (i * 37 % 300);
    view.readings.push_back(reading);
    view.log.push_back({100 + i, "2026-03-06 10:00", reading.item_title + ": " + reading.shown,
                        false, "read", ""});
  }
  return view;
}

CaseView closed_case() {
  CaseView view = sample_case();
  view.closed = true;
  view.cause = "group:reservoirs";
  view.leading.settled = true;
  return view;
}

MendingView sample_mending() {
  MendingView mending;
  mending.currency = "EUR";
  mending.horizon_years = 5.0;
  mending.settled = true;
  OptionView pair;
  pair.scope = "cohort";
  pair.title = "replace it and its brothers";
  pair.replaced = {"Reservoirs", "Regulator outputs"};
  pair.parts = 5;
  pair.cost_now = 58;
  pair.damage_cost = 3;
  pair.come_back_cost = 31;
  pair.unmended_cost = 9;
  pair.expected_cost = 101;
  pair.spread = 64;
  pair.come_back = Probability(0.21);
  pair.complaint_stays = Probability(0.04);
  pair.shopping = {{"4700 \u00b5F 50 V 105 \u00b0C wet aluminium, 2000 h",
                    2,
                    1,
                    {"Reservoirs on the supply board"},
                    {"More capacitance only smooths more."},
                    {"Plus to plus."}},
                   {"100 \u00b5F 35 V 105 \u00b0C wet aluminium, ESR as the old part",
                    3,
                    1,
                    {"Regulator outputs on the supply board"},
                    {"A regulator counts on it."},
                    {}}};
  pair.csv = "value,rated\r\n";
  OptionView nothing;
  nothing.scope = "nothing";
  nothing.title = "replace nothing";
  nothing.unmended_cost = 250;
  nothing.come_back_cost = 62;
  nothing.expected_cost = 312;
  nothing.spread = 60;
  nothing.come_back = Probability(0.52);
  nothing.complaint_stays = Probability(1.0);
  mending.options = {pair, nothing};
  mending.sentence = "Over 5 years the least expected cost is to replace it and its brothers.";
  mending.reasons = {"the complaint stays with 4 % instead of 100 %"};
  mending.flips = "Below 8 months the cheapest is to replace what is convicted.";
  mending.over_horizon = {{0.1, {70, 250}}, {5, {101, 312}}, {15, {160, 350}}};
  mending.shopping = pair.shopping;
  ProofStep cold;
  cold.id = "discharge";
  cold.title = "Discharged and measured";
  cold.done = true;
  ProofStep rail;
  rail.id = "rail-volts@raw";
  rail.title = "+38 V rail: voltage";
  rail.wording = "Measure it: 38 V within 10 %.";
  rail.because = "Whatever hangs on the rail is only as good as the rail.";
  rail.caution = stored_charge().wording;
  rail.caution_title = stored_charge().title;
  rail.danger = "stored-charge";
  ProofStep hum;
  hum.id = "retest@hum";
  hum.title = "Is it gone: hum from both channels";
  hum.symptom = "hum";
  mending.proof = {cold, rail, hum};
  mending.compared = {{"group:reservoirs", "Reservoirs", "esr", 2.4, 0.05, "2.4 \u03a9",
                       "50 m\u03a9", 0.2, "datasheet"}};
  mending.left = {"Coupling (6): a chance of 12 % that one of them gives up within 5 years."};
  return mending;
}

ShopPage sample_shop(int families) {
  ShopPage page;
  for (int i = 0; i < families; ++i) {
    page.causes.push_back({"audio",
                           "audio",
                           12,
                           3,
                           {{"role:reservoir", "Reservoir", 6, Probability(0.5), Probability(0.31),
                             Probability(0.69), 12}}});
  }
  page.readings =
      ReadingsView{"ESR of wet aluminium",
                   "esr",
                   {{"all ages", "all", 40, 0.1, 0.2, 0.4, 0.9, 3.0, "0.4 \u03a9"},
                    {"30 to 39 years", "bad", 9, 1.0, 2.0, 4.0, 9.0, 30.0, "4 \u03a9"}}};
  return page;
}

PlanStep sample_plan() {
  const auto end = [](const char* item, const char* title, double suspicion, double reached) {
    PlanStep step;
    step.suspect = item;
    step.suspect_title = title;
    step.suspicion = Probability(suspicion);
    step.reached = Probability(reached);
    return step;
  };
  const auto check = [](const char* id, const char* place, const char* title, double reached) {
    PlanStep step;
    step.leaf = false;
    step.check = id;
    step.place = place;
    step.title = title;
    step.reached = Probability(reached);
    return step;
  };
  PlanStep first = check("esr", "reservoirs", "ESR across the reservoirs", 1.0);
  PlanStep good = check("diode-drop", "bridge", "Forward drop of each diode of the bridge", 0.42);
  good.then = {end("cause:open-diode", "Open rectifier diode", 0.91, 0.12),
               end("group:coupling", "Coupling capacitors of the power stages, left", 0.34, 0.30)};
  first.then = {end("group:reservoirs", "Reservoirs of the 38 V rails", 0.97, 0.58), good};
  return first;
}

PracticeView sample_practice(bool over) {
  using quantities::minutes;
  PracticeView practice;
  practice.seed = 4711;
  practice.equipment_title = "Stereo receiver, solid state";
  practice.complaint = {"Hum from both channels, volume down", "Weak at normal volume"};
  practice.word = "Ripple on the +38 V rail: it looks bad.";
  practice.yours.tally = {minutes(41), 3, 1, 2, 1, over};
  practice.yours.steps = {{"Ripple on the +38 V rail: looked bad", minutes(6)},
                          {"Supply voltage of the tuner: looked good", minutes(5)},
                          {"Look at the cans, supply board: looked good", minutes(4)},
                          {"Mended: Coupling capacitors, left (it was sound)", minutes(14)},
                          {"Mended: Reservoirs of the 38 V rails", minutes(12)}};
  practice.over = over;
  if (over) {
    practice.faults = {"Reservoirs of the 38 V rails: dried out"};
    practice.expert.tally = {minutes(22), 2, 0, 1, 0, true};
    practice.expert.steps = {{"ESR across the reservoirs: looked bad", minutes(7)},
                             {"Ripple on the +38 V rail: looked bad", minutes(3)},
                             {"Mended: Reservoirs of the 38 V rails", minutes(12)}};
    practice.compared = true;
    practice.comparison = {"You took 19 min longer than the program's advice.",
                           "Wrong replacements: you 1, the advice 0."};
  }
  return practice;
}

Desk desk_with(CaseView view) {
  Desk desk;
  desk.plan = sample_plan();
  desk.catalogue = sample_catalogue();
  desk.shelf.cases = sample_cases();
  desk.open_case = std::move(view);
  desk.mending = sample_mending();
  desk.station = Station::probe;
  return desk;
}

Desk desk_at(CaseView view, Station station) {
  Desk desk = desk_with(std::move(view));
  desk.station = station;
  return desk;
}

}  // namespace dryout::window
