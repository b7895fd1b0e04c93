#include <gtest/gtest.h>

#include "quantities/shown_text.h"
#include "report/bench_record.h"
#include "report/escape.h"
#include "report/owner_report.h"
#include "report/parts_sheet.h"
#include "report/read_back.h"
#include "report/render.h"
#include "report/sample_case.h"

namespace dryout::report_test {
namespace {

using report::Document;
using report::Paper;
using report::render_html;

std::vector<Document> every_document() {
  return {report::owner_report(sample_case(), sample_mending(), sample_imprint()),
          report::owner_report(crowded_case(), crowded_mending(), sample_imprint()),
          report::bench_record(crowded_case(), crowded_mending(), sample_imprint()),
          report::parts_sheet(crowded_case(), crowded_mending().shopping, sample_imprint()),
          report::owner_report({}, {}, {}),
          report::bench_record({}, {}, {})};
}

Document with_text(const std::string& text) {
  Document document;
  document.title = document.subtitle = document.running = text;
  document.blocks = {report::Heading{text},
                     report::Paragraph{text},
                     report::Points{{text}},
                     report::Facts{{{text, text}}},
                     report::Table{{{text}}, {{text}}},
                     report::Warning{text, text},
                     report::Figure{{100, 20, {report::Words{{0, 10}, text}}, text}, text}};
  return document;
}

TEST(RenderHtml, EveryPageIsWellFormedXml) {
  for (const Document& document : every_document()) {
    const std::string text = text_of_html(render_html(document, Paper::a4).bytes);
    EXPECT_NE(text.find(quantities::shown_line(document.title)), std::string::npos);
  }
}

TEST(RenderHtml, WhatWasTypedIsReadBackAsText) {
  const std::string typed = hostile_text();
  const std::string html = render_html(with_text(typed), Paper::a4).bytes;
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("\u202E"), std::string::npos);
  const std::string back = without_spaces(text_of_html(html));
  const std::string expected = without_spaces(quantities::shown_text(typed));
  std::size_t times = 0;
  for (std::size_t at = back.find(expected); at != std::string::npos;
       at = back.find(expected, at + 1)) {
    ++times;
  }
  // title (with the subtitle: 2), h1, subtitle, seven blocks of which three hold it twice and the
  // figure three times, footer
  EXPECT_EQ(times, 2U + 2U + 1U + 1U + 1U + 2U + 2U + 2U + 3U + 1U);
}

TEST(RenderHtml, NeedsNoOtherFileAndRunsNoScript) {
  for (const Document& document : every_document()) {
    const std::string html = render_html(document, Paper::a4).bytes;
    for (const char* reference : {"<script", "<img", "<link", " src=", " href=", "url(", "@import",
                                  "javascript:", " onload="}) {
      EXPECT_EQ(html.find(reference), std::string::npos) << reference;
    }
    EXPECT_NE(html.find("default-src 'none'"), std::string::npos);
  }
}

TEST(RenderHtml, PicturesAreInsideWithWordsForThoseWhoCannotSeeThem) {
  const Document document = report::owner_report(sample_case(), sample_mending(), sample_imprint());
  const std::string html = render_html(document, Paper::a4).bytes;
  EXPECT_NE(html.find("<svg "), std::string::npos);
  const std::string text = text_of_html(html);
  EXPECT_NE(text.find("Internal resistance (ESR), on a logarithmic scale."), std::string::npos);
  EXPECT_NE(text.find("2.4 \u03a9 \u2192 21 m\u03a9"), std::string::npos);
}

TEST(Render, WritesTheFormatThatIsAskedFor) {
  const report::Document document =
      report::owner_report(sample_case(), sample_mending(), sample_imprint());
  const auto html = report::render(document, report::Format::html, report::Paper::a4);
  const auto pdf = report::render(document, report::Format::pdf, report::Paper::a4);
  ASSERT_TRUE(html.ok() && pdf.ok());
  EXPECT_EQ(html->bytes, report::render_html(document, report::Paper::a4).bytes);
  EXPECT_EQ(pdf->bytes.substr(0, 5), "%PDF-");
  EXPECT_EQ(report::format_of("a." + std::string(word_of(report::Format::pdf))),
            report::Format::pdf);
  EXPECT_EQ(report::format_of("a." + std::string(word_of(report::Format::html))),
            report::Format::html);
}

TEST(FormatOf, GoesByTheEnding) {
  EXPECT_EQ(report::format_of("a.PDF"), report::Format::pdf);
  EXPECT_EQ(report::format_of("x/a.b.html"), report::Format::html);
  EXPECT_EQ(report::format_of("a.htm"), report::Format::html);
  for (const char* other : {"a.txt", "pdf", ".pdf", "a.pdf.part", ""}) {
    EXPECT_FALSE(report::format_of(other).has_value()) << other;
  }
}

}  // namespace
}  // namespace dryout::report_test
