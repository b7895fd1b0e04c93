// Advice that could hurt, in the shipped tree and in bad ones.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <numbers>
#include <regex>
#include <set>

#include "knowledge/cross_check.h"
#include "knowledge/fixture.h"

namespace dryout::knowledge {
namespace {

using tests::shipped_knowledge;

TEST(UnsafeAdvice, IsNowhereInTheShippedTree) {
  EXPECT_EQ(quantities::describe(unsafe_advice(shipped_knowledge())), "");
}

TEST(UnsafeAdvice, ACautionOfADangerDefers) {
  KnowledgeBase knowledge;
  for (const char* danger : {"stored-charge", "mains", "high-tension", "none"}) {
    Caution caution;
    caution.id = danger;
    caution.danger = danger;
    caution.wording = "Mind your fingers.";
    knowledge.cautions = {caution};
    EXPECT_EQ(unsafe_advice(knowledge).size(), std::string(danger) == "none" ? 0U : 1U) << danger;
  }
}

TEST(UnsafeAdvice, ReformingIsForAluminiumElectrolyticsAlone) {
  const auto found = [](const std::string& text, const std::vector<std::string>& technologies) {
    KnowledgeBase knowledge;
    CheckRule check;
    check.id = "leak";
    check.per = CheckRule::Per::group;
    check.technologies = technologies;
    check.bad = text;
    knowledge.checks = {check};
    return unsafe_advice(knowledge).size();
  };
  EXPECT_EQ(found("Leaks after re-forming.", {"wet-aluminium", "surface-mount-aluminium"}), 0U);
  EXPECT_EQ(found("Leaks after re-forming.", {"wet-aluminium", "polymer"}), 1U);
  EXPECT_EQ(found("Reform it first.", {"paper"}), 1U);
  EXPECT_EQ(found("Reform it first.", {}), 1U);
  EXPECT_EQ(found("A line part is never re-formed.", {}), 0U);
  EXPECT_EQ(found("Preformed leads; performs well; therefore.", {}), 0U);
  KnowledgeBase knowledge;
  Role role;
  role.measure = "Re-form it.";
  knowledge.roles = {role};
  EXPECT_EQ(unsafe_advice(knowledge).size(), 1U);
}

TEST(UnsafeAdvice, LinePartsAreNeverLikeForLike) {
  for (const Role& role : shipped_knowledge().roles) {
    if (role.id == "mains-x" || role.id == "mains-y") {
      const std::string text = role.because + role.measure;
      EXPECT_EQ(text.find("like for like"), std::string::npos);
      EXPECT_NE(text.find(role.id == "mains-x" ? "X1 or X2" : "Y1 or Y2"), std::string::npos);
    }
  }
  for (const CheckRule& check : shipped_knowledge().checks) {
    const std::string text = check.probes + check.good + check.bad;
    EXPECT_EQ(text.find("like for like"), std::string::npos) << check.id;
    if (text.find("three-wire") != std::string::npos) {
      EXPECT_NE(text.find("work for licensed hands"), std::string::npos) << check.id;
    }
  }
}

/// "400 V" -> 400 and so on: all numbers of a text, as written.
std::vector<std::string> numbers_in(const std::string& text) {
  static const std::regex number(R"((\d[\d ]*(,\d{3})+|\d[\d ]*\d|\d)(\.\d+)?)");
  std::vector<std::string> numbers;
  for (std::sregex_iterator at(text.begin(), text.end(), number), end; at != end; ++at) {
    numbers.push_back(at->str());
  }
  return numbers;
}

std::string shown(double value, const char* form) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), form, value);
  return text.data();
}

