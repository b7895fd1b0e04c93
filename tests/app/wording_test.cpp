// All that a few cases and lists print, held against slips that no single test looks for: "1
// parts", a word said twice, and units that are spelt one way here and another way there.
#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

struct Slip {
  const char* what;
  std::regex pattern;
};

const std::vector<Slip>& slips() {
  static const std::vector<Slip> all{
      {"one of many", std::regex(R"((^|[^\d.,])1 (parts|faults|checks|cases|readings|steps|years|)"
                                 R"(groups|warnings|sections|events|volts|draws)\b)")},
      {"said twice", std::regex(R"(\b([A-Za-z]{3,}) \1\b)")},
      {"uF for \u00b5F", std::regex(R"(\d ?uF\b|\bin uF\b|\d ?u[AVH]\b)")},
      {"ohm for \u03a9", std::regex(R"(\d ?([kMG]|kil|meg|gig|milli)?[Oo]hms?\b)")},
  };
  return all;
}

void expect_no_slip(const Home& home, const std::vector<std::string>& command) {
  const Outcome said = home.run(command);
  std::string spelt;
  for (const std::string& word : command) spelt += word + ' ';
  EXPECT_TRUE(said.exit == 0 || said.exit == 1) << spelt << said.err;
  EXPECT_FALSE(said.out.empty()) << spelt;
  for (const Slip& slip : slips()) {
    std::smatch found;
    std::string rest = said.out;
    for (int shown = 0; shown < 3 && std::regex_search(rest, found, slip.pattern); ++shown) {
      const std::string before = found.prefix().str();
      ADD_FAILURE() << spelt << ": " << slip.what << ": "
                    << before.substr(before.size() > 50 ? before.size() - 50 : 0) << found.str();
      rest = found.suffix().str();
    }
  }
}

class Wording : public testing::TestWithParam<std::pair<const char*, const char*>> {};

TEST_P(Wording, OfACaseHasNoSlips) {
  const auto& [equipment, symptom] = GetParam();
  const Home home;
  ASSERT_EQ(home.run({"case", "new", "--equipment", equipment, "--set", "Tarnbeck 614", "--year",
                      "1972", "--complaint", "does not work"})
                .exit,
            0);
  ASSERT_EQ(home.run({"case", "symptom", "1", symptom, "yes"}).exit, 0);
  const std::string leading = text_at(home.json({"suspects", "1"}), {"suspects", "0", "id"});
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"case", "show", "1"},
                                             {"suspects", "1"},
                                             {"next", "1"},
                                             {"explain", "1", leading},
                                             {"decide", "1", "--years", "5"},
                                             {"parts", "1"}}) {
    expect_no_slip(home, command);
  }
  ASSERT_EQ(home.run({"case", "repair", "1", leading, "replaced"}).exit, 0);
  expect_no_slip(home, {"decide", "1", "--years", "5"});
}

INSTANTIATE_TEST_SUITE_P(OfKinds, Wording,
                         testing::Values(std::pair("stereo-receiver", "hum-steady"),
                                         std::pair("valve-am-receiver", "hum-steady"),
                                         std::pair("hf-transceiver", "out-of-lock")));

TEST(WordingOfLists, HasNoSlips) {
  const Home home;
  expect_no_slip(home, {"list", "all", "--full"});
  for (const char* print : {"47", "104", "R47", "10.000uF 40V", "40/20/20 450V", "8 mF"}) {
    expect_no_slip(home, {"marking", print});
  }
  expect_no_slip(home, {"discharge", "--capacitance", "100u", "--volts", "450"});
}

}  // namespace
}  // namespace dryout::app_test
