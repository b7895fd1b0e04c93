// What is bought for every group of every shipped equipment, where the mains or alternating volts
// lie across it. The kind of mistake: a rule that goes by a rail's name, and a part on another rail
// that meets the same volts.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "casework/parts_list.h"
#include "knowledge/mains_side.h"
#include "shipped_bench.h"

namespace dryout::casework {
namespace {

using decision::Substitute;
using knowledge::Equipment;
using knowledge::PartGroup;

const decision::SubstitutionRules& substitution_rules() {
  static const auto rules = *decision::load_substitution_rules({DRYOUT_SOURCE_DIR});
  return rules;
}

std::string technology_of(const PartGroup& group) {
  const auto& knowledge = tests::shipped_knowledge();
  return group.technology.empty() ? knowledge::find(knowledge.roles, group.role)->technology
                                  : group.technology;
}

Substitute bought(const Equipment& equipment, const PartGroup& group) {
  return substitute_for(need_of_group(equipment, group, technology_of(group)),
                        substitution_rules());
}

template <class Visit>
void for_each_group(const Visit& visit) {
  for (const Equipment& equipment : tests::shipped_knowledge().equipment) {
    for (const PartGroup& group : equipment.groups) {
      SCOPED_TRACE(equipment.id + "/" + group.id);
      visit(equipment, group);
    }
  }
}

bool one_of(const std::string& word, std::initializer_list<const char*> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_electrolytic(const std::string& technology) {
  return one_of(technology, {"wet-aluminium", "surface-mount-aluminium", "bipolar-aluminium",
                             "solid-tantalum", "polymer", "supercap"});
}

void expect_class_or_alternating_volts(const Equipment& equipment, const PartGroup& group) {
  const Substitute fit = bought(equipment, group);
  const auto* rail = knowledge::find(equipment.rails, group.rail);
  const double volts = rail == nullptr ? 0.0 : std::abs(rail->volts);
  if (group.role == "mains-x") {
    EXPECT_TRUE(fit.certified && fit.safety_class.starts_with('X'));
  } else if (group.role == "mains-y") {
    EXPECT_TRUE(fit.certified && fit.safety_class.starts_with('Y'));
  } else if (group.role == "motor-run") {
    EXPECT_TRUE(fit.certified);
    EXPECT_GE(fit.rated.si(), 253.0);
  } else if (group.role == "rectifier-suppressor" && knowledge::is_on_the_mains(equipment, group)) {
    EXPECT_EQ(fit.safety_class, "X1");
  } else if (group.role == "rectifier-suppressor") {
    EXPECT_GE(fit.rated.si(), 2.0 * volts);
    if (volts > 60.0) {
      EXPECT_TRUE(fit.pulse_rated);
      EXPECT_GE(fit.ac_min.si(), volts);
    }
  } else if (is_electrolytic(technology_of(group))) {
    return;
  } else if (rail != nullptr && one_of(rail->kind, {"mains", "series-heater"})) {
    EXPECT_TRUE(fit.certified && !fit.safety_class.empty());
  } else if (rail != nullptr && rail->kind == "secondary") {
    EXPECT_TRUE(fit.pulse_rated);
    EXPECT_GE(fit.ac_min.si(), volts);
  } else if (technology_of(group) == "mains-film" ||
             (group.role == "motor-suppressor" && knowledge::is_on_the_mains(equipment, group))) {
    EXPECT_TRUE(fit.certified && !fit.safety_class.empty());
  } else if (one_of(group.role,
                    {"smps-snubber", "deflection", "vibrator-buffer", "flyback-tuning"})) {
    EXPECT_TRUE(fit.pulse_rated || fit.technology == "ceramic");
  }
}

TEST(BoughtParts, MeetTheMainsByClassAndAlternatingVoltsByTheirRating) {
  for_each_group(expect_class_or_alternating_volts);
}

TEST(BoughtParts, AreTheSameWhateverTheRailIsCalled) {
  // The rectified rails of a set without a transformer, under any other kind.
  for (Equipment equipment : tests::shipped_knowledge().equipment) {
    if (std::find(equipment.hazards.begin(), equipment.hazards.end(), "live-chassis") ==
        equipment.hazards.end()) {
      continue;
    }
    for (const char* kind : {"raw", "regulated", "high-tension", "primary", "battery"}) {
      for (knowledge::Rail& rail : equipment.rails) {
        rail.kind = rail.kind == "mains" || rail.kind == "series-heater" ? rail.kind : kind;
      }
      for (const PartGroup& group : equipment.groups) {
        SCOPED_TRACE(equipment.id + "/" + group.id + " on " + kind);
        expect_class_or_alternating_volts(equipment, group);
      }
    }
  }
}

// In-service limits 0.25 and 0.75 mA (rules/checks/mains_and_first_power.json, from memory), of the
// sum of all that bridges to one metal (IEC 60990, from memory), whatever the old ones are made of.
TEST(BoughtParts, TogetherLetNoMoreThroughThanTheSetMay) {
  for (const Equipment& equipment : tests::shipped_knowledge().equipment) {
    const bool earthed = std::find(equipment.hazards.begin(), equipment.hazards.end(),
                                   "protective-earth") != equipment.hazards.end();
    for (const char* old : {"", "paper", "ceramic", "mains-film", "film", "mica"}) {
      std::map<bool, double> milliamperes;  // by whether it goes to the output
      for (const PartGroup& group : equipment.groups) {
        if (group.role != "mains-y") {
          continue;
        }
        const decision::PartNeed need =
            need_of_group(equipment, group, *old == 0 ? technology_of(group) : old);
        const Substitute fit = substitute_for(need, substitution_rules());
        const bool to_output = need.rail_kind == "primary";
        milliamperes[to_output] +=
            group.count * 1e3 * decision::touch_current(fit.capacitance, need.mains).si();
        EXPECT_EQ(fit.safety_class, earthed && !to_output ? "Y2" : "Y1")
            << equipment.id << '/' << group.id << ' ' << old;
      }
      EXPECT_LE(milliamperes[false], earthed ? 0.75 : 0.25) << equipment.id << ' ' << old;
      EXPECT_LE(milliamperes[true], 0.25) << equipment.id << ' ' << old;
    }
  }
}

// Winding x 1.414 x 1.1 (capacitor-input rectifier without load, textbook; mains a tenth high: EN
// 50160, from memory), reckoned here from the equipment's own winding or mains.
TEST(BoughtParts, OnHighTensionStandTheUnloadedPeak) {
  std::size_t tried = 0;
  for_each_group([&](const Equipment& equipment, const PartGroup& group) {
    double alternating = 0.0;
    for (const knowledge::Rail& rail : equipment.rails) {
      const bool winding = rail.kind == "secondary";
      alternating =
          winding || (alternating == 0.0 && rail.kind == "mains") ? rail.volts : alternating;
    }
    const auto* rail = knowledge::find(equipment.rails, group.rail);
    const auto* block = knowledge::find(equipment.blocks, group.block);
    const auto fed_by = [&](const char* kind) {
      return std::any_of(block->fed_by.begin(), block->fed_by.end(), [&](const std::string& id) {
        return knowledge::find(equipment.rails, id)->kind == kind;
      });
    };
    const bool couples = one_of(group.role, {"grid-coupling"}) && fed_by("high-tension");
    const bool on_it = rail != nullptr && rail->kind == "high-tension";
    const bool of_a_string =
        on_it && rail->volts > group.rated.si() && is_electrolytic(technology_of(group));
    if ((!on_it && !couples) || of_a_string) {
      return;
    }
    ++tried;
    const double peak = alternating * 1.4142 * 1.1 + (couples && fed_by("bias") ? 50.0 : 0.0);
    const Substitute fit = bought(equipment, group);
    EXPECT_GE(fit.certified ? fit.rated.si() * 1.4142 : fit.rated.si(), peak - 0.5);
  });
  EXPECT_GE(tried, 30U);
}

/// By hand, as an old hand would order; the figures are the least.
TEST(BoughtParts, AsAnOldHandOrders) {
  struct Order {
    const char* safety_class;
    double volts;
    double ac;
  };
  const std::map<std::string, Order> orders{
      {"valve-series-receiver/line-part", {"X2", 253, 0}},
      {"valve-series-receiver/chassis-part", {"Y1", 250, 0}},
      {"valve-series-receiver/rectifier-part", {"X1", 440, 0}},
      {"valve-am-receiver/line-bypass", {"Y1", 250, 0}},
      {"valve-am-receiver/buffer", {"", 1000, 500}},
      {"open-reel-deck/relay-sparks", {"X2", 253, 0}},
      {"industrial-controller/relay-sparks", {"X2", 253, 0}},
      {"vibrator-car-radio/buffer", {"", 1600, 400}},
      {"switch-mode-supply/bridge-y", {"Y1", 250, 0}},
      {"switch-mode-supply/y-parts", {"Y2", 250, 0}},
      {"valve-series-receiver/aerial-block", {"Y1", 250, 0}},
      {"valve-guitar-amplifier/grid-couplings", {"", 563, 0}},
      {"valve-guitar-amplifier/preamp-section", {"", 513, 0}},
      {"valve-am-receiver/reservoir", {"", 467, 0}},
      {"valve-am-receiver/screens", {"", 467, 0}},
      {"valve-am-receiver/rf-bypass", {"", 467, 0}},
      {"stereo-receiver/suppressors", {"", 114, 0}},
      {"crt-monitor/flyback-tuning", {"", 1600, 0}},
  };
  std::size_t found = 0;
  for_each_group([&](const Equipment& equipment, const PartGroup& group) {
    const auto order = orders.find(equipment.id + "/" + group.id);
    if (order == orders.end()) {
      return;
    }
    ++found;
    const Substitute fit = bought(equipment, group);
    EXPECT_EQ(fit.safety_class, order->second.safety_class);
    EXPECT_GE(fit.rated.si(), order->second.volts);
    EXPECT_GE(fit.ac_min.si(), order->second.ac);
  });
  EXPECT_EQ(found, orders.size());
}

TEST(MainsSide, ATransformerPartsARailFromTheMains) {
  std::map<std::string, int> on_it;
  for (const Equipment& equipment : tests::shipped_knowledge().equipment) {
    for (const knowledge::Rail& rail : equipment.rails) {
      on_it[equipment.id] += knowledge::is_on_the_mains(equipment, rail.id) ? 1 : 0;
    }
  }
  EXPECT_EQ(on_it["valve-am-receiver"], 1) << "the mains alone";
  EXPECT_EQ(on_it["valve-series-receiver"], 4) << "mains, heaters, and both high tensions";
  EXPECT_EQ(on_it["switch-mode-supply"], 2) << "mains and bulk, no output";
  EXPECT_EQ(on_it["car-radio"], 0);
}

}  // namespace
}  // namespace dryout::casework
