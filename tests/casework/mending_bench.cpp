#include "casework/mending_bench.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "casework/shipped_bench.h"

namespace dryout::casework::tests {
namespace {

knowledge::PartGroup wet_group(const char* id, const char* title, const char* block,
                               const char* cohort, int count) {
  knowledge::PartGroup group;
  group.id = id;
  group.title = title;
  group.role = "audio-coupling";
  group.block = block;
  group.technology = "wet-aluminium";
  group.count = count;
  group.cohort = cohort;
  group.capacitance = quantities::microfarads(47);
  group.rated = quantities::volts(25);
  return group;
}

}  // namespace

knowledge::KnowledgeBase two_board_knowledge(double seeps) {
  knowledge::KnowledgeBase k = invented_knowledge();
  knowledge::FaultMode seeped;
  seeped.id = "seeped";
  seeped.title = "Seeped";
  k.modes.push_back(seeped);
  knowledge::find(k.technologies, "wet-aluminium")->modes["seeped"] = {0.0, seeps / 4, seeps};
  knowledge::Caution cleaning;
  cleaning.id = "electrolyte-cleaning";
  cleaning.title = "Cleaning";
  cleaning.wording = "Brush with alcohol, local rules for the waste.";
  k.cautions.push_back(cleaning);
  knowledge::Equipment& set = *knowledge::find(k.equipment, "lantern");
  set.access.push_back({"front", "Front out", quantities::minutes(10), {"lid"}});
  set.boards.push_back({"front", "Front board", "lid", "front"});
  knowledge::find(set.blocks, "power")->board = "front";
  set.groups.push_back(wet_group("smoothing", "Smoothing", "supply", "electrolytics", 4));
  set.groups.push_back(wet_group("tone", "Tone board parts", "power", "small-cans", 6));
  return k;
}

std::unique_ptr<Workshop> mending_workshop(knowledge::KnowledgeBase knowledge) {
  const auto mending = load_mending_knowledge({DRYOUT_SOURCE_DIR});
  if (!mending) {
    ADD_FAILURE() << quantities::describe(mending.problems());
  }
  auto workshop =
      Workshop::open(std::string(in_memory), std::move(knowledge), ticking_clock(), {}, *mending);
  return std::move(*workshop);
}

std::unique_ptr<Workshop> shipped_mending_workshop() {
  const auto mending = load_mending_knowledge({DRYOUT_SOURCE_DIR});
  if (!mending) {
    ADD_FAILURE() << quantities::describe(mending.problems());
  }
  auto workshop = Workshop::open(std::string(in_memory), shipped_knowledge(), ticking_clock(),
                                 shipped_readings(), *mending);
  return std::move(*workshop);
}

MendingView mending_ok(const Workshop& workshop, std::int64_t number, double years) {
  auto mending = workshop.mending(number, years);
  EXPECT_TRUE(mending.ok()) << (mending ? "" : quantities::describe(mending.problems()));
  return mending ? std::move(*mending) : MendingView{};
}

const OptionView& option_of(const MendingView& mending, const std::string& scope) {
  static const OptionView none;
  const auto found = std::find_if(mending.options.begin(), mending.options.end(),
                                  [&](const OptionView& each) { return each.scope == scope; });
  EXPECT_NE(found, mending.options.end()) << scope;
  return found == mending.options.end() ? none : *found;
}

bool has_step(const MendingView& mending, const std::string& id) {
  return std::any_of(mending.proof.begin(), mending.proof.end(),
                     [&](const ProofStep& each) { return each.id == id; });
}

const ProofStep& step_of(const MendingView& mending, const std::string& id) {
  static const ProofStep none;
  const auto found = std::find_if(mending.proof.begin(), mending.proof.end(),
                                  [&](const ProofStep& each) { return each.id == id; });
  EXPECT_NE(found, mending.proof.end()) << id;
  return found == mending.proof.end() ? none : *found;
}

RecordReading lifted_esr(const std::string& item, double ohms) {
  RecordReading reading;
  reading.item = item;
  reading.kind = ReadingKind::esr;
  reading.value = ohms;
  reading.in_circuit = false;
  reading.across = Across::nothing;
  reading.limit = 0.2;
  reading.limit_source = "datasheet";
  return reading;
}

void ShippedJob::take_in(const std::string& equipment, int year) {
  workshop_ = shipped_mending_workshop();
  TakeIn intake;
  intake.equipment = equipment;
  intake.set_name = "Tarnbeck 614";
  intake.year_built = year;
  const auto number = workshop_->start(intake);
  ASSERT_TRUE(number.ok());
  number_ = *number;
}

MendingView ShippedJob::mending(double years) const {
  return mending_ok(*workshop_, number_, years);
}

}  // namespace dryout::casework::tests
