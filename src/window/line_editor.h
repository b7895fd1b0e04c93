// Tells the drawing library's own line editor what was typed. It keeps no queue: a key must be down
// in one frame and up in the next, or it is never seen. So keys reach it only through here, with or
// without a window, and a slow frame loses none.
#pragma once

#include "window/keys.h"

namespace dryout::window {

/// Keys in `events` are down for the coming frame, all others up.
void feed_line_editor(const InputEvents& events);

}  // namespace dryout::window
