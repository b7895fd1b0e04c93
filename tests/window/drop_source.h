// A second program that drags a file onto the window, as a file manager would: the sending half of
// the freedesktop.org drag-and-drop protocol for X (XDND, version 5), on a connection of its own.
#pragma once

#include <string>

namespace dryout::window {

/// Drops the file in the middle of the first window on that display that takes drops. "" when it
/// was taken and read, else what was still waited for.
[[nodiscard]] std::string drop_on_window(const std::string& display, const std::string& file);

}  // namespace dryout::window
