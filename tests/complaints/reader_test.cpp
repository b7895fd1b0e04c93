// One complaint after the other: what counts in how it is said. What owners mean by their words is
// common practice, no source.
#include <gmock/gmock.h>

#include "complaints/halves.h"

namespace dryout::complaints {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;
using testing::Pair;

std::vector<std::string> ids(const Heard& heard) {
  std::vector<std::string> list;
  for (const HeardSymptom& symptom : heard.symptoms) {
    list.push_back(symptom.id);
  }
  return list;
}

std::string first_of(const std::string& said, const Beside& beside = {}) {
  const Heard heard = shipped_reader().read(said, beside);
  return heard.symptoms.empty() ? "" : heard.symptoms.front().id;
}

Where where_of(const std::string& said) {
  const Heard heard = shipped_reader().read(said);
  return heard.symptoms.empty() ? Where{} : heard.symptoms.front().where;
}

TEST(ComplaintReader, HearsTheSameInManySpellings) {
  for (const char* said : {"hum", "Hums.", "it HUMS", "humming", "there is a loud humm",
                           "It's a hum!", "hmm: constant buzzing"}) {
    EXPECT_EQ(first_of(said), "hum-steady") << said;
  }
  for (const char* said :
       {"no power", "No Power.", "won't turn on", "wont turn on", "doesn\u2019t turn on",
        "will not switch on", "does not even want to turn on"}) {
    EXPECT_EQ(first_of(said), "dead-fuse-good") << said;
  }
}

TEST(ComplaintReader, MendsSlipsOfTheFinger) {
  EXPECT_EQ(first_of("distroted sound"), "distorted-always");
  EXPECT_EQ(first_of("recpetion is poor"), "weak-all-bands");
  EXPECT_EQ(first_of("hissng"), "hiss");
}

TEST(ComplaintReader, UnderstandsAWordThatIsStillBeingTyped) {
  EXPECT_THAT(ids(shipped_reader().read("distor")), Contains("distorted-always"));
}

TEST(ComplaintReader, BritishAndAmericanWordsAreOne) {
  EXPECT_EQ(first_of("crashes with the antenna out"), first_of("crashes with the aerial out"));
  EXPECT_EQ(first_of("tube glows red hot"), first_of("valve glows red hot"));
}

TEST(ComplaintReader, ADenialOfATroubleTakesItOut) {
  EXPECT_THAT(ids(shipped_reader().read("no hum, but it is very weak")),
              Not(Contains("hum-steady")));
  EXPECT_EQ(first_of("no hum, but it is very quiet"), "weak-audio");
}

TEST(ComplaintReader, ADenialOfAFunctionIsTheComplaint) {
  EXPECT_EQ(first_of("no sound"), "no-sound-lamps-lit");
  EXPECT_EQ(first_of("no picture"), "no-picture");
  EXPECT_EQ(first_of("picture gone"), "no-picture");
}

TEST(ComplaintReader, WhatIsFineIsNoComplaint) {
  EXPECT_EQ(first_of("sound fine but no picture"), "no-picture");
  EXPECT_EQ(first_of("picture ok, no sound"), "no-sound-lamps-lit");
  const Heard heard = shipped_reader().read("left is fine but right is dead");
  ASSERT_FALSE(heard.symptoms.empty());
  EXPECT_EQ(heard.symptoms.front().id, "one-channel-dead");
  EXPECT_THAT(heard.symptoms.front().where, ElementsAre(Pair("channel", "right")));
}

TEST(ComplaintReader, TellsPlaceAndCondition) {
  EXPECT_THAT(where_of("left speaker dead"), Contains(Pair("channel", "left")));
  EXPECT_THAT(where_of("FM is distorted"), Contains(Pair("band", "fm")));
  EXPECT_THAT(where_of("deaf on 80 metres"), Contains(Pair("band", "80m")));
  EXPECT_THAT(where_of("hum on the phono input"), Contains(Pair("source", "phono")));
  EXPECT_THAT(where_of("hum that does not change with volume"), Contains(Pair("follows", "not")));
  EXPECT_THAT(where_of("120 Hz buzz"), Contains(Pair("rate", "twice")));
  EXPECT_THAT(where_of("cuts out when hot"), Contains(Pair("when", "warm")));
  EXPECT_THAT(where_of("goes off after ten minutes"), Contains(Pair("when", "minutes=10")));
  EXPECT_THAT(where_of("fades after half an hour"), Contains(Pair("when", "minutes=30")));
  EXPECT_THAT(where_of("left louder than right"), Not(Contains(Pair("channel", testing::_))));
}

TEST(ComplaintReader, SendsElsewhereWhatIsNotItsField) {
  for (const auto& [said, id] : std::vector<std::pair<std::string, std::string>>{
           {"CD not recognised", "disc-mechanism"},
           {"the belt has perished", "belt-or-idler"},
           {"charger lead broken", "adapter-or-charger"},
           {"laptop won't boot windows", "software-or-network"},
           {"stylus worn out", "stylus-or-arm"}}) {
    const Heard heard = shipped_reader().read(said);
    ASSERT_FALSE(heard.elsewhere.empty()) << said;
    EXPECT_EQ(heard.elsewhere.front().id, id) << said;
    EXPECT_FALSE(heard.elsewhere.front().advice.empty());
  }
  EXPECT_THAT(shipped_reader().read("loud hum").elsewhere, IsEmpty());
}

TEST(ComplaintReader, WithAKindGivenOnlyItsSymptomsRankHigh) {
  const auto* deck = knowledge::find(shipped_base().equipment, "cassette-deck");
  ASSERT_NE(deck, nullptr);
  const std::vector<std::string> heard = ids(shipped_reader().read("weak", {"cassette-deck", {}}));
  ASSERT_GE(heard.size(), 2U);
  EXPECT_THAT(deck->symptoms, Contains(heard[0]));
  EXPECT_THAT(deck->symptoms, Contains(heard[1]));
}

TEST(ComplaintReader, NamesTheLikelyEquipmentAndHeedsTheYear) {
  const Heard heard = shipped_reader().read("valve radio hums");
  ASSERT_FALSE(heard.equipment.empty());
  EXPECT_EQ(heard.equipment.front().id, "valve-am-receiver");
  const auto rank = [](const Heard& list, const std::string& id) {
    for (std::size_t i = 0; i < list.equipment.size(); ++i) {
      if (list.equipment[i].id == id) return i;
    }
    return std::size_t{99};
  };
  const Heard old = shipped_reader().read("car radio dead", {"", 1950});
  const Heard young = shipped_reader().read("car radio dead", {"", 1985});
  EXPECT_LT(rank(old, "vibrator-car-radio"), rank(old, "car-radio"));
  EXPECT_LT(rank(young, "car-radio"), rank(young, "vibrator-car-radio"));
}

TEST(ComplaintReader, SaysNothingOfWhatSaysNothing) {
  for (const char* said : {"", "   ", "...", "please help", "qwzx vvkq"}) {
    EXPECT_TRUE(shipped_reader().read(said).nothing()) << said;
  }
}

TEST(ComplaintReader, ReadsAnyBytes) {
  std::string all;
  for (int byte = 1; byte < 256; ++byte) {
    all += static_cast<char>(byte);
  }
  (void)shipped_reader().read(all);
  (void)shipped_reader().read(std::string(100'000, 'x'));
  std::string long_one;
  for (int i = 0; i < 20'000; ++i) {
    long_one += "hum ";
  }
  EXPECT_EQ(first_of(long_one), "hum-steady");
}

TEST(ComplaintReader, GrowsByWhatWasHeardBefore) {
  const std::string said = "sounds like a wasp in a biscuit tin";
  Vocabulary words = shipped_vocabulary();
  Remembered& remembered = words.remembered.emplace_back();
  remembered.symptom = "crackle";
  remembered.said = said;
  const ComplaintReader grown(shipped_base(), words);
  const Heard heard = grown.read("wasp in the biscuit tin");
  ASSERT_FALSE(heard.symptoms.empty());
  EXPECT_EQ(heard.symptoms.front().id, "crackle");
  EXPECT_NE(first_of("wasp in the biscuit tin"), "crackle");
}

TEST(ComplaintReader, ScoresAreBetweenNoneAndAllAndFall) {
  for (const KnownComplaint& complaint : known_complaints("tuning")) {
    const Heard heard = shipped_reader().read(complaint.said);
    double last = 1.0;
    for (const HeardSymptom& symptom : heard.symptoms) {
      EXPECT_GT(symptom.score, 0.0);
      EXPECT_LE(symptom.score, last) << complaint.said;
      last = symptom.score;
    }
  }
}

TEST(ComplaintReader, EverySymptomAnswersToItsOwnTitleAndWords) {
  for (const knowledge::Symptom& symptom : shipped_base().symptoms) {
    std::vector<std::string> phrases = symptom.owner_words;
    phrases.push_back(symptom.title);
    for (const std::string& phrase : phrases) {
      std::vector<std::string> heard = ids(shipped_reader().read(phrase));
      heard.resize(std::min<std::size_t>(heard.size(), 5));
      EXPECT_THAT(heard, Contains(symptom.id)) << phrase;
    }
  }
}

}  // namespace
}  // namespace dryout::complaints
