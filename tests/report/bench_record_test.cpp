#include "report/bench_record.h"

#include <gtest/gtest.h>

#include <limits>

#include "report/parts_sheet.h"
#include "report/read_back.h"
#include "report/render.h"
#include "report/sample_case.h"

namespace dryout::report_test {
namespace {

std::string text_of(const report::Document& document) {
  return text_of_html(report::render_html(document, report::Paper::a4).bytes);
}

std::string record(const casework::CaseView& view, const casework::MendingView& mending = {}) {
  return text_of(report::bench_record(view, mending, sample_imprint()));
}

TEST(BenchRecord, HoldsEverythingThatTheViewsHold) {
  const std::string text = record(sample_case(), sample_mending());
  for (const char* part : {"Steady hum",
                           "1 symptom of this equipment not asked for.",
                           "2.4 \u03a9",
                           "0.3 \u03a9",
                           "the maker's data sheet",
                           "bad: beyond its limit",
                           "is over the limit of 0.3 \u03a9",
                           "Read at 23 \u00b0C; a cold part reads higher.",
                           "+14.2 dB",
                           "-3.0 dB",
                           "+18.4 dB",
                           "dried out 97 %",
                           "Dried reservoirs leave ripple",
                           "Top cover",
                           "Open as this is printed",
                           "4700 \u00b5F 63 V",
                           "21 m\u03a9",
                           "Only the reservoirs",
                           "\u00b131",
                           "Higher voltage does no harm.",
                           "First power through a series lamp",
                           "passed",
                           "Not on record as done: ",
                           "Taken in: Larkfield 40",
                           "Note: wrong line (taken back)",
                           "Mains inside the case",
                           "Pull the plug first."}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << " is not in: " << text;
  }
}

TEST(BenchRecord, EveryReadingAndEveryLineOfTheLogIsThere) {
  const casework::CaseView view = crowded_case();
  const auto document = report::bench_record(view, crowded_mending(), sample_imprint());
  std::size_t reading_rows = 0;
  std::size_t log_rows = 0;
  for (const report::Block& block : document.blocks) {
    if (const auto* table = std::get_if<report::Table>(&block)) {
      reading_rows += table->columns.back().title == "What it is worth" ? table->rows.size() : 0;
      log_rows += table->columns.back().title == "What" ? table->rows.size() : 0;
    }
  }
  EXPECT_EQ(reading_rows, view.readings.size());
  EXPECT_EQ(log_rows, view.log.size());
}

TEST(BenchRecord, EveryRowHasAsManyCellsAsThereAreColumns) {
  for (const auto& document :
       {report::bench_record(crowded_case(), crowded_mending(), sample_imprint()),
        report::owner_report(crowded_case(), crowded_mending(), sample_imprint()),
        report::parts_sheet(crowded_case(), crowded_mending().shopping, sample_imprint())}) {
    for (const report::Block& block : document.blocks) {
      if (const auto* table = std::get_if<report::Table>(&block)) {
        for (const auto& row : table->rows) {
          EXPECT_EQ(row.size(), table->columns.size());
        }
      }
    }
  }
}

TEST(BenchRecord, AnEmptyCaseStillReads) {
  EXPECT_NE(record({}).find("None taken."), std::string::npos);
}

TEST(BenchRecord, AContradictionAndWhatHadNoEffectAreSaid) {
  casework::CaseView view = sample_case();
  view.contradiction = "A looked good; B looked bad.";
  view.notices = {"A reading without a limit."};
  const std::string text = record(view);
  EXPECT_NE(text.find("A looked good; B looked bad."), std::string::npos);
  EXPECT_NE(text.find("A reading without a limit."), std::string::npos);
}

casework::CheckView check_of(const std::string& title, double minutes) {
  casework::CheckView check;
  check.title = title;
  check.place_title = "+38 V rail";
  check.state = "powered";
  check.effort = quantities::minutes(minutes);
  check.access_effort = quantities::minutes(2.0);
  check.opens_titles = {"Top cover", "Shield"};
  check.good = "below 50 mV";
  check.bad = "above 200 mV";
  return check;
}

// Checks still to be made stand in an open record only: what would tell most, and no more of them
// than anybody makes. What was left out stands in every record, for it bounds what was proved.
TEST(BenchRecord, ChecksThatWereLeftOutAndThoseStillToMakeAreTold) {
  casework::CaseView view = sample_case();
  view.closed = false;
  for (auto& suspect : view.suspects) {
    suspect.mended.clear();
  }
  view.declined = {check_of("Output at full power", 5.0)};
  for (int i = 0; i < 15; ++i) {
    view.next.push_back(check_of("Ripple " + std::to_string(i), 3.0));
  }
  const std::string open = record(view);
  for (const char* part : {"Checks left out", "Output at full power: +38 V rail", "7 min",
                           "Checks that would tell most", "Ripple 4: +38 V rail", "5 min",
                           "Top cover", "Shield", "below 50 mV", "above 200 mV"}) {
    EXPECT_NE(open.find(part), std::string::npos) << part << " is not in: " << open;
  }
  EXPECT_EQ(open.find("Ripple 5"), std::string::npos);
  view.closed = true;
  const std::string closed = record(view);
  EXPECT_EQ(closed.find("Ripple 0"), std::string::npos);
  EXPECT_NE(closed.find("Output at full power"), std::string::npos);
}

TEST(BenchRecord, WhatTheTechnicianJudgedStandsBesideTheSuspect) {
  casework::CaseView view = sample_case();
  view.suspects[1].judged = "innocent";
  EXPECT_NE(record(view).find("judged innocent"), std::string::npos);
  EXPECT_EQ(record(sample_case()).find("judged"), std::string::npos);
}

TEST(BenchRecord, BatchesSampledAndWhatTheAdviceRestsOnAreTold) {
  casework::MendingView mending = sample_mending();
  mending.flips = "Below 12 EUR a part it would be the whole board.";
  mending.notices = {"No price is known of film parts: 1 EUR was taken."};
  mending.sampling_rule = "Sound to 5 %, spent from 30 %.";
  casework::CohortSample batch;
  batch.title = "Blue radial parts";
  batch.parts = 14;
  batch.measured = 5;
  batch.out_of_limit = 3;
  batch.spent = quantities::Probability(0.87);
  batch.sentence = "Replace the batch.";
  mending.sampling = {batch};
  const std::string text = record(sample_case(), mending);
  for (const char* part :
       {"Batches sampled", "Blue radial parts", "87 %", "Replace the batch.", "Sound to 5 %",
        "Below 12 EUR a part", "Figures missing", "No price is known of film parts"}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << " is not in: " << text;
  }
  EXPECT_EQ(record(sample_case(), sample_mending()).find("Batches sampled"), std::string::npos);
}

// Of an ordinary set some two hundred things are not thought of any more; they are counted.
TEST(BenchRecord, SuspectsUnderOnePercentAreCountedAndWhatWasDoneStays) {
  casework::CaseView view = sample_case();
  for (int i = 0; i < 40; ++i) {
    casework::SuspectView other;
    other.item = "cause:" + std::to_string(i);
    other.title = "Cracked joint " + std::to_string(i);
    other.suspicion = quantities::Probability(0.002);
    view.suspects.push_back(other);
  }
  view.suspects.back().mended = "resoldered";
  const std::string text = record(view);
  EXPECT_EQ(text.find("Cracked joint 0"), std::string::npos);
  EXPECT_NE(text.find("Cracked joint 39"), std::string::npos);
  EXPECT_NE(text.find("others are each under 1 % to make any of what was reported."),
            std::string::npos);
}

TEST(BenchRecord, WhatBoundsSeveralReadingsIsToldOnceWithTheirSteps) {
  casework::CaseView view = sample_case();
  view.readings.resize(1, view.readings.front());
  view.readings.push_back(view.readings.front());
  view.readings[0].event = 4;
  view.readings[1].event = 9;
  view.readings[0].caveats = view.readings[1].caveats = {"Brothers age together."};
  const std::string text = record(view);
  const std::size_t first = text.find("Of 4, 9: Brothers age together.");
  ASSERT_NE(first, std::string::npos) << text;
  EXPECT_EQ(text.find("Brothers age together.", first + 20), std::string::npos);
}

TEST(BenchRecord, InfiniteWeightsHaveWords) {
  const double infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(report::shown_weight({infinite}), "certain");
  EXPECT_EQ(report::shown_weight({-infinite}), "ruled out");
  EXPECT_EQ(report::shown_weight({12.34}), "+12.3 dB");
}

TEST(PartsSheet, ListsWhatToBuyAndWhy) {
  const std::string text =
      text_of(report::parts_sheet(sample_case(), sample_mending().shopping, sample_imprint()));
  EXPECT_NE(text.find("1 2 1 4700 \u00b5F 63 V 105 \u00b0C Reservoirs"), std::string::npos) << text;
  EXPECT_NE(text.find("Why these"), std::string::npos) << text;
  EXPECT_NE(text.find("1 kind of part, 3 pieces with the spares."), std::string::npos);
  EXPECT_NE(text_of(report::parts_sheet({}, {}, {})).find("Nothing is to be ordered"),
            std::string::npos);
}

}  // namespace
}  // namespace dryout::report_test
