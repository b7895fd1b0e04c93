// A small invented world for tests of this room: two sets, a handful of faults, a clock that ticks
// a minute a look. Nothing in here is a fact about real equipment.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "casework/workshop.h"
#include "knowledge/knowledge_base.h"

namespace dryout::casework::tests {

/// "lantern" (amplifier: rectifier, audio power stage, rails raw 38 V and high 300 V; groups
/// reservoirs (2, wet-aluminium), coupling (3, film); lid and, behind it, shield) and "pebble" (a
/// smaller set without the high rail).
[[nodiscard]] knowledge::KnowledgeBase invented_knowledge();

/// 2026-03-04 09:00 UTC, then a minute more at each call.
[[nodiscard]] Clock ticking_clock();

[[nodiscard]] std::unique_ptr<Workshop> open_workshop(const std::string& store = ":memory:");

/// Intake of a lantern built in 1981.
[[nodiscard]] TakeIn lantern_intake();
[[nodiscard]] std::int64_t start_lantern(Workshop& workshop);

/// Applies a command that must be accepted.
CaseView apply_ok(Workshop& workshop, std::int64_t number, const Command& command);
/// All that was said against a command that must be refused.
std::string refusal(Workshop& workshop, std::int64_t number, const Command& command);

[[nodiscard]] const SuspectView& suspect(const CaseView& view, const std::string& item);
/// The check among the next ones, or null.
[[nodiscard]] const CheckView* next_check(const CaseView& view, const std::string& check,
                                          const std::string& place);

}  // namespace dryout::casework::tests
