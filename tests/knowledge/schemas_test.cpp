// The JSON Schemas beside the files say the same as the loader: every shipped file is valid, and
// what a schema refuses, lint refuses. (Lint sees more: ids of other files, sums, cycles.)
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdio>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "knowledge/bad_files.h"

namespace dryout::knowledge {
namespace {

const std::string source = DRYOUT_SOURCE_DIR;
constexpr int missing_module = 77;  // agreed with validate_schemas.py

struct Answer {
  int exit_code = -1;
  std::string text;
};

/// Debian's own Python, whose python3-jsonschema third_party/bootstrap.sh installs.
Answer validate(const std::vector<std::string>& files) {
  std::string command =
      "/usr/bin/python3 '" + source + "/tests/knowledge/validate_schemas.py' '" + source + "'";
  for (const std::string& file : files) command += " '" + file + "'";
  Answer answer;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) {
    return answer;
  }
  char buffer[4096];
  while (fgets(buffer, sizeof buffer, pipe) != nullptr) answer.text += buffer;
  const int status = pclose(pipe);
  answer.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return answer;
}

const Answer& the_shipped_tree() {
  static const Answer answer = validate({});
  return answer;
}

class Schemas : public ::testing::Test {
 protected:
  void SetUp() override {
    if (the_shipped_tree().exit_code == missing_module) {
      GTEST_SKIP() << "python3-jsonschema is missing: schemas are not checked";
    }
  }
};

TEST_F(Schemas, HoldForEveryShippedFile) {
  EXPECT_EQ(the_shipped_tree().exit_code, 0) << the_shipped_tree().text;
}

TEST_F(Schemas, HoldForTheFixture) {
  const std::filesystem::path fixture = source + "/tests/knowledge/fixture";
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(fixture)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path().string());
  }
  const Answer answer = validate(files);
  EXPECT_EQ(answer.exit_code, 0) << answer.text;
}

/// Faults of form: a schema must see them. The others need more than one file, or arithmetic.
const std::set<std::string> faults_of_form = {
    "ageing_without_steps",    "cause_prior_above_one",       "caution_nowhere",
    "caution_unknown_danger",  "check_certain_false_alarm",   "check_detects_on_rail",
    "check_minutes_as_text",   "check_of_group_that_sees",    "check_sees_nothing",
    "check_unknown_state",     "equipment_before_radio",      "equipment_no_parts",
    "link_capital_id",         "link_list_is_no_list",        "link_mode_without_role",
    "link_role_without_mode",  "link_schema_from_the_future", "link_second_list",
    "link_short_because",      "link_source_without_place",   "link_strange_source",
    "link_too_strong",         "link_two_openings",           "link_unknown_member",
    "link_unknown_reach",      "link_without_because",        "link_without_source",
    "link_without_strength",   "phenomenon_at_nowhere",       "equipment_rail_through_air",
    "equipment_unknown_path",  "phenomenon_names_no_place",   "role_negative_odds",
    "symptom_leak_of_nothing", "symptom_shows_nothing",       "technology_probability_above_one"};

TEST_F(Schemas, RefuseEveryFaultOfForm) {
  std::vector<std::string> files;
  for (const tests::BadFile& bad : tests::bad_files) {
    files.push_back(source + "/tests/knowledge/bad/" + bad.name + ".json");
  }
  const Answer answer = validate(files);
  EXPECT_EQ(answer.exit_code, 1) << answer.text;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const std::string name = tests::bad_files[i].name;
    const bool refused = answer.text.find(files[i] + " (") != std::string::npos;
    EXPECT_EQ(refused, faults_of_form.contains(name)) << name;
  }
}

}  // namespace
}  // namespace dryout::knowledge
