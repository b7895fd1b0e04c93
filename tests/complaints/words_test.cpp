// Words by themselves: cutting, stems, slips, spans of time; and a vocabulary that is at fault.
#include <gmock/gmock.h>

#include <fstream>

#include "complaints/spans_of_time.h"
#include "complaints/spoken_words.h"
#include "complaints/stemmer.h"
#include "complaints/typing_slips.h"
#include "complaints/vocabulary.h"
#include "complaints/where_words.h"
#include "temporary_folder.h"

namespace dryout::complaints {
namespace {

using testing::HasSubstr;

std::vector<std::string> texts(const std::string& said) {
  std::vector<std::string> list;
  for (const SpokenWord& word : spoken_words(said)) {
    list.push_back(word.text);
  }
  return list;
}

TEST(SpokenWords, AreLowerCaseWithoutSignsAndWithClauses) {
  EXPECT_THAT(texts("Won't turn ON!"), testing::ElementsAre("wont", "turn", "on"));
  EXPECT_THAT(texts("50Hz hum"), testing::ElementsAre("50", "hz", "hum"));
  const auto words = spoken_words("sound fine but no picture, 4.2 volt");
  ASSERT_EQ(words.size(), 7U);
  EXPECT_EQ(words[1].clause, 0);
  EXPECT_EQ(words[3].clause, 1);
  EXPECT_EQ(words[4].clause, words[6].clause) << "a point within a number ends no clause";
}

// Snowball's English stemmer; pairs of its sample vocabulary at snowballstem.org, from memory.
TEST(Stemmer, BringsFormsToOneStem) {
  const Stemmer stemmer;
  for (const auto& [word, stem] :
       std::vector<std::pair<std::string, std::string>>{{"consigned", "consign"},
                                                        {"consigning", "consign"},
                                                        {"knocking", "knock"},
                                                        {"knots", "knot"},
                                                        {"consistency", "consist"},
                                                        {"knitted", "knit"}}) {
    EXPECT_EQ(stemmer.stem(word), stem);
  }
}

// Levenshtein's distance as every textbook shows it (kitten and sitting: 3), and Damerau's swap of
// neighbours as one; from memory.
TEST(TypingSlips, AreCountedAsInTheTextbooks) {
  EXPECT_EQ(slips_between("kitten", "sitting", 5), 3U);
  EXPECT_EQ(slips_between("saturday", "sunday", 5), 3U);
  EXPECT_EQ(slips_between("ca", "ac", 5), 1U);
  EXPECT_EQ(slips_between("hum", "hum", 2), 0U);
  EXPECT_EQ(slips_between("", "abc", 5), 3U);
  EXPECT_EQ(slips_between("short", "much longer", 2), 3U) << "more than were asked for";
}

TEST(TypingSlips, ShortWordsAreLeftAlone) {
  KnownWords known;
  known.add("hum");
  known.add("distorted");
  EXPECT_EQ(known.meant_by("hem"), std::nullopt);
  EXPECT_EQ(known.meant_by("distroted"), "distorted");
  EXPECT_EQ(known.meant_by("mistorted"), std::nullopt) << "people get the first letter right";
}

TEST(SpansOfTime, AreReadInMinutes) {
  const auto minutes = [](const std::string& said) { return span_in_minutes(texts(said)); };
  EXPECT_EQ(minutes("after ten minutes"), 10);
  EXPECT_EQ(minutes("20mins"), 20);
  EXPECT_EQ(minutes("half an hour"), 30);
  EXPECT_EQ(minutes("an hour"), 60);
  EXPECT_EQ(minutes("2 hours"), 120);
  EXPECT_EQ(minutes("5 seconds"), std::nullopt);
  EXPECT_EQ(minutes("99999999999 minutes"), std::nullopt);
  EXPECT_EQ(minutes("99999 hours"), std::nullopt);
  EXPECT_EQ(minutes("minutes"), std::nullopt);
}

TEST(SpansOfTime, BandsAreThoseThatAmateursHave) {
  EXPECT_EQ(band_in_metres(texts("dead on 40m")), "40m");
  EXPECT_EQ(band_in_metres(texts("80 meters")), "80m");
  EXPECT_EQ(band_in_metres(texts("3 m of wire")), std::nullopt);
}

TEST(WhereWords, ReadLikeASentence) {
  EXPECT_EQ(told({{"channel", "left"}, {"when", "minutes=10"}}), "left channel, after 10 minutes");
  EXPECT_EQ(told({{"follows", "not"}}), "whatever the volume");
  EXPECT_EQ(told({}), "");
}

class BadVocabulary : public testing::Test {
 protected:
  std::string problems(const std::string& text) {
    const std::filesystem::path folder = folder_.path() / "rules/complaints";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "words.json") << text;
    const auto loaded = load_vocabulary({folder_.path().string()});
    return loaded ? "" : quantities::describe(loaded.problems());
  }
  tests::TemporaryFolder folder_;
};

constexpr const char* head =
    R"({"schema": 1, "words": [{"id": "x", "title": "X",
        "because": "Owners say it in this way, often.", "source": "common practice", )";

TEST_F(BadVocabulary, IsNamedByFileAndPlace) {
  EXPECT_THAT(problems("{"), HasSubstr("words.json"));
  const std::string kind = problems(std::string(head) + R"("kind": "verb", "said": ["x"]}]})");
  EXPECT_THAT(kind, HasSubstr("/words/0/kind"));
  EXPECT_THAT(kind, HasSubstr("verb"));
  EXPECT_THAT(problems(std::string(head) +
                       R"("kind": "place", "where": {"channel": "middle"}, "said": ["x"]}]})"),
              HasSubstr("left, right"));
  EXPECT_THAT(problems(std::string(head) +
                       R"("kind": "place", "where": {"side": "left"}, "said": ["x"]}]})"),
              HasSubstr("unknown qualifier"));
  EXPECT_THAT(problems(std::string(head) + R"("kind": "place", "said": ["x"]}]})"),
              HasSubstr("says nothing"));
}

TEST_F(BadVocabulary, AnEntryOfAnotherTreeTakesThePlaceOfOneWithItsId) {
  EXPECT_EQ(problems(std::string(head) + R"("kind": "trouble", "said": ["xylophone"]}]})"), "");
  const std::string tree = folder_.path().string();
  const auto twice = load_vocabulary({tree, tree});
  ASSERT_TRUE(twice);
  EXPECT_EQ(twice->words.size(), 1U);
}

}  // namespace
}  // namespace dryout::complaints
