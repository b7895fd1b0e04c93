// Parts lists as layout programs export them.
#include "fuzz/fuzz_target.h"
#include "knowledge/parts_list.h"

using namespace dryout;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const knowledge::KnowledgeBase nothing;
  const auto table = documents::parse_table(fuzz::text_of(data, size), "fuzz");
  if (!table) {
    fuzz::demand_reasons(table);
    return 0;
  }
  const auto list = knowledge::read_parts_list(*table, nothing);
  if (!list) {
    fuzz::demand_reasons(list);
    return 0;
  }
  for (const knowledge::PartsRow& row : list->capacitors) {
    fuzz::demand(row.count > 0 && !row.name().empty());
  }
  return 0;
}
