#include "knowledge/chain.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>

#include "knowledge/fixture.h"

namespace dryout::knowledge {
namespace {

using ::testing::ElementsAre;
using ::testing::Pair;
using ::testing::UnorderedElementsAre;

/// "ripple@raw" -> strength, for one fault ("reservoirs dried", "open-diode bridge").
using Strengths = std::map<std::string, double>;

std::string name_of(const KnowledgeBase& knowledge, const Equipment& equipment,
                    const FaultSite& site) {
  return site.kind == FaultSite::Kind::group
             ? equipment.groups[site.group].id + ' ' + site.mode
             : knowledge.causes[site.cause].id + ' ' + equipment.blocks[site.block].id;
}

std::string name_of(const KnowledgeBase& knowledge, const Equipment& equipment, const Fact& fact) {
  return knowledge.phenomena[fact.phenomenon].id + '@' + id_of(equipment, fact.place);
}

std::map<std::string, Strengths> strengths(const KnowledgeBase& knowledge,
                                           const Equipment& equipment, double strength_min = 1e-3) {
  const Chained chained = chain(knowledge, equipment, strength_min);
  std::map<std::string, Strengths> all;
  for (const FaultSite& site : chained.sites) all[name_of(knowledge, equipment, site)];
  for (const Consequence& consequence : chained.consequences) {
    all[name_of(knowledge, equipment, chained.sites[consequence.site])]
       [name_of(knowledge, equipment, consequence.fact)] = consequence.strength;
  }
  return all;
}

auto near(const char* fact, double strength) {
  return Pair(fact, ::testing::DoubleNear(strength, 1e-12));
}

class Lantern : public ::testing::Test {
 protected:
  KnowledgeBase knowledge_ = tests::fixture_knowledge();
  Equipment lantern_ = knowledge_.equipment[0];
};

TEST_F(Lantern, DriedReservoirsAreHeardAsTheProductOfTheLinksOnTheWay) {
  // By hand, from the strengths in fixture/rules/links/links.json.
  EXPECT_THAT(strengths(knowledge_, lantern_)["reservoirs dried"],
              UnorderedElementsAre(
                  near("ripple@raw", 0.8), near("lets-ripple-pass@regulator", 0.8 * 0.3),
                  near("ripple@stable", 0.8 * 0.3 * 0.5), near("hum@preamp", 0.8 * 0.3 * 0.5 * 0.9),
                  near("hum@power", 0.8 * 0.9),  // not by way of the preamplifier
                  near("hum@socket", 0.8 * 0.9 * 0.7)));
}

TEST_F(Lantern, ACauseStartsInItsBlock) {
  auto all = strengths(knowledge_, lantern_);
  EXPECT_THAT(
      all["open-diode bridge"],
      UnorderedElementsAre(near("ripple@raw", 0.5), near("lets-ripple-pass@regulator", 0.15),
                           near("ripple@stable", 0.075), near("hum@preamp", 0.0675),
                           near("hum@power", 0.45), near("hum@socket", 0.315)));
  EXPECT_FALSE(all.contains("open-diode power"));  // a rectifier's fault only
  // "*" puts it in every block, but its only link opens in a preamplifier.
  EXPECT_THAT(all["dirty-contact preamp"],
              UnorderedElementsAre(near("distorted@preamp", 0.25), near("distorted@power", 0.225),
                                   near("distorted@socket", 0.2025)));
  EXPECT_TRUE(all.at("dirty-contact bridge").empty());
}

TEST_F(Lantern, ACauseKeepsOutOfBlocksThatAreServedByWhatItIsNotServedBy) {
  find(knowledge_.causes, "dirty-contact")->not_served_by = {"audio-preamp"};
  const auto all = strengths(knowledge_, lantern_);
  EXPECT_TRUE(all.contains("dirty-contact preamp"));
  EXPECT_FALSE(all.contains("dirty-contact power"));  // the preamplifier's signal goes there
  EXPECT_TRUE(all.contains("dirty-contact socket"));  // and no further
}

TEST_F(Lantern, ACauseThatNeedsASupplyKeepsOutOfBlocksWithoutOne) {
  OtherCause* contact = find(knowledge_.causes, "dirty-contact");
  Block* preamp = find(lantern_.blocks, "preamp");
  contact->fed_by = {"*"};
  EXPECT_TRUE(strengths(knowledge_, lantern_).contains("dirty-contact preamp"));
  contact->fed_by = {"heater"};
  EXPECT_FALSE(strengths(knowledge_, lantern_).contains("dirty-contact preamp"));
  contact->fed_by = {"heater", find(lantern_.rails, preamp->fed_by.front())->kind};
  EXPECT_TRUE(strengths(knowledge_, lantern_).contains("dirty-contact preamp"));
  contact->fed_by = {"*"};
  preamp->fed_by.clear();
  EXPECT_FALSE(strengths(knowledge_, lantern_).contains("dirty-contact preamp"));
}

TEST_F(Lantern, ACauseNeedsSetsBuiltInItsYears) {
  OtherCause* diode = find(knowledge_.causes, "open-diode");
  diode->year_from = lantern_.year_to + 1;
  EXPECT_FALSE(strengths(knowledge_, lantern_).contains("open-diode bridge"));
  diode->year_from = lantern_.year_to;
  EXPECT_TRUE(strengths(knowledge_, lantern_).contains("open-diode bridge"));
  diode->year_from = 0;
  diode->year_to = lantern_.year_from - 1;
  EXPECT_FALSE(strengths(knowledge_, lantern_).contains("open-diode bridge"));
}

TEST_F(Lantern, ResidueCreepsToGroupsOfTheSameBoardOnly) {
  EXPECT_THAT(strengths(knowledge_, lantern_)["reservoirs leaky"],
              UnorderedElementsAre(near("residue@reservoirs", 0.5), near("residue@coupling", 0.1)));
  lantern_.blocks[2].board = "";  // the coupling parts' block stands on no board
  EXPECT_THAT(strengths(knowledge_, lantern_)["reservoirs leaky"],
              UnorderedElementsAre(near("residue@reservoirs", 0.5)));
}

TEST_F(Lantern, ModesComeFromTheTechnologyThatIsFitted) {
  EXPECT_FALSE(strengths(knowledge_, lantern_).contains("coupling dried"));
  lantern_.groups[1].technology = "wet-aluminium";
  EXPECT_TRUE(strengths(knowledge_, lantern_).contains("coupling dried"));
}

TEST_F(Lantern, TheStrongestWayCountsEvenIfItIsLonger) {
  lantern_.blocks[3].fed_by = {};  // the power stage hums by way of the preamplifier only
  EXPECT_NEAR(strengths(knowledge_, lantern_)["reservoirs dried"]["hum@power"],
              0.8 * 0.3 * 0.5 * 0.9 * 0.7, 1e-12);
  lantern_ = knowledge_.equipment[0];
  auto enters = std::find_if(knowledge_.links.begin(), knowledge_.links.end(),
                             [](const Link& l) { return l.id == "ripple-hums"; });
  enters->from_kinds = {"regulated"};  // the short way is barred
  EXPECT_NEAR(strengths(knowledge_, lantern_)["reservoirs dried"]["hum@power"],
              0.8 * 0.3 * 0.5 * 0.9 * 0.7, 1e-12);
}

TEST_F(Lantern, WaysInACircleEnd) {
  lantern_.blocks[4].signal_to = {"preamp"};  // the socket feeds back
  find(knowledge_.links, "hum-goes-on")->strength = 1.0;
  const auto hum = strengths(knowledge_, lantern_)["reservoirs dried"];
  EXPECT_NEAR(hum.at("hum@preamp"), 0.72, 1e-12);  // by way of the power stage and the socket
  EXPECT_NEAR(hum.at("hum@power"), 0.72, 1e-12);
}

TEST_F(Lantern, WeakConsequencesAreDropped) {
  const auto strong = strengths(knowledge_, lantern_, 0.3)["reservoirs dried"];
  EXPECT_THAT(strong, UnorderedElementsAre(near("ripple@raw", 0.8), near("hum@power", 0.72),
                                           near("hum@socket", 0.504)));
}

TEST_F(Lantern, APathIsToldInTheWordsOfTheRules) {
  const Chained chained = chain(knowledge_, lantern_);
  const auto found =
      std::find_if(chained.consequences.begin(), chained.consequences.end(), [&](const auto& c) {
        return name_of(knowledge_, lantern_, chained.sites[c.site]) == "reservoirs dried" &&
               name_of(knowledge_, lantern_, c.fact) == "hum@power";
      });
  ASSERT_NE(found, chained.consequences.end());
  const auto index = static_cast<std::size_t>(found - chained.consequences.begin());
  const std::string because = "Invented for tests, so that sums can be done by hand.";
  EXPECT_THAT(tell(knowledge_, lantern_, chained, index),
              ElementsAre("ripple on +38 V rail: " + because, "hum in Power stage: " + because));
  EXPECT_EQ(path(chained, index).back(), &*found);
}

// --- Against a plain fixed point ------------------------------------------------------------

/// One step of one link, seen from a place: the slow way to say what BlockGraph and the link's
/// kinds allow.
struct Arrow {
  Fact from, to;
  double strength;
};

std::vector<Arrow> arrows(const KnowledgeBase& knowledge, const Equipment& equipment) {
  const BlockGraph graph(equipment);
  std::vector<Arrow> list;
  for (const Link& link : knowledge.links) {
    for (std::size_t p = 0; p < knowledge.phenomena.size(); ++p) {
      if (knowledge.phenomena[p].id != link.from_phenomenon) continue;
      const auto then = static_cast<std::size_t>(find(knowledge.phenomena, link.phenomenon) -
                                                 knowledge.phenomena.data());
      for (std::size_t n = 0; n < graph.size(); ++n) {
        const Location from = graph.location(n);
        if (!accepts(link.from_kinds, kind_of(equipment, from))) continue;
        for (const Location& to : graph.reached(link.reach, from)) {
          if (!accepts(link.to_kinds, kind_of(equipment, to))) continue;
          list.push_back({{p, from}, {then, to}, link.strength});
        }
      }
    }
  }
  return list;
}

TEST(Chain, EqualsTheFixedPointOfAllLinksOnRandomEquipment) {
  KnowledgeBase knowledge = tests::fixture_knowledge();
  for (const unsigned seed : {1U, 2U, 3U, 4U, 5U, 6U, 7U, 8U}) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> chance(0.0, 1.0);
    for (Link& link : knowledge.links) link.strength = 0.3 + 0.7 * chance(random);
    Equipment lantern = knowledge.equipment[0];
    for (Block& block : lantern.blocks) {
      for (const Block& other : lantern.blocks) {
        if (chance(random) < 0.4) block.signal_to.push_back(other.id);
      }
      if (chance(random) < 0.5) block.fed_by = {chance(random) < 0.5 ? "raw" : "stable"};
    }
    const auto links = arrows(knowledge, lantern);
    const Chained chained = chain(knowledge, lantern, 1e-9);
    std::map<std::size_t, std::map<Fact, double>> by_site;
    for (const Consequence& c : chained.consequences) by_site[c.site][c.fact] = c.strength;
    for (const auto& [site, found] : by_site) {
      std::map<Fact, double> best;  // what the site's own links open, then rounds until it stands
      for (const Consequence& c : chained.consequences) {
        if (c.site == site && c.before == Consequence::none) best[c.fact] = c.strength;
      }
      for (bool moved = true; moved;) {
        moved = false;
        for (const Arrow& arrow : links) {
          const auto from = best.find(arrow.from);
          if (from == best.end()) continue;
          const double way = from->second * arrow.strength;
          if (way >= 1e-9 && way > best[arrow.to] * (1.0 + 1e-12)) {
            best[arrow.to] = way;
            moved = true;
          }
        }
      }
      std::erase_if(best, [](const auto& fact) { return fact.second == 0.0; });
      ASSERT_EQ(found.size(), best.size());
      for (const auto& [fact, strength] : best) EXPECT_NEAR(found.at(fact), strength, 1e-12);
    }
  }
}

}  // namespace
}  // namespace dryout::knowledge
