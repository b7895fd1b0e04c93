// dryout complaint, list --find and shop words, as a stranger runs them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TEST(ComplaintCommand, TellsSymptomPlaceEquipmentAndElsewhere) {
  const Home home;
  const auto heard = home.json({"complaint", "car stereo, left speaker dead"});
  EXPECT_EQ(text_at(heard, {"symptoms", "0", "id"}), "one-channel-dead");
  EXPECT_EQ(text_at(heard, {"symptoms", "0", "where", "channel"}), "left");
  EXPECT_GT(number_at(heard, {"symptoms", "0", "score"}), 0.5);
  EXPECT_EQ(text_at(heard, {"equipment", "0", "id"}), "car-radio");
  const auto disc = home.json({"complaint", "CD", "not", "recognised"});
  EXPECT_EQ(text_at(disc, {"elsewhere", "0", "id"}), "disc-mechanism");
  EXPECT_THAT(text_at(disc, {"elsewhere", "0", "advice"}), HasSubstr("lens"));
  const Outcome told = home.run({"complaint", "No power."});
  EXPECT_EQ(told.exit, 0);
  EXPECT_THAT(told.out, HasSubstr("dead-fuse-good"));
}

TEST(ComplaintCommand, AnEmptyAnswerIsNo) {
  const Home home;
  EXPECT_EQ(home.run({"complaint", "qwzx vvkq"}).exit, 1);
  EXPECT_EQ(home.run({"complaint", ""}).exit, 1);
  const Outcome json = home.run({"complaint", "qwzx vvkq", "--json"});
  EXPECT_EQ(json.exit, 1);
  EXPECT_THAT(json.out, HasSubstr("\"symptoms\": []"));
}

TEST(ComplaintCommand, RefusesWhatItCannotTake) {
  const Home home;
  EXPECT_EQ(home.run({"complaint"}).exit, 2);
  const Outcome kind = home.run({"complaint", "hum", "--equipment", "stereo-reciever"});
  EXPECT_EQ(kind.exit, 2);
  EXPECT_THAT(kind.err, HasSubstr("stereo-receiver"));
  EXPECT_EQ(home.run({"complaint", "hum", "--year", "12"}).exit, 2);
}

TEST(ComplaintCommand, KindAndYearShiftTheAnswer) {
  const Home home;
  const auto deck = home.json({"complaint", "no reception", "--equipment", "cassette-deck"});
  EXPECT_NE(text_at(deck, {"symptoms", "0", "id"}), "no-reception") << "a deck receives nothing";
  const auto old = home.json({"complaint", "car radio dead", "--year", "1950"});
  EXPECT_EQ(text_at(old, {"equipment", "0", "id"}), "vibrator-car-radio");
}

TEST(ListFind, RanksSymptomsByWhatOwnersMean) {
  const Home home;
  EXPECT_EQ(
      text_at(home.json({"list", "symptoms", "--find", "No power."}), {"symptoms", "0", "id"}),
      "dead-fuse-good");
  EXPECT_EQ(text_at(home.json({"list", "symptoms", "--find", "hum"}), {"symptoms", "0", "id"}),
            "hum-steady");
  EXPECT_EQ(home.run({"list", "symptoms", "--find", "qwzx"}).exit, 1);
}

TEST(ShopWords, AreShownKeptAndForgotten) {
  const Home home;
  const std::string said = "sounds like a wasp in a biscuit tin";
  ASSERT_EQ(home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Larkfield 40",
                      "--complaint", said})
                .exit,
            0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "crackle", "yes"}).exit, 0);
  EXPECT_THAT(home.run({"shop", "words"}).out, Not(HasSubstr("wasp"))) << "the case is open";
  ASSERT_EQ(home.run({"case", "finish", "1"}).exit, 0);
  EXPECT_THAT(home.run({"shop", "words"}).out, HasSubstr("crackle: \"sounds like a wasp"));
  const std::string heard = "a wasp in the biscuit tin";
  const auto before = home.run({"complaint", heard, "--json"});
  EXPECT_THAT(before.out, Not(HasSubstr("\"crackle\"")));
  EXPECT_EQ(home.run({"shop", "words", "keep"}).exit, 0);
  EXPECT_EQ(home.run({"lint"}).exit, 0) << "what was kept is sound knowledge";
  EXPECT_EQ(text_at(home.json({"complaint", heard}), {"symptoms", "0", "id"}), "crackle");
  EXPECT_EQ(home.run({"shop", "words", "forget"}).exit, 0);
  EXPECT_EQ(home.run({"complaint", heard, "--json"}).out, before.out);
}

TEST(LintCommand, NamesASymptomThatTheVocabularyInvents) {
  const Home home;
  const std::filesystem::path own =
      std::filesystem::path(text_at(home.json({"shop", "words"}), {"file"})).parent_path();
  std::filesystem::create_directories(own);
  std::ofstream(own / "often.json") << R"({"schema": 1, "often": [{"id": "x", "title": "X",
  "because": "Owners bring this more often than others.", "source": "common practice",
  "notes": 5, "symptoms": ["hum-stedy"]}]})";
  const Outcome lint = home.run({"lint"});
  EXPECT_EQ(lint.exit, 1);
  EXPECT_THAT(lint.out, HasSubstr("often.json:1"));
  EXPECT_THAT(lint.out, HasSubstr("hum-stedy"));
}

}  // namespace
}  // namespace dryout::app_test
