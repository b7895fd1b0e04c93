// Commands as JSON: {"do": "symptom", "symptom": "hum", "seen": "yes"}. The journal keeps them so,
// and case files carry them so. Reading is strict: an unknown verb, member, word or kind of value
// is a problem with its pointer. What the values mean (whether an id exists) is check_command.h's
// business.
#pragma once

#include "casework/command.h"
#include "documents/reader.h"
#include "documents/value.h"

namespace dryout::casework {

/// The command's numbers must be finite; check_command() sees to that.
[[nodiscard]] documents::Value to_json(const Command& command);

/// Complaints go to the reader's list; the value is then of no meaning.
[[nodiscard]] Command command_from_json(const documents::Reader& reader);

}  // namespace dryout::casework
