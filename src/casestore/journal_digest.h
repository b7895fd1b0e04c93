// In what the steps of a case hang together outside of any store, as in a file: a chain as the
// store has it (chain.h), of no store's generation. Whoever changes, adds or takes away a step
// without working it out anew is noticed; it is no signature, for whoever reads this can work it
// out.
#pragma once

#include <string>
#include <vector>

#include "casestore/case_store.h"

namespace dryout::casestore {

/// 64 hexadecimal digits, of the steps in their order under the identity of their case.
[[nodiscard]] std::string journal_digest(const std::string& identity,
                                         const std::vector<NewEvent>& steps);

}  // namespace dryout::casestore
