// Writing a file so that there is either the old one or the whole new one, even on a full disk.
#pragma once

#include <string>

#include "quantities/result.h"

namespace dryout::documents {

/// Writes beside the target, private to the user, and renames.
[[nodiscard]] quantities::Result<quantities::Done> write_whole(const std::string& path,
                                                               const std::string& text);

}  // namespace dryout::documents
