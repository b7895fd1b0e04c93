// Plays hidden faults of one kind of equipment against a way of working, with the checks, access
// and remedies that a real case of it would have: what is our advice worth on this architecture?
#pragma once

#include <string>

#include "casework/case_ground.h"
#include "planning/simulation.h"
#include "quantities/result.h"

namespace dryout::casework {

/// `settings.symptoms` are filled in here: all that the equipment can show.
[[nodiscard]] quantities::Result<planning::SimulationReport> play_equipment(
    GroundCache& grounds, const std::string& equipment, std::int64_t now, planning::Habit habit,
    planning::SimulationSettings settings);

}  // namespace dryout::casework
