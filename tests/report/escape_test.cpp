#include "report/escape.h"

#include <gtest/gtest.h>

namespace dryout::report {
namespace {

TEST(EscapeHtml, WritesTheFiveSpecialCharactersAsEntities) {
  // HTML Living Standard, "Serializing HTML fragments", and XML 1.0, 2.4: these five suffice in
  // text and in quoted attributes (from memory).
  EXPECT_EQ(escape_html("<b a=\"x\" c='y'> & </b>"),
            "&lt;b a=&quot;x&quot; c=&#39;y&#39;&gt; &amp; &lt;/b&gt;");
  EXPECT_EQ(escape_html("&amp;"), "&amp;amp;");
}

TEST(Printable, LeavesOrdinaryTextOfAnyScriptAlone) {
  const std::string text = "47 \u00b5F, 2.4 \u03a9, \u05d0\u05d1, \u3042, \U0001F4FB\nnext\tline";
  EXPECT_EQ(printable(text), text);
}

TEST(Printable, ShowsWhereSomethingStoodThatCannotBeShown) {
  EXPECT_EQ(printable(std::string("a\0b", 3)), "a\uFFFDb");
  EXPECT_EQ(printable("a\x1b[0m\x7f"), "a\uFFFD[0m\uFFFD");
  EXPECT_EQ(printable("\u202Eabc\u2069"), "\uFFFDabc\uFFFD");
  EXPECT_EQ(printable("\u0085\uFFFE"), "\uFFFD\uFFFD");
}

TEST(Printable, RefusesIllFormedUtf8) {
  // The Unicode Standard, chapter 3, table 3-7 (from memory): no C0, C1, F5; no overlong E0 80..9F,
  // F0 80..8F; no surrogates ED A0..BF; nothing above F4 8F; no lone or missing continuation.
  for (const char* bytes : {"\xc0\xaf", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xf0\x8f\xbf\xbf",
                            "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xe2\x82", "\x80"}) {
    const std::string shown = printable(bytes);
    EXPECT_EQ(shown.find_first_not_of("\xEF\xBF\xBD"), std::string::npos) << shown;
    EXPECT_FALSE(shown.empty());
  }
  EXPECT_EQ(printable("\xe2\x82\xac \xf4\x8f\xbf\xbd"), "\u20ac \U0010FFFD");
}

TEST(Printable, WhereAContinuationIsMissingWhatFollowsIsNotSwallowed) {
  // The Unicode Standard, chapter 3, conformance clause C10 (from memory): an ill-formed sequence
  // must not consume the well-formed character behind it, or "<" would pass every escape.
  EXPECT_EQ(printable("\xc3<"), "\uFFFD<");
  EXPECT_EQ(printable("\xc3\u20ac"), "\uFFFD\u20ac");
  for (const char* torn : {"\xe2\x82<b>", "\xe2<b>", "\xf0\x9f\x93<b>", "\xf4<b>"}) {
    const std::u32string shown = characters_of(printable(torn));
    EXPECT_EQ(shown.substr(shown.find_first_not_of(U'\uFFFD')), U"<b>") << torn;
  }
  EXPECT_EQ(escape_html("\xc3<b>"), "\uFFFD&lt;b&gt;");
}

TEST(Characters, AreTheSameAfterThereAndBack) {
  const std::string text = "a\u00b5\u03a9\u20ac\U0001F4FB";
  EXPECT_EQ(characters_of(text).size(), 5U);
  EXPECT_EQ(text_of(characters_of(text)), text);
}

TEST(CutTo, CutsAtAWordAndCountsCharactersNotBytes) {
  EXPECT_EQ(cut_to("\u03a9\u03a9\u03a9", 3), "\u03a9\u03a9\u03a9");
  EXPECT_EQ(cut_to("the second detector valve", 13), "the second\u2026");
  EXPECT_EQ(cut_to(std::string(50, 'W'), 10), std::string(10, 'W') + "\u2026");
}

}  // namespace
}  // namespace dryout::report
