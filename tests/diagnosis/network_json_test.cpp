#include "diagnosis/network_json.h"

#include <gtest/gtest.h>

#include <ostream>

namespace dryout::diagnosis {
namespace {

constexpr const char* two_parts = R"({
  "cohorts": [{"id": "k1", "levels": [0.5, 0.3, 0.2]}],
  "items": [
    {"id": "C1", "cohort": "k1", "states": ["sound", "tired", "dried"],
     "given_level": [[0.98, 0.015, 0.005], [0.7, 0.2, 0.1], [0.2, 0.4, 0.4]]},
    {"id": "Q1", "states": ["sound", "failed"], "prior": [0.98, 0.02]}],
  "findings": [
    {"id": "hum", "leak": 0.02, "causes": [{"item": "C1", "state": "dried", "strength": 0.9}]},
    {"id": "ripple", "leak": 0.01, "causes": []}],
  "evidence": {"present": ["hum"], "absent": [],
               "soft": [{"finding": "ripple", "present": 0.9, "absent": 0.05}],
               "readings": [{"item": "C1", "likelihood": [0.1, 0.6, 0.9]}]}})";

quantities::Result<NetworkFile> read(const std::string& text) {
  auto document = documents::parse(text, "net.json");
  EXPECT_TRUE(document) << describe(document.problems());
  return read_network(*document);
}

/// The file with one stretch of text replaced.
std::string with(std::string from, const std::string& to) {
  std::string text = two_parts;
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

TEST(ReadNetwork, TakesEveryPartOfTheForm) {
  const auto file = read(two_parts);
  ASSERT_TRUE(file) << describe(file.problems());
  EXPECT_EQ(file->network.items[0].cohort, 0U);
  EXPECT_EQ(file->network.findings[0].causes[0].state, 2U);
  EXPECT_EQ(file->evidence.present, (std::vector<std::size_t>{0}));
  EXPECT_EQ(file->evidence.soft[0].if_absent, 0.05);
  EXPECT_EQ(file->evidence.readings[0].likelihood.size(), 1U);
}

TEST(ReadNetwork, TakesAReadingWithOneRowPerLevel) {
  const auto file = read(with("[0.1, 0.6, 0.9]", "[[0.1, 0.6, 0.9], [0.1, 0.5, 0.9], [0, 0, 1]]"));
  ASSERT_TRUE(file) << describe(file.problems());
  EXPECT_EQ(file->evidence.readings[0].likelihood[2][2], 1.0);
}

TEST(ReadNetwork, TakesANetworkWithoutCohortsAndWithoutEvidence) {
  const auto file = read(R"({"items": [{"id": "a", "states": ["s", "f"], "prior": [0.5, 0.5]}],
                             "findings": []})");
  ASSERT_TRUE(file) << describe(file.problems());
  EXPECT_TRUE(file->evidence.present.empty());
}

TEST(ReadNetwork, RescalesRowsThatSumToOneWithinAMillionth) {
  const auto file = read(with("[0.98, 0.02]", "[0.98, 0.0200009]"));
  ASSERT_TRUE(file) << describe(file.problems());
  const std::vector<double>& prior = file->network.items[1].given_level[0];
  EXPECT_DOUBLE_EQ(prior[0] + prior[1], 1.0);
}

struct Refusal {
  const char* from;
  const char* to;
  const char* told;  ///< a part of the complaint
};

void PrintTo(const Refusal& refusal, std::ostream* out) {
  *out << refusal.from << " -> " << refusal.to;
}

class Refused : public testing::TestWithParam<Refusal> {};

TEST_P(Refused, NamesFileLineAndPlace) {
  const auto file = read(with(GetParam().from, GetParam().to));
  ASSERT_FALSE(file);
  const std::string told = describe(file.problems());
  EXPECT_NE(told.find(GetParam().told), std::string::npos) << told;
  EXPECT_EQ(told.rfind("net.json:", 0), 0U) << told;
  EXPECT_GT(file.problems().front().place.line, 0) << told;
}

