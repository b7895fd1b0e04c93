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

TEST(EscapeHtml, ShowsWhatSteersAndSwallowsNothing) {
  EXPECT_EQ(escape_html("\xc3<b>"), "\uFFFD&lt;b&gt;");
  EXPECT_EQ(escape_html("\u202E<"), "\\u202e&lt;");
}

TEST(CutTo, CutsAtAWordAndCountsCharactersNotBytes) {
  EXPECT_EQ(cut_to("\u03a9\u03a9\u03a9", 3), "\u03a9\u03a9\u03a9");
  EXPECT_EQ(cut_to("the second detector valve", 13), "the second\u2026");
  EXPECT_EQ(cut_to(std::string(50, 'W'), 10), std::string(10, 'W') + "\u2026");
}

}  // namespace
}  // namespace dryout::report
