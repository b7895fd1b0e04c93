// A hum with a place, on the shipped kinds: who gains and who loses by it is common practice (no
// source): a common reservoir hums on both sides, what is plugged in ahead of the volume control is
// turned down with it, a half-wave set hums at the mains rate.
#include "diagnosis/located_symptom.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "knowledge/fixture.h"

namespace dryout::diagnosis {
namespace {

using knowledge::Axis;
using tests::shipped_knowledge;

class Hum : public ::testing::Test {
 protected:
  void set(const std::string& equipment) {
    equipment_ = knowledge::find(shipped_knowledge().equipment, equipment);
    compiled_ = compile_network(shipped_knowledge(), *equipment_, {1975, 2026, {}});
  }
  [[nodiscard]] LocatedSymptom told(const std::vector<PlacedAnswer>& answers,
                                    const std::string& symptom = "hum-steady") const {
    return {shipped_knowledge(), *equipment_, compiled_,
            *knowledge::find(shipped_knowledge().symptoms, symptom), answers};
  }
  [[nodiscard]] double strength(const Finding& finding, const std::string& item,
                                const std::string& state) const {
    for (const Cause& cause : finding.causes) {
      const Item& of = compiled_.network.items[cause.item];
      if (of.id == item && of.states[cause.state] == state) return cause.strength;
    }
    return 0.0;
  }
  [[nodiscard]] double plainly(const std::string& item, const std::string& state,
                               const std::string& symptom = "hum-steady") const {
    return strength(*knowledge::find(compiled_.network.findings, "symptom:" + symptom), item,
                    state);
  }
  [[nodiscard]] PlacedAnswer at(Axis axis, const std::string& id, bool present = true) const {
    PlacedAnswer answer;
    answer.present = present;
    answer.at.at(static_cast<std::size_t>(axis)) =
        knowledge::SignalPlaces(shipped_knowledge(), *equipment_).find_on(axis, id);
    return answer;
  }

