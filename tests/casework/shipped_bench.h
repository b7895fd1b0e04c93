// A workshop on the shipped knowledge, in memory, for what only the real rules can show.
#pragma once

#include <gtest/gtest.h>

#include <memory>

#include "casework/invented_bench.h"
#include "casework/workshop.h"
#include "knowledge/load.h"

namespace dryout::casework::tests {

inline const knowledge::KnowledgeBase& shipped_knowledge() {
  static const knowledge::KnowledgeBase knowledge = *knowledge::load({DRYOUT_SOURCE_DIR});
  return knowledge;
}

inline const readings::ReadingKnowledge& shipped_readings() {
  static const readings::ReadingKnowledge readings =
      *readings::load_reading_knowledge({DRYOUT_SOURCE_DIR});
  return readings;
}

[[nodiscard]] inline std::unique_ptr<Workshop> open_shipped() {
  auto workshop =
      Workshop::open(":memory:", shipped_knowledge(), ticking_clock(), shipped_readings());
  EXPECT_TRUE(workshop.ok());
  return *std::move(workshop);
}

[[nodiscard]] inline std::int64_t start_on(Workshop& workshop, const std::string& equipment) {
  TakeIn intake;
  intake.equipment = equipment;
  intake.set_name = "Tarnbeck 614";
  const auto number = workshop.start(intake);
  EXPECT_TRUE(number.ok());
  return *number;
}

}  // namespace dryout::casework::tests
