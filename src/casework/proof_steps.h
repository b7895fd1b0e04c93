// How a repair is proved: a checklist made from what was wrong and from what hands were on. A step
// that does not apply does not appear. All steps are common practice at the bench, no source.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "casework/build_view.h"
#include "casework/mending_view.h"
#include "quantities/problem.h"

namespace dryout::casework {

/// `touched`: diagnosis items that were (or will be) mended. A step counts as done only where it
/// was done after the newest repair: what was proved before hands went in again is proved no more.
[[nodiscard]] std::vector<ProofStep> proof_steps_of(const CaseInHand& hand,
                                                    const std::vector<std::size_t>& touched);

/// Step ids are "kind" or "kind@place": "first-power", "rail-volts@main-rail", "joints@supply". A
/// kind that is not known, or a place that this equipment does not have, is a problem. So is a
/// retest, which is told as such.
[[nodiscard]] quantities::Problems check_proof_step(const std::string& step, const Ground& ground);

/// "+38 V rail, voltage".
[[nodiscard]] std::string title_of_proof_step(const std::string& step, const Ground& ground);

}  // namespace dryout::casework