// Every number that a caution of a danger says is either worked out here from others, or stands
// here as a fact of the trade. A number changed or added in the file makes this fail.
TEST(UnsafeAdvice, EveryNumberInADangerousCautionIsReckonedOrNamed) {
  const double rms = std::numbers::sqrt2;
  const std::map<std::string, std::set<std::string>> reckoned{
      {"stored-charge", {shown(0.5 * 470e-6 * 325 * 325, "%.0f")}},
      {"discharge-steps",
       {shown(100.0 * std::exp(-5.0), "%.1f"), shown(60.0 / 180.0, "%.2f"),
        shown(5 * 180 * 0.01, "%.0f")}},
      {"high-voltage-bank", {shown(0.5 * 220e-6 / 8 * 2500 * 2500, "%.0f")}},
      {"primary-side", {shown(120 * rms, "%.0f"), shown(230 * rms, "%.0f")}},
      {"flash-charge", {shown(0.5 * 800e-6 * 330 * 330, "%.0f")}},
      {"series-lamp", {shown(100.0 / 230, "%.2f"), shown(100.0 / 120, "%.2f")}},
  };
  // 10 to 20 days: Nippon Chemi-Con FAQ 29BDH12. 0.2 A, 5 V, 60 V, 100 V, 500 V, 1 kV, 45 C, the
  // kilovolts of tubes, lamps and X-rays: common practice. 20 W and 80 W: circuit/discharge.h
  // (judgement). 0.3 ohm: in-service limit, from memory.
  const std::map<std::string, std::set<std::string>> named{
      {"stored-charge", {"470", "325", "5", "10", "20"}},
      {"discharge-steps",
       {"400", "100", "0.2", "20", "80", "2.2", "15", "470", "180", "5", "60", "10,000", "1"}},
      {"high-tension", {"500"}},
      {"high-voltage-bank", {"220", "2500"}},
      {"crt", {"10", "27", "2", "4", "15"}},
      {"primary-side", {"400", "5"}},
      {"series-lamp", {"100", "230", "120"}},
      {"slow-start", {"45"}},
      {"reforming", {"1", "100", "45"}},
      {"insulation-test", {"500"}},
      {"x-rays", {"15"}},
      {"protective-earth", {"0.3"}},
      {"inverter-supply", {"12", "500", "1500"}},
      {"flash-charge", {"800", "330", "2", "10", "5"}},
  };
  const auto of = [](const auto& map, const std::string& id) {
    const auto found = map.find(id);
    return found == map.end() ? std::set<std::string>() : found->second;
  };
  for (const Caution& caution : shipped_knowledge().cautions) {
    if (caution.danger == "none") {
      continue;
    }
    const std::string text = caution.title + ' ' + caution.because + ' ' + caution.wording;
    const std::vector<std::string> said = numbers_in(text);
    const std::set<std::string> worked = of(reckoned, caution.id);
    const std::set<std::string> facts = of(named, caution.id);
    for (const std::string& number : said) {
      // A letter before it makes it a class (X1), not a number.
      const bool a_class = text.find("X" + number) != std::string::npos ||
                           text.find("Y" + number) != std::string::npos;
      EXPECT_TRUE(worked.contains(number) || facts.contains(number) || a_class)
          << caution.id << " says " << number;
    }
    for (const std::string& number : worked) {
      EXPECT_NE(std::find(said.begin(), said.end(), number), said.end())
          << caution.id << " should say " << number;
    }
  }
}

TEST(UnsafeAdvice, TheHazardsOfOldEquipmentAreAllThere) {
  for (const char* id :
       {"mercury", "asbestos-selenium", "beryllia", "radium-cadmium", "backup-cells",
        "old-oil-parts", "rcd-isolation", "implosion", "laser", "inverter-supply", "x-rays"}) {
    const Caution* caution = find(shipped_knowledge().cautions, id);
    ASSERT_NE(caution, nullptr) << id;
    EXPECT_FALSE(caution->because.empty()) << id;
  }
  const auto has = [](const char* equipment, const char* id) {
    const auto& hazards = find(shipped_knowledge().equipment, equipment)->hazards;
    return std::find(hazards.begin(), hazards.end(), id) != hazards.end();
  };
  EXPECT_TRUE(has("crt-monitor", "implosion"));
  EXPECT_TRUE(has("crt-monitor", "x-rays"));
  EXPECT_TRUE(has("hf-linear-amplifier", "mercury"));
  EXPECT_TRUE(has("valve-series-receiver", "rcd-isolation"));
  // What keeps a memory alive holds a cell.
  for (const Equipment& equipment : shipped_knowledge().equipment) {
    for (const Rail& rail : equipment.rails) {
      if (rail.kind == "backup") {
        EXPECT_TRUE(has(equipment.id.c_str(), "backup-cells")) << equipment.id;
      }
    }
  }
}

}  // namespace
}  // namespace dryout::knowledge
