// Does the shipped tree, asked about sets on the bench, point where an experienced person would?
// The cases and their sources are in the *.json files of this folder.
#include <gtest/gtest.h>

#include <iostream>
#include <map>
#include <set>

#include "casework/workshop.h"
#include "knowledge/load.h"
#include "vignettes/vignettes.h"

namespace dryout::vignettes {
namespace {

const knowledge::KnowledgeBase& shipped() {
  static const knowledge::KnowledgeBase knowledge = *knowledge::load({DRYOUT_SOURCE_DIR});
  return knowledge;
}

const std::vector<Vignette>& all() {
  static const std::vector<Vignette> vignettes = *read_folder(DRYOUT_SOURCE_DIR "/tests/vignettes");
  return vignettes;
}

/// Complaints with a place or a condition (the README beside them).
const std::vector<Vignette>& placed() {
  static const std::vector<Vignette> vignettes =
      *read_folder(DRYOUT_SOURCE_DIR "/tests/vignettes/placed");
  return vignettes;
}

struct Judged {
  const Vignette* vignette = nullptr;
  Score score;
  std::string told;  ///< who led, with how much blame
};

std::string told(const diagnosis::Network& network, const std::vector<Suspect>& suspects) {
  std::string line;
  for (const Suspect& suspect : suspects) {
    line += ' ' + network.items[suspect.item].id + '=' + std::to_string(suspect.blame).substr(0, 5);
  }
  return line;
}

std::vector<Judged> judge(const std::vector<Vignette>& vignettes) {
  std::vector<Judged> made;
  for (const Vignette& vignette : vignettes) {
    auto compiled = compile(shipped(), vignette);
    const Seen seen = seen_in(shipped(), vignette, compiled);
    const auto suspects = leading_suspects(compiled.network, seen);
    made.push_back(
        {&vignette, score(vignette, compiled.network, suspects), told(compiled.network, suspects)});
  }
  return made;
}

const std::vector<Judged>& judged() {
  static const std::vector<Judged> list = judge(all());
  return list;
}

/// Share for which `holds`, after a line for each for which it does not.
template <class Holds>
double share(const std::vector<Judged>& list, const char* what, Holds holds) {
  std::size_t held = 0;
  for (const Judged& each : list) {
    if (holds(each.score)) {
      ++held;
    } else {
      std::cout << "not " << what << ": " << each.vignette->id << " (" << each.vignette->equipment
                << "):" << each.told << '\n';
    }
  }
  std::cout << what << ": " << held << " of " << list.size() << '\n';
  return static_cast<double>(held) / static_cast<double>(list.size());
}

/// A work of the United States' services: in the public domain there.
bool in_public_domain(const std::string& document) {
  return document.rfind("US Army", 0) == 0 || document.rfind("US Navy", 0) == 0;
}

TEST(Vignettes, AreInPartFromPublicTablesAndAThirdOfThemNoCapacitor) {
  std::set<std::string> ids;
  std::size_t capacitors = 0;
  std::size_t public_tables = 0;
  for (const Vignette& vignette : all()) {
    EXPECT_TRUE(ids.insert(vignette.id).second) << vignette.id;
    capacitors += vignette.capacitor ? 1U : 0U;
    public_tables += in_public_domain(vignette.document) ? 1U : 0U;
  }
  std::cout << ids.size() << " vignettes, " << public_tables
            << " from tables in the public domain; "
            << "the answer is a capacitor in " << capacitors << '\n';
  EXPECT_GE(all().size(), 180U);
  EXPECT_GE(public_tables, 60U);  // they speak of radios and instruments, not of discs and flashes
  EXPECT_GE(3 * capacitors, all().size());
  EXPECT_GE(3 * (all().size() - capacitors), all().size());
}

TEST(Vignettes, SpeakOfWhatTheirEquipmentHas) {
  for (const Vignette& vignette : all()) {
    ASSERT_NE(knowledge::find(shipped().equipment, vignette.equipment), nullptr) << vignette.id;
    auto compiled = compile(shipped(), vignette);
    const Seen seen = seen_in(shipped(), vignette, compiled);
    EXPECT_TRUE(seen.unknown.empty()) << vignette.id << ": " << seen.unknown.front();
    EXPECT_FALSE(seen.complaint.empty()) << vignette.id;
    for (const auto* list :
         {&vignette.expect_top1, &vignette.expect_top3, &vignette.must_not_lead}) {
      for (const std::string& expected : *list) {
        bool exists = false;
        for (const auto& item : compiled.network.items) {
          exists = exists || matches(item.id, {expected});
        }
        EXPECT_TRUE(exists) << vignette.id << ": nothing is called " << expected;
      }
    }
  }
}

// One test, since ranking them all is the work.
TEST(Vignettes, AreRankedAsAnExperiencedPersonWould) {
  const auto& list = judged();
  EXPECT_GE(share(list, "among the first three", [](const Score& s) { return s.top3; }), 0.95);
  EXPECT_GE(share(list, "in front", [](const Score& s) { return s.top1; }), 0.80);
  EXPECT_EQ(
      share(list, "free of a forbidden leader", [](const Score& s) { return !s.led_by_forbidden; }),
      1.0);
}

TEST(PlacedVignettes, AreRankedAsAnExperiencedPersonWould) {
  const auto list = judge(placed());
  EXPECT_GE(share(list, "among the first three", [](const Score& s) { return s.top3; }), 0.92);
  EXPECT_GE(share(list, "in front", [](const Score& s) { return s.top1; }), 0.80);
  // One is left, told in the README.
  EXPECT_GE(
      share(list, "free of a forbidden leader", [](const Score& s) { return !s.led_by_forbidden; }),
      0.98);
}

/// The same set told to the workshop, as a person would: what its view ranks is what we rank.
TEST(Vignettes, AreRankedAlikeByTheWorkshop) {
  constexpr std::int64_t in_2026 = 1'780'000'000;
  auto workshop =
      casework::Workshop::open(std::string(casework::in_memory), shipped(), [] { return in_2026; });
  ASSERT_TRUE(workshop.ok());
  std::map<std::string, std::size_t> asked;  // each kind of equipment once
  for (std::size_t i = 0; i < all().size(); ++i) asked.emplace(all()[i].equipment, i);
  for (const auto& [equipment, index] : asked) {
    const Vignette& vignette = all()[index];
    const auto number = (*workshop)->start({equipment, vignette.id, vignette.year, "", ""});
    ASSERT_TRUE(number.ok()) << quantities::describe(number.problems());
    std::vector<casework::Command> commands;
    for (const auto& [symptom, there] : vignette.symptoms) {
      commands.emplace_back(
          casework::ReportSymptom{symptom, there ? casework::Seen::yes : casework::Seen::no});
    }
    for (const Outcome& outcome : vignette.outcomes) {
      commands.emplace_back(casework::AcknowledgeCautions{outcome.check, outcome.place});
      commands.emplace_back(
          casework::RecordOutcome{outcome.check, outcome.place,
                                  outcome.bad ? casework::Seen::yes : casework::Seen::no, ""});
    }
    for (const casework::Command& command : commands) {
      const auto applied = (*workshop)->apply(*number, command);
      ASSERT_TRUE(applied.ok()) << vignette.id << quantities::describe(applied.problems());
    }
    const auto view = (*workshop)->view(*number);
    ASSERT_TRUE(view.ok());
    auto compiled = compile(shipped(), vignette);
    const Seen seen = seen_in(shipped(), vignette, compiled);
    const auto ours = leading_suspects(compiled.network, seen);
    for (std::size_t rank = 0; rank < ours.size(); ++rank) {
      EXPECT_NEAR(view->suspects[rank].suspicion.value(), ours[rank].blame, 1e-9)
          << vignette.id << ' ' << view->suspects[rank].item << " against "
          << compiled.network.items[ours[rank].item].id;
    }
  }
}

}  // namespace
}  // namespace dryout::vignettes
