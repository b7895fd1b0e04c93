// Figures that a person at a terminal waits for: from half a second on it is said that they are
// being worked out, and Ctrl-C gives them up. What was entered stays entered.
#pragma once

#include <cstdint>
#include <ostream>

#include "casework/thinking.h"
#include "casework/workshop.h"

namespace dryout::app {

class AwaitedFigures {
 public:
  explicit AwaitedFigures(std::ostream& out) : out_(out) {}

  /// The case as it is, its figures worked out or given up.
  [[nodiscard]] quantities::Result<casework::CaseView> of(const casework::Workshop& workshop,
                                                          std::int64_t number);

 private:
  std::ostream& out_;
  casework::Thinking thinking_{[] {}};
};

}  // namespace dryout::app
