// A case in which far more was told than can be weighed exactly: it is answered all the same, with
// a word on how good the figures are, and can be shown, undone and handed on.
#include <gtest/gtest.h>

#include <algorithm>

#include "casework/shipped_bench.h"
#include "casework/workshop.h"
#include "diagnosis/compile_network.h"
#include "diagnosis/drawn_answers.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the shipped knowledge

struct ToldMuch {
  std::unique_ptr<Workshop> workshop;
  std::int64_t number = 0;
  quantities::Result<CaseView> view;
};

/// Every symptom of the kind reported, up to `symptoms`, and `outcomes` checks, each third bad.
ToldMuch told_at_once(const std::string& equipment, std::size_t symptoms, std::size_t outcomes) {
  auto workshop = std::move(*Workshop::open(std::string(in_memory), shipped_knowledge(),
                                            [] { return std::int64_t{1'772'614'800}; }));
  const auto number = *workshop->start({equipment, "a set", 1975, "", ""});
  const CaseView before = *workshop->view(number);
  std::vector<Command> commands;
  for (const SymptomView& symptom : before.symptoms) {
    if (commands.size() < symptoms) {
      commands.emplace_back(ReportSymptom{symptom.id, Seen::yes});
    }
  }
  for (std::size_t i = 0; i < std::min(outcomes, before.next.size()); ++i) {
    const CheckView& check = before.next[i];
    commands.emplace_back(AcknowledgeCautions{check.check, check.place});
    commands.emplace_back(
        RecordOutcome{check.check, check.place, i % 3 == 0 ? Seen::yes : Seen::no, ""});
  }
  auto view = workshop->apply_all(number, commands);
  return {std::move(workshop), number, std::move(view)};
}

TEST(WideEvidence, IsAnsweredWithAWordOnHowGoodTheFiguresAre) {
  for (const char* const equipment : {"power-amplifier", "stereo-receiver"}) {
    const ToldMuch told = told_at_once(equipment, 30, 60);
    ASSERT_TRUE(told.view) << quantities::describe(told.view.problems());
    const Figures& figures = told.view->figures;
    EXPECT_EQ(figures.refused, "");
    EXPECT_GT(figures.draws, 1000U);
    EXPECT_GT(figures.within, 0.0);
    EXPECT_LT(figures.within, 0.06) << equipment;
    EXPECT_NE(figures.sentence.find("99 times in a hundred"), std::string::npos);
    EXPECT_EQ(told.view->notices.back(), figures.sentence);
    EXPECT_FALSE(told.view->next.empty());
    EXPECT_GT(told.view->suspects.front().suspicion.value(), 0.2);
    EXPECT_TRUE(told.workshop->undo(told.number));
    EXPECT_TRUE(told.workshop->export_case(told.number));
    EXPECT_TRUE(told.workshop->mending(told.number, 5.0).ok() ||
                !told.workshop->mending(told.number, 5.0).problems().empty());
    EXPECT_TRUE(told.workshop->plan_ahead(told.number, 1));
  }
}

TEST(WideEvidence, FewSymptomsStayExact) {
  const ToldMuch told = told_at_once("power-amplifier", 6, 6);
  ASSERT_TRUE(told.view);
  EXPECT_EQ(told.view->figures.draws, 0U);
  EXPECT_EQ(told.view->figures.sentence, "");
}

/// On the shipped kinds, where the exact answer can still be had, it lies within what is stated.
TEST(WideEvidence, TheStatedHalfWidthHoldsOnShippedKinds) {
  for (const char* const kind : {"valve-am-receiver", "bench-supply", "tape-echo"}) {
    const auto* equipment = knowledge::find(shipped_knowledge().equipment, kind);
    ASSERT_NE(equipment, nullptr);
    const auto compiled =
        diagnosis::compile_network(shipped_knowledge(), *equipment, {1975, 2026, {}});
    diagnosis::Evidence evidence;
    for (std::size_t f = 0; f < compiled.findings.size() && evidence.present.size() < 16; ++f) {
      if (!compiled.findings[f].symptom.empty()) {
        evidence.present.push_back(f);
      }
    }
    const auto exact = diagnosis::infer(compiled.network, evidence);
    const auto draws = diagnosis::PosteriorDraws::draw(compiled.network, evidence, {2000.0, 8192});
    ASSERT_TRUE(exact && draws);
    EXPECT_GT(draws->set_aside(), 0U) << kind;
    EXPECT_LT(draws->within(), 0.08) << kind;
    for (std::size_t i = 0; i < exact->items.size(); ++i) {
      EXPECT_NEAR(draws->posterior().items[i][0], exact->items[i][0], draws->within())
          << kind << ' ' << compiled.network.items[i].id;
    }
  }
}

}  // namespace
}  // namespace dryout::casework
