#include "documents/table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

namespace dryout::documents {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::vector<std::string> cells(std::string_view text, std::size_t row = 0) {
  const auto table = parse_table(text, "t.csv");
  EXPECT_TRUE(table.ok()) << quantities::describe(table.problems());
  return table ? table->rows.at(row).cells : std::vector<std::string>{};
}

// RFC 4180, section 2, rules 1 to 7: the examples of the rules themselves.
TEST(Table, ReadsTheExamplesOfRfc4180) {
  EXPECT_THAT(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", 1), ElementsAre("zzz", "yyy", "xxx"));
  EXPECT_THAT(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx", 1), ElementsAre("zzz", "yyy", "xxx"));
  EXPECT_THAT(cells("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), ElementsAre("aaa", "bbb", "ccc"));
  EXPECT_THAT(cells("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              ElementsAre("aaa", "b\r\nbb", "ccc"));
  EXPECT_THAT(cells("\"aaa\",\"b\"\"bb\",\"ccc\""), ElementsAre("aaa", "b\"bb", "ccc"));
}

TEST(Table, FindsTheSeparator) {
  EXPECT_THAT(cells("Ref;Value;Qty"), ElementsAre("Ref", "Value", "Qty"));
  EXPECT_THAT(cells("Ref\tValue\tQty"), ElementsAre("Ref", "Value", "Qty"));
  EXPECT_THAT(cells("\"C1,C2,C3,C4\";47u\nx;y"), ElementsAre("C1,C2,C3,C4", "47u"));
}

// As spreadsheets write where the comma is decimal: semicolons part the fields.
TEST(Table, ADecimalCommaIsNoSeparator) {
  EXPECT_THAT(cells("Ref;Value\nC1;4,7u\nC2;2,2u\nC3, C4;0,1u\n", 3),
              ElementsAre("C3, C4", "0,1u"));
  EXPECT_THAT(cells("Ref\tValue\nC1\t4,7u\n", 1), ElementsAre("C1", "4,7u"));
  EXPECT_THAT(cells("Ref,Value,Note\n\"C1;C2\",47u,x\nC3,10u,a;b\n", 2),
              ElementsAre("C3", "10u", "a;b"));
}

TEST(Table, TakesAByteOrderMarkAway) {
  EXPECT_THAT(cells("\xef\xbb\xbfRef,Value"), ElementsAre("Ref", "Value"));
}

TEST(Table, KnowsOnWhichLineARowBegan) {
  const auto table = parse_table("a,b\n\n\"x\ny\",c\n,\nd,e\n", "t.csv");
  ASSERT_TRUE(table.ok());
  ASSERT_EQ(table->rows.size(), 3U);  // rows without a filled cell are left out
  EXPECT_EQ(table->rows[1].line, 3);
  EXPECT_EQ(table->rows[2].line, 6);
}

struct Refused {
  const char* name;
  std::string text;
  int line;
  const char* message;
};

class RefusedTable : public ::testing::TestWithParam<Refused> {};

TEST_P(RefusedTable, NamesFileLineAndWhatIsAccepted) {
  const auto table = parse_table(GetParam().text, "t.csv");
  ASSERT_FALSE(table.ok());
  const quantities::Problem& problem = table.problems().front();
  EXPECT_EQ(problem.place.file, "t.csv");
  EXPECT_EQ(problem.place.line, GetParam().line);
  EXPECT_THAT(problem.message, HasSubstr(GetParam().message));
  EXPECT_FALSE(problem.accepted.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Corpus, RefusedTable,
    ::testing::Values(Refused{"Empty", "", 0, "empty"},
                      Refused{"OnlyBlanks", " \n,,\n", 0, "empty"},
                      Refused{"NeverClosed", "a,b\n\"c,d\n", 2, "never closed"},
                      Refused{"TextAfterQuote", "a,b\n\"c\"d,e\n", 2, "after a closing quote"},
                      Refused{"OldEncoding",
                              "a,b\n47\xb5"
                              "F,c\n",
                              2, "not UTF-8"},
                      Refused{"WideText",
                              std::string("\xff\xfe"
                                          "a\0",
                                          4),
                              1, "not UTF-8"},
                      Refused{"Nul", std::string("a,\0b", 4), 1, "not UTF-8"}),
    [](const auto& row) { return row.param.name; });

TEST(Table, WhatIsMadeToBeLargeIsRefusedWhereItStands) {
  const auto refused = [](const std::string& text) {
    const auto table = parse_table(text, "t.csv");
    EXPECT_FALSE(table.ok());
    return table.ok() ? quantities::Problem{} : table.problems().front();
  };
  EXPECT_THAT(refused("a,b\n" + std::string(15'000'000, ',')).message, HasSubstr("many fields"));
  std::string rows = "a,b\n";
  for (std::size_t i = 0; i < table_rows_max; ++i) rows += "1,2\n";
  const quantities::Problem problem = refused(rows);
  EXPECT_THAT(problem.message, HasSubstr("too many rows"));
  EXPECT_EQ(problem.place.line, static_cast<int>(table_rows_max) + 1);
  std::string cells;
  for (int i = 0; i < 10'000; ++i) cells += "1" + std::string(99, ',') + "\n";
  EXPECT_THAT(refused(cells).accepted, HasSubstr("at most 500000"));
}

TEST(Table, AnyBytesAreReadOrRefusedWithoutACrash) {
  std::mt19937 random(20260303);
  std::uniform_int_distribution<int> length(0, 40);
  const std::string letters = "\",;\t\r\n aC1\xc2\xb5\xff\x00";
  std::uniform_int_distribution<std::size_t> letter(0, letters.size());
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (int i = length(random); i > 0; --i) {
      const std::size_t at = letter(random);
      text += at == letters.size() ? '\0' : letters[at];
    }
    const auto table = parse_table(text, "t.csv");
    EXPECT_TRUE(table.ok() ? !table->rows.empty() : !table.problems().empty());
  }
}

}  // namespace
}  // namespace dryout::documents
