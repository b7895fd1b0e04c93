// A JSON file of any size whose bulk lies in arrays of its top-level object, element by element:
// what is held in memory is one element at a time. Each element is text of its own, to be parsed
// strictly by documents::parse(); here its end is found.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "documents/parse.h"
#include "quantities/result.h"

namespace dryout::documents {

struct StreamedElement {
  std::string_view key;  ///< the array's
  std::size_t index = 0;
  int line = 0;  ///< where it begins
  std::string_view text;
};
using VisitElement = std::function<quantities::Result<quantities::Done>(const StreamedElement&)>;

/// Visits the elements of the arrays named in `streamed` in the order of the file; the first
/// problem of a visit ends it. The other members, together at most a megabyte, come back as a
/// document. Refused: what is no regular file, no object, cut short, or has an element beyond
/// `element_bytes_max`.
[[nodiscard]] quantities::Result<Document> stream_elements(
    const std::string& path, const std::vector<std::string_view>& streamed,
    std::size_t element_bytes_max, const VisitElement& visit);

}  // namespace dryout::documents