INSTANTIATE_TEST_SUITE_P(
    ReadNetwork, Refused,
    testing::Values(
        Refusal{R"("leak": 0.02)", R"("leek": 0.02)", "unknown key"},
        Refusal{"[0.98, 0.02]", "[0.98, 0.03]", "(/items/1/prior): probabilities do not sum to 1"},
        Refusal{"[0.7, 0.2, 0.1]", "[0.7, 0.2, 0.2]", "/items/0/given_level/1"},
        Refusal{"[0.7, 0.2, 0.1]", "[0.7, 0.3]", "wrong number of probabilities"},
        Refusal{"[0.7, 0.2, 0.1], ", "", "wrong number of rows"},
        Refusal{"[0.5, 0.3, 0.2]", "[0.5, 0.3, 0.3]", "/cohorts/0/levels"},
        Refusal{"[0.5, 0.3, 0.2]", "[]", "/cohorts/0/levels"},
        Refusal{R"("id": "Q1")", R"("id": "C1")", "taken already"},
        Refusal{R"("causes": []})", R"("causes": []}, {"id": "hum", "leak": 0, "causes": []})",
                "taken already"},
        Refusal{R"("strength": 0.9)", R"("strength": 1.1)", "probability out of range"},
        Refusal{R"("strength": 0.9)", R"("strength": -0.1)", "probability out of range"},
        Refusal{R"("leak": 0.02)", R"("leak": 2)", "/findings/0/leak"},
        Refusal{R"("state": "dried")", R"("state": "wet")", "no state of the item"},
        Refusal{R"("item": "C1", "state")", R"("item": "C9", "state")", "did you mean"},
        Refusal{R"("cohort": "k1")", R"("cohort": "k9")", "names no cohort"},
        Refusal{R"("present": ["hum"])", R"("present": ["humm"])", "did you mean \"hum\""},
        Refusal{R"("present": ["hum"])", R"("present": ["hum", "hum"])", "named twice"},
        Refusal{R"("present": ["hum"])", R"("present": [1])", "wrong kind of value"},
        Refusal{R"("present": 0.9)", R"("present": -0.9)", "likelihood out of range"},
        Refusal{"[0.1, 0.6, 0.9]", "[0.1, 0.6]", "wrong number of likelihoods"},
        Refusal{"[0.1, 0.6, 0.9]", "[[0.1, 0.6, 0.9], [0.1, 0.6, 0.9]]", "wrong number of rows"},
        Refusal{"[0.1, 0.6, 0.9]", "[0.1, 0.6, -1]", "likelihood out of range"},
        Refusal{R"(["sound", "failed"])", R"(["sound"])", "too few states"},
        Refusal{R"(["sound", "failed"])", R"(["failed", "failed"])", "named twice"},
        Refusal{R"("prior": [0.98, 0.02])",
                R"("prior": [0.98, 0.02], "given_level": [[0.98, 0.02]])", "no place here"},
        Refusal{R"("states": ["sound", "failed"], "prior": [0.98, 0.02])",
                R"("states": ["sound", "failed"])", "\"prior\" is missing"}));

TEST(ToJson, GivesLogEvidenceAndPosteriorsByName) {
  const auto file = read(two_parts);
  ASSERT_TRUE(file);
  const auto posterior = infer(file->network, file->evidence);
  ASSERT_TRUE(posterior);
  const documents::Value json = to_json(file->network, *posterior);
  EXPECT_EQ(*json.find("log_evidence")->number(), posterior->log_evidence);
  const documents::Value& item = (*json.find("items")->array_elements())[0];
  EXPECT_EQ(*item.find("id")->text(), "C1");
  EXPECT_EQ(*item.find("posterior")->find("dried")->number(), posterior->items[0][2]);
  const documents::Value& cohort = (*json.find("cohorts")->array_elements())[0];
  EXPECT_EQ(cohort.find("posterior")->array_elements()->size(), 3U);
  const documents::Value& hum = (*json.find("findings")->array_elements())[0];
  EXPECT_EQ(*hum.find("present")->number(), 1.0);
}

}  // namespace
}  // namespace dryout::diagnosis
