// The invented lantern with a second board of its own electrolytics, some of which seep, and the
// shop's figures as shipped: a set in which every way of mending is another one.
#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <memory>
#include <string>

#include "casework/invented_bench.h"
#include "casework/mending_view.h"

namespace dryout::casework::tests {

/// Groups: reservoirs (2) and smoothing (4) of one cohort, on the main board; tone (6) and film
/// coupling (3) on the front board, behind ten minutes of work. `seeps`: P(seeped) of a spent part.
[[nodiscard]] knowledge::KnowledgeBase two_board_knowledge(double seeps = 0.05);

/// A workshop on it, with the shipped figures and rules of substitution.
[[nodiscard]] std::unique_ptr<Workshop> mending_workshop(
    knowledge::KnowledgeBase knowledge = two_board_knowledge());

/// A workshop on all the shipped knowledge, with the shipped figures and rules of substitution.
[[nodiscard]] std::unique_ptr<Workshop> shipped_mending_workshop();

/// A whole job on the shipped knowledge, by the commands of a case.
class ShippedJob : public ::testing::Test {
 protected:
  void take_in(const std::string& equipment, int year = 1990);
  CaseView tell(const Command& command) { return apply_ok(*workshop_, number_, command); }
  [[nodiscard]] MendingView mending(double years = 5.0) const;

  std::unique_ptr<Workshop> workshop_;
  std::int64_t number_ = 0;
};

[[nodiscard]] MendingView mending_ok(const Workshop& workshop, std::int64_t number,
                                     double years = 5.0);
[[nodiscard]] const OptionView& option_of(const MendingView& mending, const std::string& scope);
[[nodiscard]] bool has_step(const MendingView& mending, const std::string& id);
[[nodiscard]] const ProofStep& step_of(const MendingView& mending, const std::string& id);

/// An ESR reading of a part with a leg lifted, against a data sheet's limit of 0.2 ohm.
[[nodiscard]] RecordReading lifted_esr(const std::string& item, double ohms);

}  // namespace dryout::casework::tests
