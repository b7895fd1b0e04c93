#include "knowledge/parts_list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "knowledge/fixture.h"
#include "knowledge/load.h"

namespace dryout::knowledge {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using tests::shipped_knowledge;

quantities::Result<PartsList> read(const std::string& text) {
  const auto table = documents::parse_table(text, "parts.csv");
  if (!table) {
    return table.problems();
  }
  return read_parts_list(*table, shipped_knowledge());
}

PartsList good(const std::string& text) {
  auto list = read(text);
  EXPECT_TRUE(list.ok()) << quantities::describe(list.problems());
  return list ? *std::move(list) : PartsList{};
}

quantities::Problem bad(const std::string& text) {
  const auto list = read(text);
  EXPECT_FALSE(list.ok());
  return list.ok() ? quantities::Problem{} : list.problems().front();
}

TEST(PartsList, UnderstandsHeadingsOfLayoutPrograms) {
  const PartsList list = good(
      "Source: main board\n"
      "\"Designator\";\"Part\";\"Qty\";\"Description\";\"Shop number\"\n"
      "\"C1, C2 C5-C7\";\"47u\";5;\"electrolytic 25V\";\"x\"\n");
  ASSERT_EQ(list.capacitors.size(), 1U);
  EXPECT_THAT(list.capacitors[0].references, ElementsAre("C1", "C2", "C5", "C6", "C7"));
  EXPECT_EQ(list.capacitors[0].count, 5);
  EXPECT_EQ(list.capacitors[0].technology, "wet-aluminium");
  EXPECT_EQ(list.columns.at("value"), "Part");
  EXPECT_THAT(list.unread, ElementsAre("Shop number"));
}

TEST(PartsList, GoesByTheBetterOfTwoHeadings) {
  EXPECT_EQ(good("Ref,Part,Value\nC1,some series,10u\n").capacitors[0].value_text, "10u");
}

TEST(PartsList, CountsOtherPartsAndThoseNotFitted) {
  const PartsList list = good("Ref,Value,Qty\n\"R1,R2\",10k,2\nQ1,npn,1\nC1,100n,1\nC2,DNP,1\n");
  EXPECT_EQ(list.others.at("R"), 2);
  EXPECT_EQ(list.others.at("Q"), 1);
  EXPECT_EQ(list.capacitor_count(), 1);
  EXPECT_EQ(list.not_fitted, 1);
}

TEST(PartsList, HearsTheTechnologyInTheTradesWords) {
  const auto technology = [](const std::string& word) {
    return good("Ref,Value,Type\nC1,10uF," + word + '\n').capacitors[0].technology;
  };
  EXPECT_EQ(technology("Electrolytic"), "wet-aluminium");
  EXPECT_EQ(technology("SMD electrolytic"), "surface-mount-aluminium");
  EXPECT_EQ(technology("non-polar electrolytic"), "bipolar-aluminium");
  EXPECT_EQ(technology("TANT"), "solid-tantalum");
  EXPECT_EQ(technology("wet-aluminium"), "wet-aluminium");
  EXPECT_EQ(technology("MKT 10%"), "film");
  EXPECT_EQ(technology("chemical"), "");
}

TEST(PartsList, APlainFigureIsReadByItsTechnology) {
  EXPECT_NEAR(good("Ref,Value,Type\nC1,475,tantalum\n").capacitors[0].capacitance->si(), 4.7e-6,
              1e-12);
  EXPECT_NEAR(good("Ref,Value,Type\nC1,220,electrolytic\n").capacitors[0].capacitance->si(), 220e-6,
              1e-12);
}

struct BadList {
  const char* name;
  const char* text;
  int line;
  const char* pointer;
  const char* message;
};

class RefusedList : public ::testing::TestWithParam<BadList> {};

TEST_P(RefusedList, NamesLineAndColumn) {
  const quantities::Problem problem = bad(GetParam().text);
  EXPECT_EQ(problem.place.file, "parts.csv");
  EXPECT_EQ(problem.place.line, GetParam().line);
  EXPECT_EQ(problem.place.pointer, GetParam().pointer);
  EXPECT_THAT(problem.message, HasSubstr(GetParam().message));
  EXPECT_FALSE(problem.accepted.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Corpus, RefusedList,
    ::testing::Values(
        BadList{"NoHeadings", "one,two\n1,2\n", 1, "", "no row of headings"},
        BadList{"Ambiguous", "Ref,Value\nR1,10k\nC1,470\n", 3, "column 2, Value", "may be"},
        BadList{"WrongCount", "Ref,Value,Qty\n\"C1,C2\",47u,3\n", 2, "column 3, Qty",
                "not the number of references"},
        BadList{"NoNumber", "Ref,Value,Qty\nC1,47u,some\n", 2, "column 3, Qty", "not a quantity"},
        BadList{"Twice", "Ref,Value\nC1,47u\nC1,47u\n", 3, "column 1, Ref", "stands twice"},
        BadList{"Volts", "Ref,Value,Volts\nC1,47u,high\n", 2, "column 3, Volts",
                "not a rated voltage"},
        BadList{"Nameless", "Ref,Value,Role\nC1,47u,\n,,reservoir\n", 3, "column 1, Ref",
                "nothing names"},
        BadList{"TooManyFields", "Ref,Value\nC1,4,7u\n", 2, "", "more fields than headings"},
        BadList{"NoCapacitor", "Ref,Value\nR1,10k\n", 0, "", "no capacitor"}),
    [](const auto& row) { return row.param.name; });

TEST(PartsList, ARangeIsWeighedBeforeItIsWrittenOut) {
  for (const char* range : {"C1-C10000000", "C1..C501", "C1-99999999999999999999", "R7-R4000000"}) {
    const quantities::Problem problem =
        bad("Ref,Value\nC9000,47u\n" + std::string(range) + ",47u\n");
    EXPECT_EQ(problem.place.line, 3) << range;
    EXPECT_EQ(problem.place.pointer, "column 1, Ref");
    EXPECT_THAT(problem.found, HasSubstr(range));
    EXPECT_THAT(problem.accepted, HasSubstr("at most 500"));
  }
  EXPECT_EQ(good("Ref,Value\nC1-C500,47u\n").capacitor_count(), 500);
}

TEST(PartsList, ABombOfRangesStopsAtTheRowThatIsTooMuch) {
  std::string text = "Ref,Value\n\"";
  while (text.size() < 14'000'000) text += "C1-C500,";
  const quantities::Problem problem = bad(text + "\",47u\n");
  EXPECT_THAT(problem.message, HasSubstr("too many parts"));
  EXPECT_EQ(problem.place.line, 2);
  EXPECT_THAT(problem.accepted, HasSubstr("20000"));
  std::string faulty = "Ref,Value\n";
  for (int i = 0; i < 19'000; ++i) faulty += "C" + std::to_string(i) + ",nonsense\n";
  const auto list = read(faulty);
  ASSERT_FALSE(list.ok());
  EXPECT_EQ(list.problems().size(), 100U);
}

TEST(PartsList, TellsAllFaultsAtOnce) {
  const auto list = read("Ref,Value,Volts\nC1,470,x\nC2,abc,5\n");
  ASSERT_FALSE(list.ok());
  EXPECT_EQ(list.problems().size(), 3U);
}

/// Dashes by the Unicode Standard, chapter 6.2; the ways of writing are common practice, no source.
TEST(PartsList, ReadsARangeHoweverItIsWritten) {
  for (const char* cell : {"C10-C12", "C10 - C12", "C10 -C12", "C10- C12", "C10..C12",
                           "C10\u2013C12", "C10 \u2013 C12", "C10\u2014C12", "C10 \u2212 12",
                           "C10\u2026C12", "C10 to C12", "C10\u00a0- C12"}) {
    const PartsList list = good("Ref,Value\n" + std::string(cell) + ",47u\n");
    ASSERT_EQ(list.capacitors.size(), 1U) << cell;
    EXPECT_THAT(list.capacitors[0].references, ElementsAre("C10", "C11", "C12")) << cell;
  }
  EXPECT_THAT(good("Ref,Value\n\"C1, C3 - C4 C9\",47u\n").capacitors[0].references,
              ElementsAre("C1", "C3", "C4", "C9"));
}

TEST(PartsList, RefusesARangeThatCannotBeCounted) {
  for (const char* cell : {"C50-C41", "C60-R65", "C70a-C70c", "C10 -", "C5-C5", "C1-C2-C3",
                           "C50 \u2013 C41", "\"C10-, C12\""}) {
    const quantities::Problem problem = bad("Ref,Value\nC1,1u\n" + std::string(cell) + ",47u\n");
    EXPECT_THAT(problem.message, testing::HasSubstr("range")) << cell;
    EXPECT_EQ(problem.place.line, 3) << cell;
    EXPECT_THAT(problem.place.pointer, testing::HasSubstr("column 1")) << cell;
  }
}

TEST(PartsList, ANameWithADashIsNoRange) {
  EXPECT_THAT(good("Ref,Value,Type\n-C12 -C13,47u,electrolytic\n").capacitors[0].references,
              ElementsAre("-C12", "-C13"));
  EXPECT_THAT(good("Ref,Value\nC12-A,47u\n").capacitors[0].references, ElementsAre("C12-A"));
}

}  // namespace
}  // namespace dryout::knowledge
