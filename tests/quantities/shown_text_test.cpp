#include "quantities/shown_text.h"

#include <gtest/gtest.h>

namespace dryout::quantities {
namespace {

TEST(ShownText, LeavesOrdinaryTextOfAnyScriptAlone) {
  const std::string text = "47 \u00b5F, 2.4 \u03a9, \u05d0\u05d1, \u3042, \U0001F4FB\nnext\tline";
  EXPECT_EQ(shown_text(text), text);
}

TEST(ShownText, WritesWhatIsUnseenAsJsonEscapesIt) {
  // RFC 8259, section 7: \uXXXX, and beyond the first plane the two halves of UTF-16.
  EXPECT_EQ(shown_text(std::string("a\0b", 3)), "a\\u0000b");
  EXPECT_EQ(shown_text("a\x1b[0m\x7f\r"), "a\\u001b[0m\\u007f\\u000d");
  EXPECT_EQ(shown_text("\u0085\u009b\uFFFE"), "\\u0085\\u009b\\ufffe");
  EXPECT_EQ(shown_text("\U000E0041"), "\\udb40\\udc41");
}

TEST(ShownText, EveryMarkOfDirectionAndEverySignWithoutWidthIsSeen) {
  // Unicode Standard Annex 9, table 4 (the explicit directional formatting characters), and the
  // signs of general category Cf without a glyph; listed here from memory.
  for (const unsigned code :
       {0x061CU, 0x200BU, 0x200CU, 0x200DU, 0x200EU, 0x200FU, 0x202AU, 0x202BU,
        0x202CU, 0x202DU, 0x202EU, 0x2028U, 0x2029U, 0x2060U, 0x2066U, 0x2067U,
        0x2068U, 0x2069U, 0xFEFFU, 0x00ADU, 0x180EU, 0x3164U}) {
    const std::u32string mark(1, static_cast<char32_t>(code));
    const std::string shown = shown_text("a" + text_of(mark) + "b");
    EXPECT_EQ(shown.size(), 8U) << code;
    EXPECT_EQ(shown.substr(1, 2), "\\u");
  }
}

TEST(ShownText, ALineStaysOneLine) {
  EXPECT_EQ(shown_line("Lark\n     7  2026-03-04 open\tforged"),
            "Lark\\n     7  2026-03-04 open\\tforged");
  EXPECT_EQ(shown_text("a\nb\tc"), "a\nb\tc");
}

TEST(ShownText, KnowsHowMuchOfACharacterIsStillToCome) {
  const std::string text = "\u00b5\u20ac\U0001F4FBa";
  const std::size_t begun[] = {0, 1, 0, 1, 2, 0, 1, 2, 3, 0, 0};
  for (std::size_t i = 0; i <= text.size(); ++i) {
    EXPECT_EQ(begun_character(std::string_view(text).substr(0, i)), begun[i]) << i;
  }
  EXPECT_EQ(begun_character("\x80\x80\x80\x80"), 0U);
}

TEST(ShownText, RefusesIllFormedUtf8) {
  // The Unicode Standard, chapter 3, table 3-7 (from memory): no C0, C1, F5; no overlong E0 80..9F,
  // F0 80..8F; no surrogates ED A0..BF; nothing above F4 8F; no lone or missing continuation.
  for (const char* bytes : {"\xc0\xaf", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xf0\x8f\xbf\xbf",
                            "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xe2\x82", "\x80"}) {
    const std::string shown = shown_text(bytes);
    EXPECT_EQ(shown.find_first_not_of("\xEF\xBF\xBD"), std::string::npos) << shown;
    EXPECT_FALSE(shown.empty());
  }
  EXPECT_EQ(shown_text("\xe2\x82\xac \xf4\x8f\xbf\xbd"), "\u20ac \U0010FFFD");
}

TEST(ShownText, WhereAContinuationIsMissingWhatFollowsIsNotSwallowed) {
  // The Unicode Standard, chapter 3, conformance clause C10 (from memory): an ill-formed sequence
  // must not consume the well-formed character behind it, or "<" would pass every escape.
  EXPECT_EQ(shown_text("\xc3<"), "\uFFFD<");
  EXPECT_EQ(shown_text("\xc3\u20ac"), "\uFFFD\u20ac");
  for (const char* torn : {"\xe2\x82<b>", "\xe2<b>", "\xf0\x9f\x93<b>", "\xf4<b>"}) {
    const std::u32string shown = characters_of(shown_text(torn));
    EXPECT_EQ(shown.substr(shown.find_first_not_of(U'\uFFFD')), U"<b>") << torn;
  }
}

TEST(Characters, AreTheSameAfterThereAndBack) {
  const std::string text = "a\u00b5\u03a9\u20ac\U0001F4FB";
  EXPECT_EQ(characters_of(text).size(), 5U);
  EXPECT_EQ(text_of(characters_of(text)), text);
}

}  // namespace
}  // namespace dryout::quantities
