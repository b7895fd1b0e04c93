#include "documents/parse.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <string>

#include "documents/reader.h"

namespace dryout::documents {
namespace {

using quantities::Problems;

std::string refusal(std::string_view text, const Limits& limits = {}) {
  const auto document = parse(text, "f.json", limits);
  return document.ok() ? "accepted: " + to_line(document->root) : describe(document.problems());
}

TEST(Parse, KeepsOrderAndRemembersLines) {
  const auto document = parse("{\n \"b\": 1,\n \"a\": [\n  2\n ]\n}", "f.json");
  ASSERT_TRUE(document.ok());
  EXPECT_EQ(to_line(document->root), R"({"b":1,"a":[2]})");
  EXPECT_EQ(document->root.find("b")->line(), 2);
  EXPECT_EQ(document->root.find("a")->line(), 3);
  EXPECT_EQ(document->root.find("a")->array_elements()->front().line(), 4);
}

TEST(Parse, ReadsBackWhatItWritesToTheLastDigit) {
  const Value value = Value::object({{"x", 0.1},
                                     {"tiny", 4.9e-324},
                                     {"big", 1.7976931348623157e308},
                                     {"whole", 9007199254740992.0},
                                     {"text", "µ\"\\\n"},
                                     {"list", Value::array({true, Value(), 1})}});
  const auto back = parse(to_text(value), "f.json");
  ASSERT_TRUE(back.ok());
  EXPECT_TRUE(back->root == value);
}

// RFC 8259: what is not JSON text, and what a careful reader refuses beyond it.
TEST(Parse, RefusesWhatIsNotJsonAndNamesTheLine) {
  EXPECT_NE(refusal("{\n\"a\": nope}").find("f.json:2"), std::string::npos)
      << refusal("{\n\"a\": nope}");
  for (const char* text :
       {"", "{", "[1,]", "{\"a\":1,}", "NaN", "[Infinity]", "[1e999]", "\"\xff\"", "{\"a\":1} x",
        "'a'", "[01]", "/* */ 1", "{\"a\":1,\"a\":2}"}) {
    EXPECT_EQ(refusal(text).substr(0, 7), "f.json:") << text << " -> " << refusal(text);
  }
}

TEST(Parse, RefusesDeepNestingWithoutFallingOver) {
  const std::string deep = std::string(1'000'000, '[');
  EXPECT_NE(refusal(deep).find("nested too deeply"), std::string::npos);
}

TEST(Parse, TakesNestingUpToItsBoundAndNotOneMore) {
  const int most = Limits().depth_max;
  const auto nested = [](int levels) {
    const auto count = static_cast<std::size_t>(levels);
    return std::string(count, '[') + std::string(count, ']');
  };
  EXPECT_TRUE(parse(nested(most), "deep.json").ok());
  EXPECT_NE(refusal(nested(most + 1)).find("nested too deeply"), std::string::npos);
}

TEST(Parse, RefusesAFileBeyondItsBound) {
  EXPECT_NE(refusal("[1, 2, 3]", {.bytes_max = 4}).find("too large"), std::string::npos);
}

TEST(ReadFile, NamesAMissingFileAndAFolder) {
  EXPECT_NE(describe(read_file("/no/such.json").problems()).find("/no/such.json"),
            std::string::npos);
  EXPECT_NE(describe(read_file("/").problems()).find("not a regular file"), std::string::npos);
}

TEST(Reader, CollectsEveryProblemWithItsPointer) {
  const auto document =
      parse("{\"leek\": 1,\n\"p\": 1.5,\n\"items\": [{\"id\": \"a b\"}, {\"id\": 7}]}", "n.json");
  ASSERT_TRUE(document.ok());
  Problems problems;
  const Reader root(*document, problems);
  root.accept_only({"leak", "p", "items"});
  (void)root.number("leak", any_probability);
  (void)root.number("p", any_probability);
  root.for_each("items", [](const Reader& item) { (void)item.id("id"); });
  const std::string told = describe(problems);
  EXPECT_EQ(problems.size(), 5U) << told;
  EXPECT_NE(told.find("did you mean \"leak\"?"), std::string::npos) << told;
  EXPECT_NE(told.find("n.json:2 (/p): number out of range; found 1.5; accepted: 0 to 1"),
            std::string::npos)
      << told;
  EXPECT_NE(told.find("n.json:3 (/items/1/id)"), std::string::npos) << told;
}

TEST(Reader, EscapesKeysInPointersByRfc6901) {
  const auto document = parse(R"({"a/b": {"c~d": 1}})", "n.json");
  Problems problems;
  Reader(*document, problems).for_each_member([](const std::string&, const Reader& member) {
    member.accept_only({"x"});
  });
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].place.pointer, "/a~1b/c~0d");
}

TEST(Reader, GivesHarmlessFallbacksAfterAWrongKind) {
  const auto document = parse(R"({"n": "x", "t": 3, "o": [], "l": {}, "w": "tired"})", "n.json");
  Problems problems;
  const Reader root(*document, problems);
  EXPECT_EQ(root.number("n"), 0.0);
  EXPECT_EQ(root.text("t"), "");
  EXPECT_EQ(root.object("o").has("x"), false);
  root.for_each("l", [](const Reader&) { FAIL(); });
  EXPECT_EQ(root.one_of("w", {"sound", "open"}), 0U);
  EXPECT_EQ(root.whole_number("missing"), 0);
  EXPECT_EQ(problems.size(), 6U) << describe(problems);
}

}  // namespace
}  // namespace dryout::documents
