#include "report/owner_report.h"

#include <gtest/gtest.h>

#include "report/read_back.h"
#include "report/render.h"
#include "report/sample_case.h"

namespace dryout::report_test {
namespace {

using casework::CaseView;
using casework::MendingView;

std::string told(const CaseView& view, const MendingView& mending = {}) {
  const auto document = report::owner_report(view, mending, sample_imprint());
  return text_of_html(report::render_html(document, report::Paper::a4).bytes);
}

/// The same set, with no cause found and nothing mended.
CaseView unsolved(CaseView view) {
  view.cause = "";
  view.suspects.front().mended = "";
  return view;
}

::testing::AssertionResult says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos
             ? ::testing::AssertionSuccess()
             : ::testing::AssertionFailure() << '"' << part << "\" is not in: " << text;
}

TEST(OwnerReport, TellsComplaintCauseGroundAndCertainty) {
  const std::string text = told(sample_case(), sample_mending());
  EXPECT_TRUE(says(text, "\u201chums with the volume right down, worse since the winter\u201d"));
  EXPECT_TRUE(says(text, "The fault was found: reservoirs."));
  EXPECT_TRUE(says(text,
                   "Measured: its internal resistance (ESR) was 2.4 \u03a9, where 0.3 \u03a9 "
                   "is the limit by the maker's data sheet."));
  EXPECT_TRUE(says(text, "almost certain (97 %)"));
  EXPECT_TRUE(says(text, "Speaks strongly for it: Ripple on the +38 V rail looked bad."));
  EXPECT_TRUE(says(text, "Speaks a little against it: The fuse held."));
}

TEST(OwnerReport, SaysSoWhereNothingWasMeasured) {
  CaseView view = sample_case();
  view.readings.clear();
  view.suspects.front().suspicion = quantities::Probability(0.4);
  const std::string text = told(view);
  for (const char* part : {"Not measured beyond a limit: this is concluded", "possible (40 %)",
                           "So it is not proven."}) {
    EXPECT_TRUE(says(text, part));
  }
}

TEST(OwnerReport, ARepairThatIsNotClosedIsNotCalledTheCure) {
  CaseView view = sample_case();
  view.closed = false;
  view.cause = "";
  const std::string text = told(view, sample_mending());
  EXPECT_TRUE(says(text, "A repair has been made; the job is not closed yet."));
  EXPECT_TRUE(says(text, "Work was done in 1 place."));
  EXPECT_FALSE(says(text, "The fault was found"));
}

TEST(OwnerReport, WhatRestsOnJudgementAndWhatDoesNotFitIsSaid) {
  CaseView view = sample_case();
  EXPECT_FALSE(says(told(view), "judgement"));
  view.suspects.front().judged = "at-fault";
  view.contradiction = "the lamp and the fuse";
  const std::string text = told(view);
  EXPECT_TRUE(says(text, "includes the technician's own judgement"));
  EXPECT_TRUE(says(text, "Some of what was seen does not fit together"));
}

TEST(OwnerReport, AReadingWithoutALimitNamesNone) {
  CaseView view = sample_case();
  view.readings.front().limit.reset();
  const std::string text = told(view);
  EXPECT_TRUE(says(text, "was 2.4 \u03a9."));
  EXPECT_FALSE(says(text, "is the limit by"));
}

TEST(OwnerReport, NeverCallsACaseSolvedThatIsNot) {
  const std::string text = told(unsolved(sample_case()));
  EXPECT_TRUE(says(text, "We did not find the cause of the complaint. Nothing was replaced."));
  EXPECT_FALSE(says(text, "The fault was found"));
  EXPECT_FALSE(says(text, "The cause:"));
}

TEST(OwnerReport, PartsReplacedWithoutACauseAreNotCalledTheCause) {
  CaseView view = sample_case();
  view.cause = "";
  EXPECT_TRUE(says(told(view, sample_mending()), "It is not proven that any of it was the cause."));
}

TEST(OwnerReport, AnOpenCaseIsWhereTheWorkStandsAndWhatCouldBeDone) {
  CaseView view = unsolved(sample_case());
  view.closed = false;
  MendingView mending = sample_mending();
  mending.fitted.clear();
  const std::string text = told(view, mending);
  EXPECT_TRUE(says(text, "Where your repair stands"));
  EXPECT_TRUE(says(text, "Most suspected: reservoirs"));
  EXPECT_TRUE(says(text, "it costs least to replace: only what is held to be bad."));
  EXPECT_TRUE(says(text, "not an offer"));
  EXPECT_FALSE(says(text, "What was done, and why"));
}

TEST(OwnerReport, EachReplacedPartHasTheStrongestHonestReason) {
  CaseView view = sample_case();
  view.suspects[1].mended = "replaced";
  view.suspects[2].mended = "replaced";
  view.suspects[2].unsound = quantities::Probability(0.7);
  const std::string text = told(view);
  EXPECT_TRUE(says(text, "The cause. Measured 2.4 \u03a9, limit 0.3 \u03a9."));
  EXPECT_TRUE(says(text, "As a precaution; not proven bad."));
  EXPECT_TRUE(says(text, "Most likely worn (70 %), not measured beyond a limit."));
}

TEST(OwnerReport, WhatWasLeftIsToldWithItsRiskWithOrWithoutMending) {
  EXPECT_TRUE(says(told(sample_case(), sample_mending()),
                   "Coupling capacitors were left: 31 % likely to be worn."));
  EXPECT_TRUE(says(told(sample_case()), "Coupling capacitors: left as it is; 31 % likely"));
}

TEST(OwnerReport, WhatAnAdvisedRepairWouldLeaveIsNotToldBeforeIt) {
  CaseView view = sample_case();
  view.cause = "";
  view.suspects.front().mended = "";
  MendingView mending = sample_mending();
  mending.fitted.clear();
  const std::string text = told(view, mending);
  EXPECT_FALSE(says(text, "Coupling capacitors were left"));
  EXPECT_TRUE(says(text, "Reservoirs: left as it is; 97 % likely"));
}

TEST(OwnerReport, TestsThatDidNotPassStandFirst) {
  MendingView mending = sample_mending();
  mending.proof.front().failed = true;
  const std::string text = told(sample_case(), mending);
  EXPECT_TRUE(says(text, "A test after the repair did not pass"));
  EXPECT_TRUE(says(text, "Did not pass: first power through a series lamp."));
  EXPECT_TRUE(says(text, "Not on record as done: soak for two hours."));
}

TEST(OwnerReport, ASetWithMainsIsNotToBeOpened) {
  const std::string text = told(sample_case());
  EXPECT_TRUE(says(text, "Please do not open it Leave its case shut, even with the plug pulled."));
  EXPECT_TRUE(says(text, "Mains voltage is present inside"));
  EXPECT_TRUE(says(text, "Local electrical codes, licensed practice and the maker's instructions"));
}

TEST(OwnerReport, ASetWithValvesIsNotToBeOpenedEither) {
  CaseView view = sample_case();
  view.hazards = {{"high-tension", "High tension", "", "high-tension"}};
  view.high_tension = true;
  EXPECT_TRUE(says(told(view), "High voltage inside can kill, and stays after the plug"));
}

TEST(OwnerReport, ABurnByRadioFrequencyIsNoHighVoltageInside) {
  CaseView view = sample_case();
  view.hazards = {{"rf-burn", "Radio-frequency burns and fields", "", "high-tension"}};
  EXPECT_FALSE(says(told(view), "High voltage inside"));
  EXPECT_TRUE(says(told(view), "Do not touch the antenna"));
}

TEST(OwnerReport, ABatterySetIsNotCalledDangerous) {
  CaseView view = sample_case();
  view.hazards = {{"leaked-battery", "A leaked battery", "", "none"}};
  const std::string text = told(view);
  EXPECT_FALSE(says(text, "Please do not open"));
  EXPECT_TRUE(says(text, "Take the batteries out when it stands unused."));
}

TEST(OwnerReport, TheTradesWordsThatOccurAreExplained) {
  const std::string text = told(sample_case(), sample_mending());
  EXPECT_TRUE(says(text, "ESR: The internal resistance of a capacitor"));
  EXPECT_TRUE(says(text, "Rail: A supply voltage inside the set"));
  EXPECT_FALSE(says(text, "Electrolyte: "));
}

TEST(OwnerReport, ComplaintsThatAreGoneAreNamedAtOnce) {
  CaseView view = sample_case();
  MendingView mending = sample_mending();
  casework::ProofStep retest;
  retest.symptom = view.symptoms.front().id;
  retest.title = "Is it gone";
  retest.done = true;
  mending.proof = {retest};
  EXPECT_TRUE(says(told(view, mending), "Tried again after the work, and gone: "));
  mending.proof.front().failed = true;
  EXPECT_FALSE(says(told(view, mending), "and gone: "));
}

TEST(OwnerReport, AStepTakenBackIsNotTold) {
  EXPECT_FALSE(says(told(sample_case(), sample_mending()), "wrong line"));
}

TEST(OwnerReport, AnEmptyCaseStillReads) {
  const std::string text = told({});
  EXPECT_TRUE(says(text, "The work has begun. Nothing has been found yet."));
}

TEST(OwnerReport, LongListsAreCutAndSaySoButForWhatWasChanged) {
  const std::string text = told(crowded_case(), crowded_mending());
  for (const auto& fitted : crowded_mending().fitted) {
    EXPECT_TRUE(says(text, fitted.item_title.substr(0, 20))) << fitted.item_title;
  }
  EXPECT_TRUE(says(text, "readings; the bench record has all."));
}

TEST(OwnerReport, AShortAcrossTheMainsIsAFaultAndADangerNotAgeing) {
  CaseView view = unsolved(sample_case());
  view.closed = false;
  view.complaint = "";
  view.symptoms.clear();
  view.leading.capacitor = view.leading.other = quantities::Probability(0.0);
  view.readings.resize(1);
  view.readings[0].item_title = "Across the mains";
  view.readings[0].kind = "dc-resistance";
  view.readings[0].verdict = "suspect-short";
  view.readings[0].shorted = true;
  view.readings[0].limit.reset();
  MendingView mending;
  mending.preventive = true;
  mending.dangers = {"Across the mains: a part there that is not sound burns."};
  const std::string text = told(view, mending);
  EXPECT_TRUE(says(text, "A fault was found: 1 part is shorted."));
  EXPECT_TRUE(says(text, "Please do not plug the set in"));
  EXPECT_TRUE(says(text, "Shorted, measured by itself: Across the mains."));
  EXPECT_TRUE(says(text, "not sound burns"));
  EXPECT_FALSE(says(text, "No fault was seen"));
  EXPECT_FALSE(says(text, "ageing"));
}

}  // namespace
}  // namespace dryout::report_test
