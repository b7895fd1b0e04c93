#include "readings/meter.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "priors.h"

namespace dryout::readings {
namespace {

using quantities::ohms;
using quantities::volts;
using ::testing::HasSubstr;

TEST(Meter, SubtractsKnownLeadsAndSaysWhereUnknownOnesMatter) {
  const Meter meter;
  const auto known = correct(0.5, Kind::esr, ohms(0.2), meter);
  EXPECT_NEAR(known.value, 0.3, 1e-12);
  EXPECT_FALSE(known.zero_matters);
  const auto unknown = correct(0.4, Kind::esr, {}, meter);
  EXPECT_NEAR(unknown.value, 0.4, 1e-12);
  EXPECT_TRUE(unknown.zero_matters);
  EXPECT_FALSE(correct(4.0, Kind::esr, {}, meter).zero_matters);
}

TEST(Meter, AReadingBelowItsLeadsStaysAboveNothing) {
  EXPECT_GT(correct(0.1, Kind::esr, ohms(0.2), Meter{}).value, 0.0);
}

TEST(Meter, LeadsDoNotTouchACapacitance) {
  EXPECT_DOUBLE_EQ(correct(1e-5, Kind::capacitance, ohms(0.2), Meter{}).value, 1e-5);
}

// Common practice, no source: germanium and Schottky conduct from about 0.15 V, silicon from 0.4 V.
TEST(Meter, TestVoltsDecideWhatConducts) {
  EXPECT_EQ(junctions_under(volts(0.1)), Junctions::stay_off);
  EXPECT_EQ(junctions_under(volts(0.25)), Junctions::germanium_and_schottky_conduct);
  EXPECT_EQ(junctions_under(volts(1.0)), Junctions::silicon_conducts);
}

TEST(Meter, TheShopsListReadsBackAsWritten) {
  Meter meter;
  meter.id = "bench";
  meter.title = "Bench bridge";
  meter.shows = {Kind::esr, Kind::capacitance};
  meter.lead_zero = ohms(0.07);
  meter.test_volts = volts(0.1);
  const auto document = documents::parse(documents::to_text(to_json({meter})), "meters.json");
  ASSERT_TRUE(document.ok());
  const auto back = read_meters(*document);
  ASSERT_TRUE(back.ok()) << describe(back.problems());
  ASSERT_EQ(back->size(), 1U);
  EXPECT_EQ(back->front().shows, meter.shows);
  EXPECT_EQ(back->front().lead_zero, meter.lead_zero);
  EXPECT_TRUE(to_json(*back) == to_json({meter}));
}

TEST(Meter, ShowsWhatItIsSaidToShowAndEverythingWhereNothingIsSaid) {
  Meter meter;
  EXPECT_TRUE(meter.can_show(Kind::ripple));
  meter.shows = {Kind::esr};
  EXPECT_TRUE(meter.can_show(Kind::esr));
  EXPECT_FALSE(meter.can_show(Kind::ripple));
}

TEST(Meter, OfTheShopsListIsFoundByItsIdAlone) {
  const std::vector<Meter>& meters = shipped_knowledge().meters;
  ASSERT_FALSE(meters.empty());
  EXPECT_EQ(find_meter(meters, meters.back().id), &meters.back());
  EXPECT_EQ(find_meter(meters, "no-such-meter"), nullptr);
}

TEST(Meter, ATreeWithoutMetersIsAShopWithoutAList) {
  const auto none = load_meters({"/nowhere"});
  ASSERT_TRUE(none.ok());
  EXPECT_TRUE(none->empty());
}

TEST(Meter, AnIdUsedTwiceIsRefused) {
  const auto document = documents::parse(
      R"({"schema":1,"meters":[
        {"id":"m","title":"M","shows":["esr"],"accuracy":0.05,"floor":0.02},
        {"id":"m","title":"N","shows":["esr"],"accuracy":0.05,"floor":0.02}]})",
      "meters.json");
  ASSERT_TRUE(document.ok());
  const auto meters = read_meters(*document);
  ASSERT_FALSE(meters.ok());
  EXPECT_THAT(describe(meters.problems()), HasSubstr("used twice"));
  EXPECT_THAT(describe(meters.problems()), HasSubstr("meters.json:3"));
}

TEST(Meter, AWrongListIsRefusedWithThePlace) {
  const auto document = documents::parse(
      R"({"schema":1,"meters":[{"id":"m","title":"M","shows":["smell"],"accuracy":-1}]})",
      "meters.json");
  ASSERT_TRUE(document.ok());
  const auto meters = read_meters(*document);
  ASSERT_FALSE(meters.ok());
  EXPECT_THAT(describe(meters.problems()), HasSubstr("smell"));
  EXPECT_THAT(describe(meters.problems()), HasSubstr("accuracy"));
}

}  // namespace
}  // namespace dryout::readings
