// The one place where wishes meet the workshop: after a frame, each wish of the queue is answered
// in turn. A refusal is shown at the foot of the desk and changes nothing.
#pragma once

#include <vector>

#include "casework/workshop.h"
#include "window/desk.h"

namespace dryout::window {

/// Fills the desk: catalogue, shelf, and the case of that number (0 = none).
[[nodiscard]] quantities::Result<quantities::Done> lay_desk(casework::Workshop& workshop,
                                                            Desk& desk, std::int64_t number);

/// Answers all it can; what is left concerns the machine (clipboard, pictures).
[[nodiscard]] std::vector<Intention> attend(casework::Workshop& workshop, Desk& desk,
                                            CommandQueue& queue);

/// Has the open case's mending weighed where the page in sight shows it and it is not at hand.
void weigh_mending(casework::Workshop& workshop, Desk& desk);

/// A file dropped on the window is a parts list: the page for it opens and looks at it.
void take_dropped(Desk& desk, const std::string& path, CommandQueue& queue);

/// Looks at the store again: another window may have written to it.
void look_again(casework::Workshop& workshop, Desk& desk);

}  // namespace dryout::window
