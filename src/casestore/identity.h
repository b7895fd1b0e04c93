// Who a case is, on every bench it comes to: 32 hexadecimal digits, drawn at random when the case
// is taken in. Cases older than identities get theirs from their first event, which two benches
// that share the case have in common.
#pragma once

#include "casestore/case_store.h"
#include "casestore/database.h"

namespace dryout::casestore {

/// Gives SQL the function identity_of_first(at, kind, body), for the step that brings identities.
[[nodiscard]] quantities::Result<quantities::Done> offer_identities(const Database& database);

}  // namespace dryout::casestore
