// Netlists under a meter. What is accepted gets an answer that can be printed, or a reason.
#include "circuit/netlist_json.h"
#include "fuzz/fuzz_target.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto document = documents::parse(fuzz::text_of(data, size), "fuzz");
  if (!document) {
    return 0;
  }
  const auto file = circuit::read_netlist(*document);
  if (!file) {
    fuzz::demand_reasons(file);
    return 0;
  }
  const auto answer = circuit::answer_in_circuit(file->netlist, file->point, 1.0);
  if (!answer) {
    fuzz::demand_reasons(answer);
    return 0;
  }
  fuzz::demand(!documents::to_text(circuit::to_json(*answer)).empty());
  return 0;
}
