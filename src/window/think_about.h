// Figures onto the desk: at once where the bench thinks in place, else as soon as its thinking
// thread has worked them out. Until then the desk says what is being worked out, and that what it
// still shows is from before.
#pragma once

#include <cstdint>

#include "window/attend.h"

namespace dryout::window {

enum class Bring {
  stepped,  ///< the open case after a step
  quietly,  ///< the same, found changed: the word at the foot stands
  anew      ///< a case comes to the desk
};
void bring_figures(Bench& bench, Desk& desk, std::int64_t number, Bring how);

/// Whether what is asked now is answered before the call returns.
[[nodiscard]] bool thinks_in_place(const Bench& bench);

/// Asks what a page shows beside the case, or what would change.
void ask_beside(Bench& bench, Desk& desk, casework::Question question);

/// Lays what was worked out on the desk, and how far the rest is; whether there is news.
bool take_thoughts(Bench& bench, Desk& desk);

/// Whatever is being worked out is nobody's question any more.
void forget_thoughts(Bench& bench, Desk& desk);

/// The plan, the mending and what would change are of a case that has moved on.
void clear_beside(Desk& desk);

}  // namespace dryout::window
