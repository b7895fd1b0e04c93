// Cases for looking at pages: a receiver of our own invention at several stages of its job. Only
// tests use them; every number in them is made up to fill the page.
#pragma once

#include "window/desk.h"

namespace dryout::window {

[[nodiscard]] casework::Catalogue sample_catalogue();
[[nodiscard]] std::vector<casework::CaseSummary> sample_cases();

/// In the middle of the job: symptoms told, three checks made, two readings taken.
[[nodiscard]] casework::CaseView sample_case();
/// Just taken in: nothing told, nothing under suspicion.
[[nodiscard]] casework::CaseView fresh_case();
/// The best check is dangerous and its cautions have not been read.
[[nodiscard]] casework::CaseView dangerous_case();
/// Evidence that cannot all be true.
[[nodiscard]] casework::CaseView contradictory_case();
/// Names as long as people write them.
[[nodiscard]] casework::CaseView long_winded_case();
/// Many blocks, suspects and checks, and this many readings.
[[nodiscard]] casework::CaseView large_case(int readings);
[[nodiscard]] casework::CaseView closed_case();

/// What could be made of that case in mending: five ways, a list, a proof half done.
[[nodiscard]] casework::MendingView sample_mending();

/// What the cases of a shop say: so many families of equipment with a cause, two ages of readings.
[[nodiscard]] ShopPage sample_shop(int families);

[[nodiscard]] casework::PlanStep sample_plan();
/// A set in the middle of practice, or at its end.
[[nodiscard]] casework::PracticeView sample_practice(bool over);

/// A desk with the catalogue, the shelf and this case on it.
[[nodiscard]] Desk desk_with(casework::CaseView view);
/// The same, turned to that page.
[[nodiscard]] Desk desk_at(casework::CaseView view, Station station);

}  // namespace dryout::window
