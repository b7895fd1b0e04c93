// Writing a file so that there is either the old one or the whole new one, even on a full disk, and
// that it is on the disk when that is said.
#pragma once

#include <string>

#include "quantities/result.h"

namespace dryout::documents {

/// Writes beside the target, private to the user, and renames. What is no file (/dev/full, a pipe)
/// is written as it is, never replaced.
[[nodiscard]] quantities::Result<quantities::Done> write_whole(const std::string& path,
                                                               const std::string& text);

/// The same under a name that must be new: false where it is taken by then.
[[nodiscard]] quantities::Result<bool> write_new(const std::string& path, const std::string& text);

}  // namespace dryout::documents
