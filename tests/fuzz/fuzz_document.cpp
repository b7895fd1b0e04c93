// JSON from anywhere. What is accepted is written out and read back as the same value.
#include "fuzz/fuzz_target.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto document = documents::parse(fuzz::text_of(data, size), "fuzz");
  if (!document) {
    fuzz::demand_reasons(document);
    return 0;
  }
  const auto again = documents::parse(documents::to_text(document->root), "again");
  fuzz::demand(again.ok() && again->root == document->root);
  return 0;
}
