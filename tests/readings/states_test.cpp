#include "readings/states.h"

#include <gtest/gtest.h>

#include <numeric>
#include <set>

#include "documents/parse.h"
#include "priors.h"

namespace dryout::readings {
namespace {

knowledge::Ageing two_steps() {
  knowledge::Ageing ageing;
  ageing.levels = {"fresh", "spent"};
  ageing.steps = {{10.0, {0.9, 0.1}}, {1000.0, {0.2, 0.8}}};
  return ageing;
}

TEST(States, PriorsComeFromTheTechnologyAndTheAge) {
  knowledge::Technology technology;
  technology.modes = {{"dried", {0.001, 0.1}}, {"tired", {0.01, 0.3}}};
  const Priors young = priors_of(technology, two_steps(), 8.0);
  const Priors old = priors_of(technology, two_steps(), 35.0);
  EXPECT_EQ(young.states, (std::vector<std::string>{"sound", "dried", "tired"}));
  EXPECT_EQ(young.levels, (std::vector<double>{0.9, 0.1}));
  EXPECT_EQ(old.levels, (std::vector<double>{0.2, 0.8}));
  EXPECT_NEAR(old.given_level[1][0], 0.6, 1e-12);
  for (const auto& row : old.given_level) {
    EXPECT_NEAR(std::accumulate(row.begin(), row.end(), 0.0), 1.0, 1e-12);
  }
}

TEST(States, ResistanceClimbsFromSoundOverTiredToDriedAndWithAge) {
  for (const double age : {0.0, 0.5, 1.0}) {
    EXPECT_LT(resistance_spread("sound", age).median, 1.0);
    EXPECT_GT(resistance_spread("tired", age).median, 1.0);
    EXPECT_GT(resistance_spread("dried", age).median, 2.0 * resistance_spread("tired", age).median);
  }
  EXPECT_LT(resistance_spread("sound", 0.0).median, resistance_spread("sound", 1.0).median);
}

TEST(States, AModeNobodyHasMeasuredReadsLikeASoundPart) {
  EXPECT_EQ(resistance_spread("microphonic", 0.5).median, resistance_spread("sound", 0.5).median);
}

TEST(States, LimitsAndCaveatsNameOnlyTechnologiesOfTheKnowledgeTree) {
  const auto document = documents::read_file(std::string(DRYOUT_SOURCE_DIR) +
                                             "/rules/technologies/technologies.json");
  ASSERT_TRUE(document.ok());
  std::set<std::string> known;
  for (const documents::Value& t : *document->root.find("technologies")->array_elements()) {
    known.insert(*t.find("id")->text());
  }
  for (const LimitRow& row : shipped_knowledge().limits.rows) {
    EXPECT_EQ(known.count(row.technology), 1U) << row.id;
  }
  for (const Caveat& caveat : shipped_knowledge().caveats) {
    for (const std::string& technology : caveat.when.technologies) {
      EXPECT_EQ(known.count(technology), 1U) << caveat.id << ": " << technology;
    }
  }
}

}  // namespace
}  // namespace dryout::readings
