// Every question a reader answers: what fits comes back, what does not becomes one complaint that
// names the place, what stands there and what would do, and a fallback that harms nobody.
#include "documents/reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace dryout::documents {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class Asked : public testing::Test {
 protected:
  static constexpr const char* text = R"({
 "third": 0.5, "seven": 7, "word": "leaky", "name": "C12", "yes": true, "nothing": null,
 "words": ["a", "b"], "sizes": [1, 2.5], "within": {"deep": 3}, "empty": "", "blank id": "a b"
})";
  /// What was complained of since last time: "/pointer: message; accepted".
  std::string complaint() {
    std::string all;
    for (const quantities::Problem& problem : problems_) {
      EXPECT_EQ(problem.place.file, "set.json");
      all += problem.place.pointer + ": " + problem.message + "; " + problem.accepted;
    }
    problems_.clear();
    return all;
  }

  const Document document_ = *parse(text, "set.json");
  quantities::Problems problems_;
  const Reader root_ = Reader(document_, problems_);
};

TEST_F(Asked, WhatFitsComesBack) {
  EXPECT_EQ(root_.number("third", any_probability), 0.5);
  EXPECT_EQ(root_.whole_number("seven"), 7);
  EXPECT_EQ(root_.text("word"), "leaky");
  EXPECT_EQ(root_.id("name"), "C12");
  EXPECT_TRUE(root_.boolean("yes"));
  EXPECT_THAT(root_.texts("words"), ElementsAre("a", "b"));
  EXPECT_THAT(root_.numbers("sizes", positive), ElementsAre(1.0, 2.5));
  EXPECT_EQ(root_.one_of("word", {"sound", "leaky"}), 1U);
  EXPECT_EQ(root_.object("within").whole_number("deep"), 3);
  EXPECT_EQ(root_.optional_member("within")->pointer(), "/within");
  EXPECT_EQ(root_.optional_number("third"), 0.5);
  EXPECT_EQ(root_.optional_text("word"), "leaky");
  EXPECT_TRUE(root_.optional_boolean("yes", false));
  EXPECT_EQ(root_.place().line, 1);
  EXPECT_THAT(problems_, IsEmpty());
}

TEST_F(Asked, WhatMayBeLeftOutIsNoComplaint) {
  EXPECT_EQ(root_.optional_number("absent"), std::nullopt);
  EXPECT_EQ(root_.optional_number("nothing"), std::nullopt);
  EXPECT_EQ(root_.optional_text("nothing"), std::nullopt);
  EXPECT_THAT(root_.optional_texts("absent"), IsEmpty());
  EXPECT_THAT(root_.optional_texts("words"), ElementsAre("a", "b"));
  EXPECT_TRUE(root_.optional_boolean("absent", true));
  EXPECT_FALSE(root_.optional_member("absent").has_value());
  root_.for_each_optional("absent", [](const Reader&) { FAIL(); });
  EXPECT_THAT(problems_, IsEmpty());
}

TEST_F(Asked, AMissingMemberIsNamedWithWhatItWouldBe) {
  EXPECT_EQ(root_.number("age", {.min = 0.0, .max = 99.0}), 0.0);
  EXPECT_EQ(complaint(), ": \"age\" is missing; a number, 0 to 99");
  EXPECT_EQ(root_.text("age"), "");
  EXPECT_EQ(complaint(), ": \"age\" is missing; a text");
  EXPECT_EQ(root_.id("age"), "");
  EXPECT_EQ(complaint(), ": \"age\" is missing; an id");
  EXPECT_FALSE(root_.boolean("age"));
  EXPECT_EQ(complaint(), ": \"age\" is missing; true or false");
  EXPECT_EQ(root_.one_of("age", {"new", "old"}), 0U);
  EXPECT_EQ(complaint(), ": \"age\" is missing; new, old");
  EXPECT_FALSE(root_.object("age").has("deep"));
  EXPECT_EQ(complaint(), ": \"age\" is missing; an object");
  EXPECT_THAT(root_.texts("age"), IsEmpty());
  EXPECT_EQ(complaint(), ": \"age\" is missing; an array");
}

