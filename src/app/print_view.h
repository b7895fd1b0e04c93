// A case view on a terminal, in the order a technician asks: where it stands, who is suspected,
// what to do next.
#pragma once

#include <iosfwd>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "casework/plan_ahead.h"

namespace dryout::app {

void print_head(std::ostream& out, const casework::CaseView& view);
/// How good the figures are, where that needs saying. Among the notices it is told as well.
void print_figures(std::ostream& out, const casework::CaseView& view);
void print_suspects(std::ostream& out, const casework::CaseView& view, std::size_t count_max);
void print_boards(std::ostream& out, const casework::CaseView& view);
void print_next(std::ostream& out, const casework::CaseView& view, std::size_t count_max);
/// Those read earlier in the case as one line, the others in full.
void print_cautions(std::ostream& out, const std::vector<casework::CautionView>& cautions,
                    const std::string& reminder, const std::string& indent);

/// One check in full: cautions first, then what, where, and what good and bad look like.
void print_check(std::ostream& out, const casework::CheckView& check);
/// What can hurt whoever reads a number there.
void print_measuring(std::ostream& out, const casework::MeasuringView& place);
void print_explanation(std::ostream& out, const casework::SuspectView& suspect);
/// The plan ahead, indented by what was found.
void print_plan(std::ostream& out, const casework::PlanStep& step, int depth);
/// What was told of the case beside its figures: damaged steps, a backup that came back, ...
/// Which steps are damaged or missing, where any are. Among the notices it is told as well.
void print_damage(std::ostream& out, const std::string& damage);
void print_notices(std::ostream& out, const casework::CaseView& view);
void print_log(std::ostream& out, const casework::CaseView& view);
/// What decide answers (decide_command.cpp).
void print_mending(std::ostream& out, const casework::MendingView& mending);
/// One option's shopping list (parts_command.cpp).
void print_shopping(std::ostream& out, const casework::OptionView& option);

}  // namespace dryout::app
