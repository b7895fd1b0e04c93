// What comes to the desk: a case, the shelf, what a page shows beside the case; and the word at the
// foot. For attend.cpp and its clerk.
#pragma once

#include <string>

#include "window/attend.h"

namespace dryout::window {

void refuse(Desk& desk, const quantities::Problems& problems);
/// A word that is no refusal.
void tell(Desk& desk, const std::string& word);
/// Where it was written ("Written: /home/me/..."), or why it was not.
void tell_where(Desk& desk, const std::string& what, const quantities::Result<std::string>& path);

/// The open case as it is now, or the reason why it can't be shown.
void show(Desk& desk, quantities::Result<casework::CaseView> view);
/// A case comes to the desk: whatever was pencilled in for another one goes.
void bring_case(Desk& desk, quantities::Result<casework::CaseView> view);
void refresh_shelf(casework::Workshop& workshop, Desk& desk);

/// What was worked out, or the reason why it could not be.
template <class View>
void take(Desk& desk, std::optional<View>& place, quantities::Result<View> made) {
  place.reset();
  if (!made) {
    refuse(desk, made.problems());
    return;
  }
  place = std::move(made).value();
}

/// The form for a parts list that stands on the desk: of the open case, or of the one coming in.
[[nodiscard]] PartsListState& parts_of(Desk& desk);
/// The page is about the open case rather than about one coming in.
[[nodiscard]] bool in_case(const Desk& desk);

}  // namespace dryout::window
