// Long cases of random commands, sensible and senseless, on the invented bench and on every
// equipment that ships. Seeds are fixed and printed, so that a failure can be repeated.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

#include "casework/invented_bench.h"
#include "casework/words.h"
#include "knowledge/load.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

/// Makes commands mostly from ids that the view shows, now and then from nowhere.
class CommandMaker {
 public:
  CommandMaker(unsigned seed, const CaseView& view) : random_(seed), view_(&view) {}
  void look_at(const CaseView& view) { view_ = &view; }

  unsigned upto(std::size_t n) { return static_cast<unsigned>(random_() % n); }

  Command make() {
    switch (upto(17)) {
      case 0:
        return TakeIn{"", text(), 1900 + static_cast<int>(upto(140)), "", text()};
      case 1:
      case 2:
        return ReportSymptom{symptom(), seen()};
      case 3:
      case 4:
        return on_check([&](auto c, auto p) { return RecordOutcome{c, p, seen(), text()}; });
      case 5:
        return reading();
      case 6:
        return NamePart{"C" + std::to_string(upto(9)), group(), {}, {}, "", text()};
      case 7:
        return on_check([](auto c, auto p) { return AcknowledgeCautions{c, p}; });
      case 8:
        return on_check([&](auto c, auto p) { return DeclineCheck{c, p, text()}; });
      case 9:
        return on_check([](auto c, auto p) { return ReconsiderCheck{c, p}; });
      case 10:
        return OpenAccess{access()};
      case 11:
        return CloseAccess{access()};
      case 12:
        return JudgeSuspect{item(), static_cast<JudgeSuspect::Verdict>(upto(3))};
      case 13:
        return RecordRepair{item(), "replaced", text()};
      case 14:
        return RetestSymptom{symptom(), upto(2) == 0};
      case 15:
        return RecordProof{upto(2) == 0 ? "soak" : "rail-volts@" + symptom(),
                           static_cast<Proved>(upto(3)), text()};
      default:
        break;
    }
    return upto(3) == 0   ? Command(CloseCase{item(), text()})
           : upto(2) == 0 ? Command(ReopenCase{text()})
                          : Command(AddNote{text()});
  }

 private:
  bool astray() { return upto(25) == 0; }
  Seen seen() { return static_cast<Seen>(upto(3)); }
  std::string text() {
    static const std::array<std::string, 6> texts{"",     "hums", "µF Ω", "\"quoted\"\n",
                                                  "\xff", "=1+1"};
    return texts.at(upto(texts.size()));
  }
  template <class List, class IdOf>
  std::string pick(const List& list, IdOf id_of) {
    return list.empty() || astray() ? "nowhere" : id_of(list[upto(list.size())]);
  }
  std::string symptom() {
    return pick(view_->symptoms, [](const auto& s) { return s.id; });
  }
  std::string item() {
    return pick(view_->suspects, [](const auto& s) { return s.item; });
  }
  std::string access() {
    return pick(view_->access, [](const auto& a) { return a.id; });
  }
  std::string group() {
    const std::string id = item();
    return id.starts_with("group:") ? id.substr(6) : "reservoirs";
  }
  template <class Make>
  Command on_check(Make make) {
    if (view_->next.empty() || astray()) {
      return make(std::string("ripple-on-rail"), std::string("nowhere"));
    }
    const CheckView& check = view_->next[upto(view_->next.size())];
    return make(check.check, check.place);
  }
  Command reading() {
    RecordReading reading;
    reading.item = item();
    reading.kind = static_cast<ReadingKind>(upto(7));
    reading.value = astray() ? std::nan("") : std::pow(10.0, static_cast<int>(upto(9)) - 6);
    reading.in_circuit = upto(2) == 0;
    reading.across = static_cast<Across>(upto(7));
    if (upto(2) == 0) {
      reading.limit = std::pow(10.0, static_cast<int>(upto(5)) - 3);
      reading.limit_source = limit_source_words().at(upto(5));
    }
    return reading;
  }

  std::mt19937 random_;
  const CaseView* view_;
};

void expect_sane(const CaseView& view) {
  for (const SuspectView& each : view.suspects) {
    EXPECT_FALSE(std::isnan(each.weight.value)) << each.item;
    EXPECT_FALSE(std::isnan(each.suspicion.value())) << each.item;
  }
  EXPECT_FALSE(view.leading.sentence.empty());
  for (const CheckView& check : view.next) {
    EXPECT_FALSE(check.reason.empty());
  }
}

/// Plays `steps` random acts and gives the number that were accepted.
int play(Workshop& workshop, std::int64_t number, unsigned seed, int steps) {
  CaseView view = *workshop.view(number);
  CommandMaker maker(seed, view);
  int accepted = 0;
  for (int i = 0; i < steps; ++i) {
    const unsigned act = maker.upto(10);
    auto result = act == 0   ? workshop.undo(number)
                  : act == 1 ? workshop.redo(number)
                  : act == 2 ? workshop.take_back(number, static_cast<int>(maker.upto(30)))
                             : workshop.apply(number, maker.make());
    if (result) {
      ++accepted;
      view = std::move(*result);
      expect_sane(view);
    } else {
      EXPECT_FALSE(result.problems().front().message.empty());
    }
  }
  return accepted;
}

/// Exported, imported and exported again: the same bytes, and the same figures.
void expect_round_trip(const Workshop& workshop, std::int64_t number, Workshop& elsewhere) {
  const std::string text = *workshop.export_case(number);
  const auto copy = elsewhere.import_case(text, "copy.json");
  ASSERT_TRUE(copy.ok()) << quantities::describe(copy.problems());
  EXPECT_EQ(*elsewhere.export_case(*copy), text);
  const CaseView one = *workshop.view(number);
  const CaseView two = *elsewhere.view(*copy);
  EXPECT_EQ(one.leading.sentence, two.leading.sentence);
  ASSERT_EQ(one.suspects.size(), two.suspects.size());
  for (std::size_t i = 0; i < one.suspects.size(); ++i) {
    EXPECT_EQ(one.suspects[i].item, two.suspects[i].item);
    EXPECT_EQ(one.suspects[i].suspicion, two.suspects[i].suspicion);
  }
}

TEST(RandomCommands, NeverBreakACaseAndAlwaysGoRoundTheFile) {
  int accepted = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto workshop = open_workshop();
    const auto number = start_lantern(*workshop);
    accepted += play(*workshop, number, seed, 60);
    expect_round_trip(*workshop, number, *open_workshop());
  }
  EXPECT_GT(accepted, 12 * 20) << "most commands must be sensible for this to prove anything";
}

TEST(RandomCommands, OnEveryEquipmentThatShips) {
  const auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(knowledge.ok()) << quantities::describe(knowledge.problems());
  auto readings = readings::load_reading_knowledge({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(readings.ok()) << quantities::describe(readings.problems());
  const auto open = [&] {
    return std::move(
        *Workshop::open(std::string(in_memory), *knowledge, ticking_clock(), *readings));
  };
  const auto workshop = open();
  const auto elsewhere = open();
  unsigned seed = 1000;
  for (const knowledge::Equipment& equipment : knowledge->equipment) {
    SCOPED_TRACE(equipment.id + ", seed " + std::to_string(++seed));
    const auto number = workshop->start({equipment.id, "a set", 1978, "", "does not work"});
    ASSERT_TRUE(number.ok()) << quantities::describe(number.problems());
    EXPECT_FALSE(workshop->view(*number)->next.empty());
    play(*workshop, *number, seed, 5);
    expect_round_trip(*workshop, *number, *elsewhere);
  }
}

}  // namespace
}  // namespace dryout::casework
