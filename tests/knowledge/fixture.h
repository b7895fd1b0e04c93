// The trees that tests read: the shipped one, and the invented one of tests/knowledge/fixture,
// whose lantern amplifier:
//
//   bridge --raw--> regulator --stable--> preamp ~~signal~~> power ~~signal~~> socket
//              \--------------------------------------------/
// with reservoirs on the raw rail (in the bridge) and coupling capacitors in the preamplifier, all
// on one board but for the socket.
#pragma once

#include <gtest/gtest.h>

#include "knowledge/load.h"

namespace dryout::tests {

inline const std::string fixture = DRYOUT_SOURCE_DIR "/tests/knowledge/fixture";

inline knowledge::KnowledgeBase loaded_from(const std::string& tree) {
  auto loaded = knowledge::load({tree});
  EXPECT_TRUE(loaded.ok()) << quantities::describe(loaded.problems());
  return loaded.ok() ? *std::move(loaded) : knowledge::KnowledgeBase{};
}

inline const knowledge::KnowledgeBase& fixture_knowledge() {
  static const knowledge::KnowledgeBase knowledge = loaded_from(fixture);
  return knowledge;
}

inline const knowledge::KnowledgeBase& shipped_knowledge() {
  static const knowledge::KnowledgeBase knowledge = loaded_from(DRYOUT_SOURCE_DIR);
  return knowledge;
}

}  // namespace dryout::tests
