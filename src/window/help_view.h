// What `?` shows: every key, and the words of the trade.
#pragma once

#include "window/command_queue.h"
#include "window/sheet.h"
#include "window/widgets.h"

namespace dryout::window {

void draw_help(Sheet& sheet, CommandQueue& queue);

}  // namespace dryout::window
