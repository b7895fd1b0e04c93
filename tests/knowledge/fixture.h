// The invented tree of tests/knowledge/fixture, loaded. Its lantern amplifier:
//
//   bridge --raw--> regulator --stable--> preamp ~~signal~~> power ~~signal~~> socket
//              \--------------------------------------------/
// with reservoirs on the raw rail (in the bridge) and coupling capacitors in the preamplifier, all
// on one board but for the socket.
#pragma once

#include <gtest/gtest.h>

#include "knowledge/load.h"

namespace dryout::tests {

inline const knowledge::KnowledgeBase& fixture_knowledge() {
  static const knowledge::KnowledgeBase knowledge = [] {
    auto loaded = knowledge::load({DRYOUT_SOURCE_DIR "/tests/knowledge/fixture"});
    EXPECT_TRUE(loaded.ok()) << quantities::describe(loaded.problems());
    return *std::move(loaded);
  }();
  return knowledge;
}

}  // namespace dryout::tests