TEST_F(Asked, AWrongKindIsNamedWhereItStands) {
  EXPECT_EQ(root_.number("word", positive), 0.0);
  EXPECT_EQ(complaint(), "/word: wrong kind of value; a number, above 0");
  EXPECT_EQ(root_.text("empty"), "");
  EXPECT_EQ(complaint(), "/empty: wrong kind of value; a text that is not empty");
  EXPECT_EQ(root_.id("blank id"), "");
  EXPECT_EQ(complaint(), "/blank id: not an id; 1 to 64 of a-z A-Z 0-9 - _ .");
  EXPECT_FALSE(root_.boolean("word"));
  EXPECT_EQ(complaint(), "/word: wrong kind of value; true or false");
  EXPECT_EQ(root_.one_of("word", {"new", "old"}), 0U);
  EXPECT_EQ(complaint(), "/word: unknown word; new, old");
  EXPECT_EQ(root_.one_of("seven", {"new", "old"}), 0U);
  EXPECT_EQ(complaint(), "/seven: unknown word; new, old");
  EXPECT_EQ(root_.optional_text("seven"), std::nullopt);
  EXPECT_EQ(complaint(), "/seven: wrong kind of value; a text");
  EXPECT_FALSE(root_.object("seven").has("deep"));
  EXPECT_EQ(complaint(), "/seven: wrong kind of value; an object");
  EXPECT_THAT(root_.numbers("words"), ElementsAre(0.0, 0.0));
  EXPECT_EQ(complaint(),
            "/words/0: wrong kind of value; a number, any number"
            "/words/1: wrong kind of value; a number, any number");
  root_.for_each("within", [](const Reader&) { FAIL(); });
  EXPECT_EQ(complaint(), "/within: wrong kind of value; an array");
  const Reader number = *root_.optional_member("seven");
  number.accept_only({"a"});
  number.for_each_member([](const std::string&, const Reader&) { FAIL(); });
  EXPECT_EQ(complaint(),
            "/seven: wrong kind of value; an object/seven: wrong kind of value; an object");
}

TEST_F(Asked, ANumberOutOfItsRangeIsDrawnIntoIt) {
  EXPECT_EQ(root_.number("seven", any_probability), 1.0);
  EXPECT_EQ(complaint(), "/seven: number out of range; 0 to 1");
  EXPECT_EQ(root_.number("third", {.above = 0.5}), 1.0);
  EXPECT_EQ(complaint(), "/third: number out of range; above 0.5");
  EXPECT_EQ(root_.number("seven", {.max = 6.0, .above = 1.0}), 1.0);
  EXPECT_EQ(complaint(), "/seven: number out of range; above 1 up to 6");
  EXPECT_EQ(root_.number("seven", {.min = 8.0}), 8.0);
  EXPECT_EQ(complaint(), "/seven: number out of range; 8 or more");
  EXPECT_EQ(root_.number("seven", {.max = 6.0}), 6.0);
  EXPECT_EQ(complaint(), "/seven: number out of range; up to 6");
  EXPECT_EQ(root_.whole_number("third", non_negative), 0);
  EXPECT_EQ(complaint(), "/third: not a whole number; 0 or more");
}

TEST_F(Asked, AnUnknownKeyIsToldWithTheNearestThatIsKnown) {
  root_.object("within").accept_only({"deeps", "wide"});
  EXPECT_EQ(complaint(), "/within/deep: unknown key; did you mean \"deeps\"? accepted: deeps wide");
  root_.object("within").accept_only({"wide"});
  EXPECT_EQ(complaint(), "/within/deep: unknown key; one of wide");
}

TEST_F(Asked, AComplaintShowsAShortValueAndNamesALargeOne) {
  root_.object("within").complain("no", "yes");
  root_.complain("no", "yes");
  EXPECT_EQ(problems_.at(0).found, R"({"deep":3})");
  EXPECT_EQ(problems_.at(1).found, "an object") << "eleven members are not shown";
}

}  // namespace
}  // namespace dryout::documents
