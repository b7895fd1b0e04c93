// The shop's own files: its figures and its meters.
#include "decision/shop_settings.h"
#include "fuzz/fuzz_target.h"
#include "readings/meter.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto document = documents::parse(fuzz::text_of(data, size), "fuzz");
  if (!document) {
    return 0;
  }
  if (const auto shop = decision::read_shop_settings(*document); !shop) {
    fuzz::demand_reasons(shop);
  }
  const auto meters = readings::read_meters(*document);
  if (!meters) {
    fuzz::demand_reasons(meters);
    return 0;
  }
  const auto text = documents::to_text(readings::to_json(*meters));
  const auto again = documents::parse(text, "again");
  fuzz::demand(again.ok() && readings::read_meters(*again).ok());
  return 0;
}
