// Case files. What is accepted is written out and read back to the same bytes.
#include "casework/case_file.h"
#include "fuzz/fuzz_target.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto cases = casework::read_cases_text(std::string(fuzz::text_of(data, size)), "fuzz");
  if (!cases) {
    fuzz::demand_reasons(cases);
    return 0;
  }
  const std::string written = casework::cases_text(*cases);
  const auto again = casework::read_cases_text(written, "again");
  fuzz::demand(again.ok() && casework::cases_text(*again) == written);
  return 0;
}