  const knowledge::Equipment* equipment_ = nullptr;
  CompiledNetwork compiled_;
};

TEST_F(Hum, SaidOfNoPlaceIsTheSymptomItself) {
  set("power-amplifier");
  const Finding located = told({PlacedAnswer{}}).present();
  const Finding& plain = *knowledge::find(compiled_.network.findings, "symptom:hum-steady");
  ASSERT_EQ(located.causes.size(), plain.causes.size());
  for (std::size_t c = 0; c < plain.causes.size(); ++c) {
    EXPECT_EQ(located.causes[c].item, plain.causes[c].item);
    EXPECT_NEAR(located.causes[c].strength, plain.causes[c].strength, 1e-12);
  }
  EXPECT_NEAR(located.leak, plain.leak, 1e-12);
}

TEST_F(Hum, OnTheLeftAloneClearsWhatBothSidesShare) {
  set("power-amplifier");
  const Finding left =
      told({at(Axis::channel, "left"), at(Axis::channel, "right", false)}).present();
  EXPECT_NEAR(strength(left, "group:reservoirs", "dried"),
              slip * plainly("group:reservoirs", "dried"), 1e-12);
  EXPECT_EQ(strength(left, "group:right-decoupling", "dried"), 0.0);
  EXPECT_NEAR(strength(left, "group:left-decoupling", "dried"),
              plainly("group:left-decoupling", "dried"), 1e-12);
}

TEST_F(Hum, OnTheLeftWithTheRightUnaskedClearsItLess) {
  set("power-amplifier");
  const Finding left = told({at(Axis::channel, "left")}).present();
  EXPECT_NEAR(strength(left, "group:reservoirs", "dried"),
              (1.0 - unasked) * plainly("group:reservoirs", "dried"), 1e-12);
}

TEST_F(Hum, OnBothSidesClearsWhatOneSideHas) {
  set("power-amplifier");
  const Finding both = told({at(Axis::channel, "left"), at(Axis::channel, "right")}).present();
  EXPECT_NEAR(strength(both, "group:reservoirs", "dried"), plainly("group:reservoirs", "dried"),
              1e-12);
  EXPECT_LT(strength(both, "group:left-decoupling", "dried"),
            0.1 * plainly("group:left-decoupling", "dried"));
}

TEST_F(Hum, NotOnTheRightClearsTheRightAndWhatIsShared) {
  set("power-amplifier");
  const Finding right = told({at(Axis::channel, "right", false)}).absent(0);
  EXPECT_GT(strength(right, "group:reservoirs", "dried"), 0.5);
  EXPECT_GT(strength(right, "group:right-decoupling", "dried"), 0.0);
  EXPECT_EQ(strength(right, "group:left-decoupling", "dried"), 0.0);
}

TEST_F(Hum, ThatStaysWithTheVolumeDownIsNotWhatIsPluggedIn) {
  set("stereo-receiver");
  PlacedAnswer stays;
  stays.volume = PlacedAnswer::Volume::stays;
  const Finding hum = told({stays}).present();
  EXPECT_EQ(strength(hum, "cause:external-lead@phono", "faulty"), 0.0);
  EXPECT_NEAR(strength(hum, "group:reservoirs", "dried"), plainly("group:reservoirs", "dried"),
              1e-12);
  PlacedAnswer follows;
  follows.volume = PlacedAnswer::Volume::follows;
  const Finding other = told({follows}).present();
  EXPECT_NEAR(strength(other, "cause:external-lead@phono", "faulty"),
              plainly("cause:external-lead@phono", "faulty"), 1e-12);
  EXPECT_LT(strength(other, "group:reservoirs", "dried"),
            0.1 * plainly("group:reservoirs", "dried"));
}

TEST_F(Hum, AtMainsRateIsNoReservoirOfAFullWaveSetAndOneOfAHalfWaveSet) {
  PlacedAnswer low;
  low.rate = PlacedAnswer::Rate::mains;
  set("valve-am-receiver");
  EXPECT_LE(strength(told({low}).present(), "group:can", "dried"),
            1.6 * other_rate * plainly("group:can", "dried"));
  EXPECT_GT(strength(told({low}).present(), "cause:heater-cathode-leak@output-valve", "faulty"),
            0.5);
  set("valve-series-receiver");
  EXPECT_NEAR(strength(told({low}).present(), "group:can", "dried"), plainly("group:can", "dried"),
              1e-12);
}

TEST_F(Hum, OnlyWhenColdIsWhatDriesAndNotWhatLeaks) {
  set("valve-am-receiver");
  PlacedAnswer cold;
  cold.condition = "cold";
  const Finding hum = told({cold}).present();
  EXPECT_NEAR(strength(hum, "group:can", "dried"), plainly("group:can", "dried"), 1e-12);
  EXPECT_LT(strength(hum, "group:can", "leaky"), 0.5 * plainly("group:can", "leaky"));
}

TEST_F(Hum, ADeadBandPointsToItsOwnContact) {
  set("valve-am-receiver");
  const Finding dead =
      told({at(Axis::band, "long-wave"), at(Axis::band, "medium-wave", false)}, "no-reception")
          .present();
  EXPECT_NEAR(strength(dead, "cause:dirty-switch@mixer", "faulty"),
              0.5 * plainly("cause:dirty-switch@mixer", "faulty", "no-reception"), 1e-12);
  EXPECT_NEAR(strength(dead, "group:can", "shorted"),
              slip * plainly("group:can", "shorted", "no-reception"), 1e-12);
}

TEST_F(Hum, OnReceiveAsksForNoMicrophone) {
  set("hf-transceiver");
  EXPECT_EQ(plainly("group:mic-coupling", "dried", "weak-audio"), 0.0);
  const Finding transmit = told({at(Axis::path, "transmit")}, "weak-audio").present();
  EXPECT_GT(strength(transmit, "group:mic-coupling", "dried"), 0.1);
}

}  // namespace
}  // namespace dryout::diagnosis
