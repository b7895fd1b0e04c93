// Files of a knowledge tree. The first byte chooses the kind of entry.
#include <array>

#include "fuzz/fuzz_target.h"
#include "knowledge/read_entries.h"

using namespace dryout;

namespace {

template <auto read>
void read_and_forget(const documents::Reader& reader) {
  (void)read(reader);
}

constexpr std::array readers{
    &read_and_forget<knowledge::read_mode>,       &read_and_forget<knowledge::read_technology>,
    &read_and_forget<knowledge::read_ageing>,     &read_and_forget<knowledge::read_era>,
    &read_and_forget<knowledge::read_role>,       &read_and_forget<knowledge::read_cause>,
    &read_and_forget<knowledge::read_phenomenon>, &read_and_forget<knowledge::read_link>,
    &read_and_forget<knowledge::read_symptom>,    &read_and_forget<knowledge::read_caution>,
    &read_and_forget<knowledge::read_check>,      &read_and_forget<knowledge::read_equipment>};

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) {
    return 0;
  }
  const auto document = documents::parse(fuzz::text_of(data + 1, size - 1), "fuzz");
  if (!document) {
    return 0;
  }
  quantities::Problems problems;
  readers.at(data[0] % readers.size())(documents::Reader(*document, problems));
  for (const quantities::Problem& problem : problems) {
    fuzz::demand(!problem.message.empty() && problem.place.file == "fuzz");
  }
  return 0;
}
