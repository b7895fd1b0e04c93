// The one place where wishes meet the workshop: after a frame, each wish of the queue is answered
// in turn. A refusal is shown at the foot of the desk and changes nothing.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "casework/practice_room.h"
#include "casework/thinking.h"
#include "casework/workshop.h"
#include "window/desk.h"

namespace dryout::window {

/// What stands behind the desk: the shop's cases and, while one is played, a practice set.
struct Bench {
  casework::Workshop& workshop;
  std::unique_ptr<casework::PracticeRoom> practice = {};
  /// Who works figures out meanwhile; null = they are waited for, as in tests and pictures. Sets of
  /// practice, which are small, always are.
  casework::Thinking* thinking = nullptr;
  /// Where the open case lives.
  [[nodiscard]] casework::Workshop& at_hand() { return practice ? practice->workshop() : workshop; }
};

/// Fills the desk: catalogue, shelf, and the case of that number (0 = none).
[[nodiscard]] quantities::Result<quantities::Done> lay_desk(casework::Workshop& workshop,
                                                            Desk& desk, std::int64_t number);

/// Answers all it can; what is left concerns the machine (clipboard, pictures).
[[nodiscard]] std::vector<Intention> attend(Bench& bench, Desk& desk, CommandQueue& queue);

/// Tries the steps again that wait for another program to let go of the store.
void try_waiting(Bench& bench, Desk& desk);

/// Has worked out what the page in sight shows beside the case and is not at hand yet: its mending,
/// its plan, what sets like it had last time.
void fetch_for_page(Bench& bench, Desk& desk);

/// A parts list is at hand: the page for it opens and looks at it.
void take_dropped(Desk& desk, const std::string& path, CommandQueue& queue);
/// Any file dropped on the window: cases (.json) are taken in and the first of them opened;
/// anything else is a parts list.
void take_dropped(Bench& bench, Desk& desk, const std::string& path, CommandQueue& queue);

/// Takes up an edit of the knowledge, or says what is wrong with it; whether there is news.
[[nodiscard]] bool take_up_edits(Bench& bench, Desk& desk);

/// Looks at the store again: another window may have written to it.
void look_again(Bench& bench, Desk& desk);

}  // namespace dryout::window
