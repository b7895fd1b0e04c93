// What a sample covers is what was measured: who was not is named, and decided by his own. Common
// practice, no source; the sets are invented.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "casework/mending_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;

class SampledTruly : public ShippedJob {
 protected:
  void read(const std::string& reference, const std::string& group, double ohms,
            const std::string& technology = "surface-mount-aluminium") {
    tell(NamePart{reference, group, quantities::microfarads(47), quantities::volts(16), technology,
                  "Orbrin RS"});
    RecordReading reading = lifted_esr(reference, ohms);
    reading.limit = 1.0;
    reading.in_circuit = true;
    tell(reading);
  }
  void six_of_the_vco() {
    for (int i = 0; i < 6; ++i) {
      read("C" + std::to_string(301 + i), "vco-filter", 1.3 + 0.1 * i);
    }
  }
  [[nodiscard]] MendingView mending(double years = 10.0) const {
    return ShippedJob::mending(years);
  }
  static const CohortSample& sample_of(const MendingView& view, const std::string& item) {
    static const CohortSample none;
    const auto found =
        std::find_if(view.sampling.begin(), view.sampling.end(), [&](const CohortSample& each) {
          return std::find(each.items.begin(), each.items.end(), item) != each.items.end();
        });
    EXPECT_NE(found, view.sampling.end()) << item;
    return found == view.sampling.end() ? none : *found;
  }
};

TEST_F(SampledTruly, SixOfSixSayNothingOfGroupsThatNobodyMeasured) {
  take_in("vhf-mobile", 1985);
  six_of_the_vco();
  const MendingView view = mending();
  const CohortSample& measured = sample_of(view, "part:C301");
  EXPECT_EQ(measured.parts, 6) << measured.sentence;
  EXPECT_EQ(measured.measured, 6);
  EXPECT_EQ(measured.advice, "recap");
  const CohortSample& rest = sample_of(view, "group:audio-coupling");
  EXPECT_EQ(rest.measured, 0);
  EXPECT_EQ(rest.advice, "measure-another");
  EXPECT_THAT(rest.sentence, AllOf(HasSubstr("Nobody measured any of these"), HasSubstr("6 of 6"),
                                   HasSubstr("easure")));
  EXPECT_EQ(view.options.front().parts, 6) << view.sentence;
  EXPECT_THAT(view.options.front().replaced, Each(HasSubstr("C30")));
  EXPECT_THAT(view.reasons,
              Contains(AllOf(HasSubstr("not measured"), HasSubstr("audio coupling"))));
}

TEST_F(SampledTruly, ABatchClearedByOneGroupDoesNotClearTheOthers) {
  take_in("vhf-mobile", 1985);
  for (int i = 0; i < 6; ++i) {
    read("C" + std::to_string(301 + i), "vco-filter", 0.1);
  }
  const MendingView view = mending();
  EXPECT_EQ(sample_of(view, "part:C301").advice, "clear");
  EXPECT_EQ(sample_of(view, "group:audio-coupling").advice, "measure-another");
  EXPECT_THAT(view.sentence, AllOf(HasSubstr("Not decided yet"), HasSubstr("measured")));
}

TEST_F(SampledTruly, AnUnexaminedSetIsMeasuredFirst) {
  for (const auto& [equipment, year] :
       {std::pair{"vhf-mobile", 1985}, std::pair{"stereo-receiver", 1978},
        std::pair{"cassette-deck", 1985}, std::pair{"hf-transceiver", 1988}}) {
    take_in(equipment, year);
    for (const double years : {1.0, 5.0, 20.0}) {
      const MendingView view = mending(years);
      EXPECT_NE(view.options.front().scope, "all-electrolytics") << equipment;
      EXPECT_THAT(view.sentence, AllOf(HasSubstr("easure"), HasSubstr("Nothing was measured"),
                                       Not(HasSubstr("replace nothing")),
                                       Not(HasSubstr("is to replace everything"))))
          << equipment;
      EXPECT_THAT(view.options.front().title, Not(HasSubstr("replace nothing"))) << equipment;
    }
  }
}

// A complaint and nothing measured: what leads may stand in, the whole set may not.
TEST_F(SampledTruly, AComplaintDoesNotMakeAGuessOfTheWholeSet) {
  take_in("vhf-mobile", 1985);
  const auto view = workshop_->view(number_);
  for (const SymptomView& symptom : view->symptoms) {
    take_in("vhf-mobile", 1985);
    tell(ReportSymptom{symptom.id, Seen::yes});
    const MendingView mended = mending(5.0);
    EXPECT_NE(mended.options.front().scope, "all-electrolytics") << symptom.id;
    EXPECT_NE(mended.options.front().scope, "board") << symptom.id;
  }
}

TEST_F(SampledTruly, WhatGoesOnSightGoesUnmeasured) {
  take_in("valve-am-receiver", 1938);
  EXPECT_THAT(mending().options.front().replaced, Contains("Coupling to the output valve"));
}

TEST_F(SampledTruly, AFreshPartWrittenBesideDecidesNothingAndSaysSo) {
  take_in("stereo-receiver", 1990);
  for (int i = 0; i < 6; ++i) {
    const std::string part = "C" + std::to_string(301 + i);
    tell(NamePart{part, "tuner-decoupling", quantities::microfarads(47), quantities::volts(16), "",
                  "Orbrin RS", "5x11 radial"});
    RecordReading reading;
    reading.item = part;
    reading.value = 0.6 + 0.02 * i;
    reading.beside = "fresh-part 0.2";
    tell(reading);
  }
  const MendingView view = mending();
  EXPECT_THAT(view.sentence, AllOf(HasSubstr("Not decided yet"), HasSubstr("fresh part"),
                                   Not(HasSubstr("replace nothing"))));
}

}  // namespace
}  // namespace dryout::casework
