#include "casework/weigh_mending.h"
#include "casework/wording.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

bool same_manner(const Ground& ground, const RecordReading& a, const RecordReading& b) {
  return a.kind == b.kind && a.in_circuit == b.in_circuit &&
         ground.item(a.item) == ground.item(b.item);
}

/// The newest reading taken in the same manner before the first repair that lies between them.
const Told<RecordReading>* earlier(const CaseInHand& hand, const Told<RecordReading>& now) {
  const Told<RecordReading>* found = nullptr;
  for (const auto& told : hand.state.readings) {
    if (told.repairs < now.repairs && same_manner(hand.ground, told.what, now.what)) {
      found = found == nullptr || told.event > found->event ? &told : found;
    }
  }
  return found;
}

bool newest_of_its_manner(const CaseInHand& hand, const Told<RecordReading>& now) {
  for (const auto& told : hand.state.readings) {
    if (told.event > now.event && same_manner(hand.ground, told.what, now.what)) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::vector<BeforeAfter> compare_readings(const CaseInHand& hand) {
  std::vector<BeforeAfter> compared;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const auto& now = hand.state.readings[i];
    const auto* before = newest_of_its_manner(hand, now) ? earlier(hand, now) : nullptr;
    if (before == nullptr) {
      continue;
    }
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const auto item = hand.ground.item(now.what.item);
    compared.push_back({item ? hand.ground.compiled.network.items[*item].id : now.what.item,
                        title_of_item(hand.ground, now.what.item),
                        std::string(word_of(now.what.kind)), before->what.value, now.what.value,
                        shown(before->what), shown(now.what), weighed.limit, weighed.limit_source});
  }
  return compared;
}

}  // namespace dryout::casework
