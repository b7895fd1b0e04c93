// The knowledge in spite of a fault in the technician's own folder: the entry at fault is left out
// and named, and everything else works. `dryout lint` still tells all of it.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "app/surroundings.h"
#include "casework/workshop.h"
#include "quantities/result.h"

namespace dryout::app {

struct UsableKnowledge {
  casework::LoadedKnowledge loaded;
  std::vector<std::string> left_out;  ///< one sentence an entry or file, with what is wrong
};

/// A fault in a shipped tree is a problem.
[[nodiscard]] quantities::Result<UsableKnowledge> load_usable_knowledge(
    const Surroundings& surroundings);

/// "left out: ..." for each, to where errors go.
void tell_left_out(std::ostream& err, const std::vector<std::string>& left_out);

}  // namespace dryout::app
