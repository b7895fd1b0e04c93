// Reading JSON from a world that may be hostile: strict RFC 8259 text in UTF-8, bounded in size and
// depth, no duplicate keys, no NaN or infinity. Every refusal names file and line.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "documents/value.h"
#include "quantities/result.h"

namespace dryout::documents {

struct Limits {
  std::size_t bytes_max = 64U << 20U;  ///< larger files are refused before they are read
  int depth_max = 64;                  ///< nested arrays and objects
};

struct Document {
  std::string file;  ///< as it is to be named in complaints
  Value root;
};

/// Parses text that was already read; `file` is how complaints name it.
[[nodiscard]] quantities::Result<Document> parse(std::string_view text, std::string file,
                                                 const Limits& limits = {});

/// Reads and parses a file. A missing, unreadable, special or oversized file is a problem.
[[nodiscard]] quantities::Result<Document> read_file(const std::string& path,
                                                     const Limits& limits = {});

/// The text of a value: two-space indents, shortest digits that read back to the same double, one
/// newline at the end. Numbers that are not finite cannot be written and are a CHECK.
[[nodiscard]] std::string to_text(const Value& value);
/// The same on one line, without the newline.
[[nodiscard]] std::string to_line(const Value& value);

}  // namespace dryout::documents
