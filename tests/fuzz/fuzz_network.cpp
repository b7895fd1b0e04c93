// Bare fault networks. A small one that is accepted is inferred; its posteriors are distributions.
#include <cmath>
#include <numeric>

#include "diagnosis/network_json.h"
#include "fuzz/fuzz_target.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto document = documents::parse(fuzz::text_of(data, size), "fuzz");
  if (!document) {
    return 0;
  }
  const auto file = diagnosis::read_network(*document);
  if (!file) {
    fuzz::demand_reasons(file);
    return 0;
  }
  fuzz::demand(diagnosis::check(file->network, file->evidence).empty());
  const auto posterior = diagnosis::infer(file->network, file->evidence);
  if (!posterior) {
    fuzz::demand_reasons(posterior);
    return 0;
  }
  for (const std::vector<double>& states : posterior->items) {
    const double sum = std::accumulate(states.begin(), states.end(), 0.0);
    fuzz::demand(std::abs(sum - 1.0) < 1e-9);
  }
  return 0;
}
