#include "casework/invented_bench.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "casework/measuring_at.h"

namespace dryout::casework::tests {
namespace {

using namespace dryout::knowledge;  // NOLINT: the whole file speaks of it

template <class E>
E entry(E value, const std::string& id, const std::string& title) {
  value.id = id;
  value.title = title;
  value.because = "Invented for tests.";
  return value;
}

Link link(const std::string& id, const std::string& phenomenon, Reach reach, double strength) {
  Link made = entry(Link{}, id, "");
  made.phenomenon = phenomenon;
  made.reach = reach;
  made.strength = strength;
  return made;
}

void add_parts(KnowledgeBase& k) {
  k.ageing.levels = {"fresh", "worn", "spent"};
  k.ageing.steps = {{20.0, {0.8, 0.15, 0.05}}, {200.0, {0.2, 0.4, 0.4}}};
  k.ageing.warmth_factor = {{"cool", 0.7}, {"warm", 1.0}, {"hot", 1.5}};
  for (const char* mode : {"tired", "dried", "shorted", "leaky", "open"}) {
    k.modes.push_back(entry(FaultMode{}, mode, mode));
  }
  auto wet = entry(Technology{}, "wet-aluminium", "Wet aluminium");
  wet.wears_out = true;
  wet.modes = {{"tired", {0.02, 0.1, 0.3}},
               {"dried", {0.005, 0.05, 0.3}},
               {"shorted", {0.001, 0.005, 0.01}}};
  auto film = entry(Technology{}, "film", "Film");
  film.modes = {{"leaky", {0.002, 0.002, 0.002}}, {"open", {0.002, 0.002, 0.002}}};
  k.technologies = {wet, film};
  auto reservoir = entry(Role{}, "reservoir", "Reservoir");
  reservoir.technology = "wet-aluminium";
  auto coupling = entry(Role{}, "audio-coupling", "Audio coupling");
  coupling.technology = "film";
  k.roles = {reservoir, coupling};
}

void add_causes(KnowledgeBase& k) {
  auto diode = entry(OtherCause{}, "open-diode", "Open diode");
  diode.block_kinds = {"rectifier"};
  diode.prior = 0.03;
  diode.remedy = quantities::minutes(10);
  auto contact = entry(OtherCause{}, "dirty-contact", "Dirty contact");
  contact.block_kinds = {"audio-power"};
  contact.prior = 0.1;
  contact.remedy = quantities::minutes(5);
  k.causes = {diode, contact};
}

void add_links(KnowledgeBase& k) {
  auto ripple = entry(Phenomenon{}, "ripple", "Ripple");
  ripple.at = Phenomenon::At::rail;
  ripple.phrase = "ripple on {place}";
  auto hum = entry(Phenomenon{}, "hum", "Hum");
  hum.phrase = "hum in {place}";
  auto dead = entry(Phenomenon{}, "dead", "Dead");
  dead.phrase = "{place} is dead";
  k.phenomena = {ripple, hum, dead};
  auto dried = link("dried-reservoir-ripples", "ripple", Reach::own_rail, 0.95);
  dried.roles = {"reservoir"};
  dried.mode = "dried";
  auto diode = link("open-diode-ripples", "ripple", Reach::made_rails, 0.6);
  diode.cause = "open-diode";
  auto heard = link("ripple-hums", "hum", Reach::fed_blocks, 0.9);
  heard.from_phenomenon = "ripple";
  auto open = link("open-coupling-is-dead", "dead", Reach::own_block, 1.0);
  open.roles = {"audio-coupling"};
  open.mode = "open";
  auto contact = link("dirty-contact-is-dead", "dead", Reach::own_block, 1.0);
  contact.cause = "dirty-contact";
  k.links = {dried, diode, heard, open, contact};
}

void add_symptoms(KnowledgeBase& k) {
  auto hums = entry(Symptom{}, "hums", "Hum with the volume down");
  hums.family = "audio";
  hums.owner_words = {"it hums"};
  hums.shows = {{"hum", {"audio-power"}, 0.98}};
  auto silent = entry(Symptom{}, "silent", "No sound at all");
  silent.family = "audio";
  silent.shows = {{"dead", {"audio-power"}, 1.0}};
  silent.unlisted = 0.0;  // so that evidence can contradict itself
  k.symptoms = {hums, silent};
}

void add_checks(KnowledgeBase& k) {
  auto mains = entry(Caution{}, "mains-live", "Mains is live inside");
  mains.danger = "mains";
  auto tension = entry(Caution{}, "tension-live", "High tension is live");
  tension.danger = "high-tension";
  auto charge = entry(Caution{}, "charge-stays", "Charge stays after switching off");
  charge.danger = "stored-charge";
  k.cautions = {mains, tension, charge};
  auto ripple = entry(CheckRule{}, "ripple-on-rail", "Ripple on a rail");
  ripple.state = CheckRule::State::powered;
  ripple.per = CheckRule::Per::rail;
  ripple.effort = quantities::minutes(3);
  ripple.sees = {{"ripple", 0.97}};
  ripple.quantity = "ripple";
  ripple.cautions = {"mains-live"};
  auto esr = entry(CheckRule{}, "esr-in-circuit", "ESR in circuit");
  esr.per = CheckRule::Per::group;
  esr.technologies = {"wet-aluminium"};
  esr.effort = quantities::minutes(2);
  esr.access = knowledge::CheckRule::Access::solder_side;
  esr.detects = {{"dried", 0.95}, {"tired", 0.6}};
  esr.quantity = "esr";
  auto life = entry(CheckRule{}, "sign-of-life", "Sign of life");
  life.state = CheckRule::State::unpowered;
  life.per = CheckRule::Per::block;
  life.kinds = {"audio-power"};
  life.effort = quantities::minutes(1);
  life.false_alarm = 0.0;
  life.sees = {{"dead", 1.0}};
  k.checks = {ripple, esr, life};
}

struct Where {
  std::string role, block, rail, technology;
};

PartGroup group(const std::string& id, const std::string& title, const Where& where, int count) {
  PartGroup made;
  made.id = id;
  made.title = title;
  made.role = where.role;
  made.block = where.block;
  made.rail = where.rail;
  made.technology = where.technology;
  made.count = count;
  return made;
}

Equipment lantern() {
  auto e = entry(Equipment{}, "lantern", "Lantern amplifier");
  e.family = "audio";
  e.year_from = 1975;
  e.year_to = 1985;
  e.access = {{"lid", "Lid off", quantities::minutes(2), {}},
              {"shield", "Shield off", quantities::minutes(4), {"lid"}}};
  e.boards = {{"main", "Main board", "lid", "shield"}};
  e.rails = {{"raw", "+38 V rail", "raw", 38.0}, {"high", "300 V rail", "high-tension", 300.0}};
  e.blocks = {{"supply", "Supply", "rectifier", "main", {}, {"raw", "high"}, {"power"}},
              {"power", "Power stage", "audio-power", "main", {"raw"}, {}, {}}};
  PartGroup reservoirs =
      group("reservoirs", "Reservoirs", {"reservoir", "supply", "raw", "wet-aluminium"}, 2);
  reservoirs.capacitance = quantities::microfarads(4700);
  reservoirs.rated = quantities::volts(50);
  reservoirs.cohort = "electrolytics";
  const PartGroup coupling =
      group("coupling", "Coupling capacitors", {"audio-coupling", "power", "", "film"}, 3);
  e.groups = {reservoirs, coupling};
  e.hazards = {"mains-live", "charge-stays", "tension-live"};
  return e;
}

Equipment pebble() {
  Equipment e = entry(lantern(), "pebble", "Pebble amplifier");
  e.access.resize(1);
  e.boards[0].solder_access = "lid";
  e.rails.resize(1);
  e.blocks[0].makes = {"raw"};
  return e;
}

}  // namespace

KnowledgeBase invented_knowledge() {
  KnowledgeBase k;
  add_parts(k);
  add_causes(k);
  add_links(k);
  add_symptoms(k);
  add_checks(k);
  k.equipment = {lantern(), pebble()};
  return k;
}

Clock ticking_clock() {
  return [now = std::int64_t{1'772'614'800}]() mutable { return now += 60; };
}

std::unique_ptr<Workshop> open_workshop(const std::string& store) {
  auto workshop = Workshop::open(store, invented_knowledge(), ticking_clock());
  if (!workshop) {
    ADD_FAILURE() << quantities::describe(workshop.problems());
  }
  return std::move(*workshop);
}

TakeIn lantern_intake() { return {"lantern", "Lantern 40", 1981, "Frau Abel", "it hums"}; }

std::int64_t start_lantern(Workshop& workshop) {
  const auto number = workshop.start(lantern_intake());
  EXPECT_TRUE(number.ok()) << (number ? "" : quantities::describe(number.problems()));
  return *number;
}

namespace {

/// A reading is taken as a careful hand takes it: its cautions heeded first.
void heed_first(Workshop& workshop, std::int64_t number, const Command& command) {
  const auto* reading = std::get_if<RecordReading>(&command);
  const auto view = workshop.view(number);
  if (reading == nullptr || !view) {
    return;
  }
  const MeasuringView* place = measuring_at(*view, reading->item, reading->kind);
  if (place != nullptr && !place->acknowledged) {
    EXPECT_TRUE(
        workshop.apply(number, AcknowledgeCautions{place->item, place->kinds.front()}).ok());
  }
}

}  // namespace

CaseView apply_ok(Workshop& workshop, std::int64_t number, const Command& command) {
  heed_first(workshop, number, command);
  auto view = workshop.apply(number, command);
  EXPECT_TRUE(view.ok()) << (view ? "" : quantities::describe(view.problems()));
  return view ? std::move(*view) : CaseView{};
}

std::string refusal(Workshop& workshop, std::int64_t number, const Command& command) {
  const auto view = workshop.apply(number, command);
  EXPECT_FALSE(view.ok()) << "should have been refused";
  return view ? "" : quantities::describe(view.problems());
}

const SuspectView& suspect(const CaseView& view, const std::string& item) {
  static const SuspectView nobody;
  const auto found = std::find_if(view.suspects.begin(), view.suspects.end(),
                                  [&](const auto& each) { return each.item == item; });
  EXPECT_NE(found, view.suspects.end()) << item;
  return found == view.suspects.end() ? nobody : *found;
}

const CheckView* next_check(const CaseView& view, const std::string& check,
                            const std::string& place) {
  for (const CheckView& each : view.next) {
    if (each.check == check && each.place == place) {
      return &each;
    }
  }
  return nullptr;
}

}  // namespace dryout::casework::tests
