#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "planning/plan.h"

namespace dryout::planning {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

constexpr const char* example = R"({
 "faults": [{"id":"a","prior":5},{"id":"b","prior":3},{"id":"c","prior":2}],
 "access": [{"id":"cover","minutes":2,"needs":[]},{"id":"shield","minutes":5,"needs":["cover"]}],
 "repairs": [{"id":"fix-a","fixes":["a"],"minutes":6,"access":[]},
             {"id":"fix-bc","fixes":["b","c"],"minutes":9,"access":["shield"]}],
 "checks": [{"id":"ripple","minutes":1,"access":["cover"],"outcomes":["high","low"],
             "given":{"a":[1,0],"b":[0,1],"c":[0,1]}}],
 "give_up_minutes": 120 })";

quantities::Result<TroubleshootingProblem> read(const std::string& text) {
  const auto document = documents::parse(text, "p.json");
  EXPECT_TRUE(document.ok());
  return read_problem(*document);
}

std::string replaced(const std::string& from, const std::string& to) {
  std::string text = example;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

/// What the reader says of the example with one part replaced.
std::string refusal(const std::string& from, const std::string& to) {
  const auto problem = read(replaced(from, to));
  return problem.ok() ? "accepted" : quantities::describe(problem.problems());
}

TEST(ReadProblem, NormalisesPriorsAndResolvesIds) {
  const auto problem = read(example);
  ASSERT_TRUE(problem.ok());
  EXPECT_DOUBLE_EQ(problem->faults[0].prior, 0.5);
  EXPECT_EQ(problem->access[1].needs, std::vector<std::size_t>{0});
  EXPECT_EQ(problem->repairs[1].fixes, (std::vector<std::size_t>{1, 2}));
  EXPECT_EQ(problem->checks[0].given[2], (std::vector<double>{0.0, 1.0}));
}

TEST(ReadProblem, NamesPlaceFindingAndWhatIsAccepted) {
  EXPECT_THAT(refusal(R"("prior":3)", R"("prior":-3)"),
              AllOf(HasSubstr("p.json:2"), HasSubstr("/faults/1/prior"), HasSubstr("-3")));
  EXPECT_THAT(refusal(R"("b":[0,1])", R"("b":[0.3,0.6])"),
              AllOf(HasSubstr("/checks/0/given"), HasSubstr("0.9"), HasSubstr("sum to 1")));
  EXPECT_THAT(refusal(R"("b":[0,1])", R"("b":[1])"), HasSubstr("row of b"));
  EXPECT_THAT(refusal(R"(,"c":[0,1])", ""), HasSubstr("/checks/0/given"));
  EXPECT_THAT(refusal(R"("c":[0,1])", R"("c":[0,1],"d":[0,1])"), HasSubstr("not listed"));
  EXPECT_THAT(refusal(R"("fixes":["a"])", R"("fixes":["z"])"),
              AllOf(HasSubstr("/repairs/0"), HasSubstr("z")));
  EXPECT_THAT(refusal(R"("access":["cover"])", R"("access":["lid"])"), HasSubstr("lid"));
  EXPECT_THAT(refusal(R"("needs":[])", R"("needs":["shield"])"), HasSubstr("circle"));
  EXPECT_THAT(refusal(R"("needs":[])", R"("needs":["cover"])"), HasSubstr("circle"));
  EXPECT_THAT(refusal(R"("id":"ripple")", R"("id":"fix-a")"), HasSubstr("already taken"));
  EXPECT_THAT(refusal(R"("id":"b")", R"("id":"a")"), HasSubstr("already taken"));
  EXPECT_THAT(refusal(R"("id":"ripple")", R"("id":"give-up")"), HasSubstr("meaning of its own"));
  EXPECT_THAT(refusal(R"("outcomes":["high","low"])", R"("outcomes":["low","low"])"),
              HasSubstr("already taken"));
  EXPECT_THAT(refusal(R"("give_up_minutes": 120)", R"("give_up_minutes": -1)"), HasSubstr("-1"));
  EXPECT_THAT(refusal(R"("give_up_minutes": 120)", R"("give_up": 120)"), HasSubstr("give_up"));
  EXPECT_THAT(refusal(R"("minutes":9)", R"("minutes":1e300)"), HasSubstr("/repairs/1/minutes"));
  EXPECT_THAT(refusal(R"("prior":5},{"id":"b","prior":3},{"id":"c","prior":2})",
                      R"("prior":0},{"id":"b","prior":0},{"id":"c","prior":0})"),
              HasSubstr("no fault is possible"));
}

TEST(ReadProblem, RefusesMoreThanPlannersTake) {
  std::string access;
  for (int a = 0; a < 65; ++a) {
    access += (a > 0 ? "," : "") + std::string(R"({"id":"k)") + std::to_string(a) +
              R"(","minutes":1,"needs":[]})";
  }
  const auto problem = read(R"({"faults":[{"id":"a","prior":1}],"repairs":[],"access":[)" + access +
                            R"(],"give_up_minutes":1})");
  ASSERT_FALSE(problem.ok());
  EXPECT_THAT(quantities::describe(problem.problems()), HasSubstr("too many access"));
}

TEST(PlanToJson, PrintsThePolicyWithNullForWhatCannotHappen) {
  auto problem = read(example);
  const auto planned = plan(*problem, Policy::optimal);
  EXPECT_EQ(documents::to_line(to_json(*problem, *planned)),
            R"({"expected_minutes":13,"policy":{"do":"ripple","then":{)"
            R"("high":{"do":"fix-a","then":{"still-faulty":null}},)"
            R"("low":{"do":"fix-bc","then":{"still-faulty":null}}}}})");
}

TEST(PlanToJson, PrintsGivingUp) {
  auto problem = read(replaced("120", "3"));
  const auto planned = plan(*problem, Policy::ours);
  EXPECT_EQ(documents::to_line(to_json(*problem, *planned)),
            R"({"expected_minutes":3,"policy":{"do":"give-up"}})");
}

}  // namespace
}  // namespace dryout::planning
