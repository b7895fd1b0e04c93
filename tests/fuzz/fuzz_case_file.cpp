// Case files. What is accepted is written out and read back to the same bytes.
#include "casework/case_file.h"
#include "fuzz/fuzz_target.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto journal = casework::read_case_text(std::string(fuzz::text_of(data, size)), "fuzz");
  if (!journal) {
    fuzz::demand_reasons(journal);
    return 0;
  }
  const std::string written = casework::case_text(*journal);
  const auto again = casework::read_case_text(written, "again");
  fuzz::demand(again.ok() && casework::case_text(*again) == written);
  return 0;
}
