// Every file of tests/knowledge/bad has one fault. Laid over the fixture tree, lint must name the
// file, the place in it and the fault; and every way to be wrong that a schema can see, it must
// see too (schemas_test.cpp).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "knowledge/bad_files.h"
#include "knowledge/fixture.h"
#include "knowledge/load.h"
#include "temporary_folder.h"

namespace dryout::knowledge {
namespace {

using tests::fixture;
namespace fs = std::filesystem;
using quantities::Problem;
using quantities::Problems;
using ::testing::HasSubstr;

const fs::path bad_folder = DRYOUT_SOURCE_DIR "/tests/knowledge/bad";

/// "link_unknown_role" -> rules/links/: the first word says what it is a file of.
std::string folder_of(const std::string& name) {
  const std::string first = name.substr(0, name.find('_'));
  if (first == "symptom") return "symptoms";
  if (first == "ageing" || first == "era") return "rules";
  if (first == "phenomenon") return "rules/phenomena";
  if (first == "technology") return "rules/technologies";
  return "rules/" + first + (first == "equipment" ? "" : "s");
}

/// Eras and ageing are single files; the others may have any name.
std::string file_name_of(const std::string& name) {
  const std::string first = name.substr(0, name.find('_'));
  if (first == "era") return "eras.json";
  return (first == "ageing" ? first : name) + ".json";
}

class BadFile : public ::testing::TestWithParam<tests::BadFile> {};

TEST_P(BadFile, IsRefusedByNameAndPlace) {
  const tests::BadFile& bad = GetParam();
  const dryout::tests::TemporaryFolder own;
  const fs::path folder = own.path() / folder_of(bad.name);
  fs::create_directories(folder);
  const std::string file = (folder / file_name_of(bad.name)).string();
  fs::copy_file(bad_folder / (std::string(bad.name) + ".json"), file);

  const Problems faults = lint({fixture, own.path().string()}).faults;
  ASSERT_EQ(faults.size(), 1U) << quantities::describe(faults);
  EXPECT_EQ(faults[0].place.file, file);
  EXPECT_EQ(faults[0].place.pointer, bad.pointer);
  EXPECT_GT(faults[0].place.line, 0);
  EXPECT_THAT(faults[0].message, HasSubstr(bad.message));
  EXPECT_THAT(faults[0].accepted, HasSubstr(bad.accepted));
  EXPECT_FALSE(load({fixture, own.path().string()}).ok());
}

INSTANTIATE_TEST_SUITE_P(Corpus, BadFile, ::testing::ValuesIn(tests::bad_files),
                         [](const auto& row) { return row.param.name; });

TEST(BadFiles, AreAllExpected) {
  std::set<std::string> expected;
  for (const tests::BadFile& bad : tests::bad_files) expected.insert(bad.name);
  std::set<std::string> present;
  for (const auto& entry : fs::directory_iterator(bad_folder)) {
    present.insert(entry.path().stem().string());
  }
  EXPECT_EQ(present, expected);
}

TEST(Lint, FindsNothingWrongWithTheFixture) {
  const LintReport report = lint({fixture});
  EXPECT_EQ(quantities::describe(report.faults), "");
  EXPECT_EQ(quantities::describe(report.warnings), "");
}

}  // namespace
}  // namespace dryout::knowledge
