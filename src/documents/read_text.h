// The whole text of a file from a world that may be hostile: regular files only, bounded in size.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "quantities/result.h"

namespace dryout::documents {

/// `accepted` says in complaints what file would do: "a readable JSON file". A missing, unreadable,
/// special or oversized file is a problem.
[[nodiscard]] quantities::Result<std::string> read_text(const std::string& path,
                                                        std::string_view accepted,
                                                        std::size_t bytes_max);

/// The complaint about a file or text beyond `bytes_max`.
[[nodiscard]] quantities::Problem too_large(const std::string& file, std::size_t bytes,
                                            std::size_t bytes_max);

}  // namespace dryout::documents
