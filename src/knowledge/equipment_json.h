// An equipment as the file that read_equipment() reads back.
#pragma once

#include "documents/value.h"
#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

/// {"schema": 1, "equipment": [...]}, ready for documents::to_text. What an Entry does not keep
/// (how a number was judged) is not in it.
[[nodiscard]] documents::Value to_json(const Equipment& equipment);

}  // namespace dryout::knowledge
