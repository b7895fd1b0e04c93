#include <gtest/gtest.h>

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

report::Rendered pdf_of(const Document& document, Paper paper = Paper::a4) {
  auto rendered = report::render_pdf(document, paper);
  EXPECT_TRUE(rendered.ok());
  return rendered.ok() ? *rendered : report::Rendered{};
}

Document owner_sample() {
  return report::owner_report(sample_case(), sample_mending(), sample_imprint());
}

/// The text of each page.
std::vector<std::string> pages_of(const std::string& bytes) {
  std::vector<std::string> pages(1);
  for (const char character : text_of_pdf(bytes)) {
    if (character == '\f') {
      pages.emplace_back();
    } else {
      pages.back() += character;
    }
  }
  pages.pop_back();  // pdftotext ends every page with a form feed
  return pages;
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

TEST(RenderPdf, PaperIsA4OrLetterAsTheStandardsSay) {
  // ISO 216: A4 is 210 mm x 297 mm, in points of 1/72 inch 595.28 x 841.89.
  EXPECT_EQ(pdf_fact(pdf_of(owner_sample()).bytes, "Page size"), "595.276 x 841.89 pts (A4)");
  // ANSI/ASME Y14.1, size A: 8.5 in x 11 in (from memory).
  EXPECT_EQ(pdf_fact(pdf_of(owner_sample(), Paper::letter).bytes, "Page size"),
            "612 x 792 pts (letter)");
}

TEST(RenderPdf, TheFileSaysWhatItIsAndWhenItWasMade) {
  const std::string pdf = pdf_of(owner_sample()).bytes;
  EXPECT_EQ(pdf_fact(pdf, "Title"), "About your repair: Larkfield 40");
  EXPECT_EQ(pdf_fact(pdf, "Author"), "Quayside Bench");
  // 1795617395 s after 1970 is 2026-11-25 14:36:35 UTC (checked with date -u -d @1795617395).
  EXPECT_EQ(pdf_fact(pdf, "CreationDate"), "Wed Nov 25 14:36:35 2026 UTC");
}

TEST(RenderPdf, TheSameDocumentGivesTheSameBytes) {
  EXPECT_EQ(pdf_of(owner_sample()).bytes, pdf_of(owner_sample()).bytes);
}

TEST(RenderPdf, OhmsAndMicrosComeOutRight) {
  const std::string text = text_of_pdf(pdf_of(owner_sample()).bytes);
  EXPECT_NE(text.find("2.4 \u03a9"), std::string::npos) << text;
  EXPECT_NE(text.find("4700 \u00b5F"), std::string::npos) << text;
}

TEST(RenderPdf, WhatWasTypedStandsThereLiterally) {
  Document document;
  document.title = "Title";
  document.blocks = {report::Paragraph{hostile_text()}};
  const std::string text = without_spaces(text_of_pdf(pdf_of(document).bytes));
  EXPECT_NE(text.find("<script>alert(\"1\")</script>&'quoted']]><!--"), std::string::npos) << text;
  EXPECT_NE(text.find("evil"), std::string::npos);
  EXPECT_NE(text.find("->!=\u03a9\u00b5"), std::string::npos) << text;
  EXPECT_NE(text.find(std::string(300, 'W')), std::string::npos) << "a long word must wrap";
  EXPECT_NE(text.find("end-of-it"), std::string::npos);
}

TEST(RenderPdf, WhatSteersOrForgesIsSeenAsAnEscape) {
  casework::CaseView view = sample_case();
  view.set_name = "Lark\u202Efoo\u200B";
  view.owner = "A\nforged";
  const std::string text =
      text_of_pdf(pdf_of(report::bench_record(view, sample_mending(), sample_imprint())).bytes);
  EXPECT_NE(text.find("Lark\\u202efoo\\u200b"), std::string::npos);
  EXPECT_NE(text.find("A\\nforged"), std::string::npos);
}

TEST(RenderPdf, AnOwnerGetsOneOrTwoPagesWhateverTheCaseHolds) {
  EXPECT_LE(pdf_of(owner_sample()).pages, 2);
  const Document crowded =
      report::owner_report(crowded_case(), crowded_mending(), sample_imprint());
  EXPECT_EQ(pdf_of(crowded).pages, 2);
  EXPECT_LE(pdf_of(crowded, Paper::letter).pages, 2);
  EXPECT_EQ(pdf_of(report::owner_report({}, {}, {})).pages, 1);
}

TEST(RenderPdf, EveryPageSaysWhichOfHowManyItIs) {
  const report::Rendered pdf =
      pdf_of(report::bench_record(crowded_case(), crowded_mending(), sample_imprint()));
  const auto pages = pages_of(pdf.bytes);
  ASSERT_EQ(pages.size(), static_cast<std::size_t>(pdf.pages));
  ASSERT_GT(pdf.pages, 3);
  EXPECT_EQ(pdf_fact(pdf.bytes, "Pages"), std::to_string(pdf.pages));
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string number =
        "Page " + std::to_string(i + 1) + " of " + std::to_string(pages.size());
    EXPECT_NE(pages[i].find(number), std::string::npos) << pages[i];
  }
}

TEST(RenderPdf, ATableOverSeveralPagesHasItsHeadingOnEach) {
  Document document;
  document.title = "Long table";
  report::Table table{{{"Reference"}, {"Value", true}}, {}};
  for (int i = 0; i < 200; ++i) {
    table.rows.push_back({"row-" + std::to_string(i) + "-end", std::to_string(i)});
  }
  document.blocks = {table};
  const auto pages = pages_of(pdf_of(document).bytes);
  ASSERT_GT(pages.size(), 2U);
  std::string all;
  for (const std::string& page : pages) {
    EXPECT_EQ(times(page, "Reference"), 1U) << page;
    all += page;
  }
  for (int i = 0; i < 200; ++i) {
    EXPECT_EQ(times(all, "row-" + std::to_string(i) + "-end"), 1U) << i;
  }
}

TEST(RenderPdf, ARowTallerThanAPageGoesOnOnTheNext) {
  Document document;
  document.title = "Tall row";
  std::string tall;
  for (int i = 0; i < 2000; ++i) {
    tall += "word" + std::to_string(i) + ' ';
  }
  document.blocks = {report::Table{{{"Short"}, {"Tall"}}, {{"once", tall}}}};
  const std::string text = text_of_pdf(pdf_of(document).bytes);
  EXPECT_EQ(times(text, "once"), 1U);
  for (const int i : {0, 500, 1000, 1500, 1999}) {
    EXPECT_EQ(times(text, "word" + std::to_string(i) + ' ') +
                  times(text, "word" + std::to_string(i) + '\n'),
              1U)
        << i;
  }
}

TEST(RenderPdf, NoHeadingStandsAloneAtAPagesFoot) {
  for (int lead = 30; lead < 60; ++lead) {
    Document document;
    document.title = "Headings";
    for (int i = 0; i < lead; ++i) {
      document.blocks.emplace_back(report::Facts{{{"line", std::to_string(i)}}});
    }
    document.blocks.emplace_back(report::Heading{"The heading"});
    document.blocks.emplace_back(report::Paragraph{"What follows it."});
    for (const std::string& page : pages_of(pdf_of(document).bytes)) {
      EXPECT_EQ(times(page, "The heading"), times(page, "What follows it.")) << lead << " lines\n"
                                                                             << page;
    }
  }
}

}  // namespace
}  // namespace dryout::report_test
