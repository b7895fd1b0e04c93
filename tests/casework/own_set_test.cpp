#include "casework/own_set.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::HasSubstr;

const char* const parts =
    "Ref,Value,Volts,Technology,Block,Role\n"
    "\"C1,C2\",10000u,50,electrolytic,rectifier,reservoir\n"
    "C3,22u,35,electrolytic,power-left,bootstrap\n"
    "C4,1u,35,electrolytic,power-left,humming\n"
    "R1,10k,,,,\n";

/// Files in memory.
class OwnSets : public testing::Test {
 protected:
  OwnSets() {
    OwnFiles files;
    files.read = [this](const std::string& path) -> quantities::Result<std::string> {
      if (files_.contains(path)) return files_[path];
      return quantities::Problem{"no such file", {path, 0, {}}, "", "a file"};
    };
    files.keep = [this](const std::string& name, const std::string& text,
                        bool replace) -> quantities::Result<std::string> {
      if (files_.contains(name) && !replace) {
        return quantities::Problem{"this file is there already", {name, 0, {}}, "", ""};
      }
      files_[name] = text;
      return name;
    };
    workshop_->give_files(std::move(files));
    files_["parts.csv"] = parts;
  }
  OwnSetWish wish() const { return {"parts.csv", "stereo-receiver", "my-set", "My set"}; }

  std::map<std::string, std::string> files_;
  std::unique_ptr<Workshop> workshop_ = open_shipped();
};

TEST_F(OwnSets, AreKnownAtOnceAndACaseCanStandOnThem) {
  const auto set = workshop_->keep_own_set(wish());
  ASSERT_TRUE(set.ok()) << quantities::describe(set.problems());
  EXPECT_TRUE(files_.contains("rules/equipment/my-set.json"));
  EXPECT_EQ(set->placed, 3);
  EXPECT_EQ(set->missing.size(), 1U);
  EXPECT_EQ(set->others.at("R"), 1);
  const std::int64_t number = start_on(*workshop_, "my-set");
  const auto view = workshop_->view(number);
  ASSERT_TRUE(view.ok());
  EXPECT_EQ(view->equipment_title, "My set");
  bool listed = false;
  for (const EquipmentChoice& choice : workshop_->catalogue().equipment) {
    listed = listed || choice.id == "my-set";
  }
  EXPECT_TRUE(listed);
}

TEST_F(OwnSets, MayTakeThePlaceOfOneThatAnOpenCaseStandsOn) {
  ASSERT_TRUE(workshop_->keep_own_set(wish()).ok());
  const std::int64_t number = start_on(*workshop_, "my-set");
  ASSERT_TRUE(workshop_->view(number).ok());
  OwnSetWish again = wish();
  EXPECT_FALSE(workshop_->keep_own_set(again).ok()) << "overwritten without being asked";
  again.replace = true;
  again.only_listed = true;
  ASSERT_TRUE(workshop_->keep_own_set(again).ok());
  const auto view = workshop_->view(number);
  ASSERT_TRUE(view.ok());
  int groups = 0;
  for (const SuspectView& each : view->suspects) groups += each.kind == "group" ? 1 : 0;
  EXPECT_EQ(groups, 2);
}

TEST_F(OwnSets, RefusedInputWritesNothing) {
  files_["parts.csv"] = "Ref,Value\nC1,many\n";
  const auto set = workshop_->keep_own_set(wish());
  ASSERT_FALSE(set.ok());
  EXPECT_THAT(quantities::describe(set.problems()), HasSubstr("parts.csv:2 (column 2, Value)"));
  EXPECT_EQ(files_.size(), 1U);
  EXPECT_EQ(workshop_->catalogue().equipment.size(), shipped_knowledge().equipment.size());
}

TEST_F(OwnSets, LookingAtOneWritesNothing) {
  ASSERT_TRUE(workshop_->look_at_own_set(wish()).ok());
  EXPECT_EQ(files_.size(), 1U);
}

}  // namespace
}  // namespace dryout::casework
