#include "report/sample_case.h"

namespace dryout::report_test {
namespace {

using casework::CaseView;
using casework::MendingView;
using casework::ReadingView;
using casework::SuspectView;
using quantities::Probability;
using quantities::Second;

SuspectView suspect(const std::string& item, const std::string& title, double suspicion) {
  SuspectView view;
  view.item = item;
  view.title = title;
  view.kind = "group";
  view.board_title = "Supply board";
  view.capacitor = true;
  view.before = Probability(0.08);
  view.suspicion = Probability(suspicion);
  view.unsound = Probability(suspicion);
  view.weight = {18.4};
  view.states = {{"sound", "sound", Probability(1.0 - suspicion)},
                 {"dried", "dried out", Probability(suspicion)}};
  return view;
}

ReadingView reading(const std::string& item, const std::string& title, double ohm, int event) {
  ReadingView view;
  view.event = event;
  view.item = item;
  view.item_title = title;
  view.kind = "esr";
  view.value = ohm;
  view.shown = "2.4 \u03a9";
  view.limit = 0.3;
  view.limit_source = "datasheet";
  view.verdict = "over-limit";
  view.sentence = "2.4 \u03a9 is over the limit of 0.3 \u03a9 from the part's own data sheet.";
  view.caveats = {"Read at 23 \u00b0C; a cold part reads higher."};
  return view;
}

}  // namespace

CaseView sample_case() {
  CaseView view;
  view.number = 12;
  view.equipment = "stereo-receiver";
  view.equipment_title = "Stereo receiver";
  view.set_name = "Larkfield 40";
  view.owner = "Ms Ferry";
  view.year_built = 1978;
  view.complaint = "hums with the volume right down, worse since the winter";
  view.closed = true;
  view.cause = "group:reservoirs";
  view.symptoms = {{"hum-steady", "Steady hum", "sound", {}, "", "yes"},
                   {"one-channel", "One channel only", "sound", {}, "", "no"},
                   {"crackle", "Crackle", "sound", {}, "", ""}};
  SuspectView main = suspect("group:reservoirs", "Reservoirs", 0.97);
  main.mended = "replaced";
  main.evidence = {{"Ripple on the +38 V rail looked bad", {14.2}},
                   {"Steady hum: there", {6.1}},
                   {"One channel only: not there", {2.5}},
                   {"The fuse held", {-3.0}}};
  main.paths = {"Dried reservoirs leave ripple on the rail, which the amplifier passes as hum."};
  view.suspects = {main, suspect("group:coupling", "Coupling capacitors", 0.31),
                   suspect("cause:open-diode", "Open rectifier diode", 0.04)};
  view.readings = {reading("group:reservoirs", "Reservoirs", 2.4, 5)};
  view.hazards = {{"mains", "Mains inside the case", "Pull the plug first.", "mains"},
                  {"stored-charge", "Capacitors keep their charge", "Discharge.", "stored-charge"}};
  view.access = {{"cover", "Top cover", Second(120.0), true}};
  view.log = {
      {1, "2026-03-04 10:22", "Taken in: Larkfield 40", false, "told", ""},
      {5, "2026-03-04 10:40", "Reservoirs: ESR 2.4 \u03a9 in circuit", false, "read", "bad"},
      {6, "2026-03-04 10:41", "Note: wrong line", true, "told", ""}};
  view.leading = {"Closed: Reservoirs.", true, Probability(0.98), Probability(0.02)};
  return view;
}

MendingView sample_mending() {
  MendingView view;
  view.currency = "EUR";
  view.horizon_years = 10.0;
  casework::OptionView one;
  one.scope = "convicted-part";
  one.title = "Only the reservoirs";
  one.parts = 2;
  one.cost_now = 62.0;
  one.expected_cost = 96.0;
  one.spread = 31.0;
  one.come_back = Probability(0.22);
  view.options = {one};
  view.sentence = "Replace the reservoirs only.";
  view.reasons = {"They were measured over their limit."};
  view.shopping = {{"4700 \u00b5F 63 V 105 \u00b0C",
                    2,
                    1,
                    {"Reservoirs"},
                    {"Higher voltage does no harm."},
                    {"Look at its height."}}};
  view.fitted = {{"group:reservoirs", "Reservoirs", "replaced", "4700 \u00b5F 63 V 105 \u00b0C"}};
  view.compared = {{"group:reservoirs", "Reservoirs", "esr", 2.4, 0.021, "2.4 \u03a9", "21 m\u03a9",
                    0.3, "datasheet"}};
  view.left = {"Coupling capacitors were left: 31 % likely to be worn."};
  casework::ProofStep lamp;
  lamp.id = "series-lamp";
  lamp.title = "First power through a series lamp";
  lamp.wording = "Switch on through a lamp.";
  lamp.done = true;
  casework::ProofStep soak;
  soak.id = "soak";
  soak.title = "Soak for two hours";
  view.proof = {lamp, soak};
  return view;
}

report::Imprint sample_imprint() { return {"Quayside Bench", 1795617395}; }

CaseView crowded_case() {
  CaseView view = sample_case();
  const std::string long_name =
      "Decoupling capacitors of the second intermediate-frequency amplifier and its automatic gain "
      "control, left-hand board, number ";
  view.set_name = "Larkfield Quadrophonic Tuner-Amplifier 40 mark II export version with remote";
  for (int i = 0; i < 9; ++i) {
    view.complaint += ", and after an hour the left channel fades, comes back, fades again";
  }
  view.readings.clear();
  view.suspects.resize(1);
  for (int i = 0; i < 60; ++i) {
    const std::string item = "part:C" + std::to_string(i + 1);
    const std::string title = i % 3 == 0 ? long_name + std::to_string(i) : "C" + std::to_string(i);
    view.readings.push_back(reading(item, title, 0.01 * (i + 1) * (i + 1), 10 + i));
    view.readings.back().kind = i % 4 == 3 ? "capacitance" : "esr";
    SuspectView more = suspect(item, title, 0.3 + 0.01 * i);
    more.mended = i < 40 ? "replaced" : "";
    view.suspects.push_back(more);
    view.symptoms.push_back({"s" + std::to_string(i),
                             "Fades on the left when warm",
                             "sound",
                             {},
                             "",
                             i % 2 == 0 ? "yes" : "no"});
    view.log.push_back({100 + i, "2026-03-04 11:00", "Measured " + title, false, "read", ""});
  }
  return view;
}

MendingView crowded_mending() {
  MendingView view = sample_mending();
  const CaseView crowd = crowded_case();
  for (std::size_t i = 1; i <= 40; ++i) {
    view.fitted.push_back({crowd.suspects[i].item, crowd.suspects[i].title, "replaced",
                           "47 \u00b5F 63 V 105 \u00b0C wet aluminium, low ESR"});
    view.left.push_back(crowd.suspects[i].title + " was left: 40 % likely to be worn.");
    view.shopping.push_back(view.shopping.front());
    view.proof.push_back(view.proof.front());
  }
  return view;
}

std::string hostile_text() {
  std::string text = "<script>alert(\"1\")</script> & 'quoted' ]]> <!-- ";
  text += '\0';
  text += "\x01\x1b[31m \xff\xc0\x80 \u202Eevil\u202C \u05D0\u05D1\u05D2 -> != \u03a9 \u00b5 ";
  return text + std::string(300, 'W') + " end-of-it";
}

}  // namespace dryout::report_test
