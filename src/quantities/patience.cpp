#include "quantities/patience.h"

#include <utility>

namespace dryout::quantities {
namespace {

/// Of each thread, so that nobody between who waits and who works has to hand it on.
thread_local Patience* heeded = nullptr;

}  // namespace

HeedPatience::HeedPatience(Patience& patience) : before_(std::exchange(heeded, &patience)) {}
HeedPatience::~HeedPatience() { heeded = before_; }

void rest() {
  if (heeded != nullptr && heeded->is_over()) {
    throw GivenUp();
  }
}

void rest(std::size_t done, std::size_t all) {
  if (heeded != nullptr) {
    heeded->reach(done, all);
    rest();
  }
}

}  // namespace dryout::quantities
