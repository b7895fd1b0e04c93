// One library entry out of one entry of the knowledge, and what it speaks of. library.cpp turns
// "speaks of" round into "touched by".
#pragma once

#include <string>
#include <vector>

#include "casework/library.h"

namespace dryout::casework {

struct ShelvedEntry {
  LibraryEntry entry;
  std::vector<std::string> speaks_of;  ///< keys of other entries
};

/// "roles/reservoir": how entries name each other.
[[nodiscard]] std::string key_of(Shelf shelf, const std::string& id);

[[nodiscard]] ShelvedEntry shelved(const knowledge::Equipment& equipment,
                                   const knowledge::KnowledgeBase& knowledge);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Symptom& symptom);
[[nodiscard]] ShelvedEntry shelved(const knowledge::CheckRule& check);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Role& role);
[[nodiscard]] ShelvedEntry shelved(const knowledge::OtherCause& cause);
[[nodiscard]] ShelvedEntry shelved(const readings::LimitRow& row);
[[nodiscard]] ShelvedEntry shelved(const readings::Caveat& caveat);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Caution& caution);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Link& link,
                                   const knowledge::KnowledgeBase& knowledge);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Technology& technology);
[[nodiscard]] ShelvedEntry shelved(const knowledge::FaultMode& mode);
[[nodiscard]] ShelvedEntry shelved(const knowledge::Phenomenon& phenomenon);
[[nodiscard]] ShelvedEntry shelved(const readings::Meter& meter);

}  // namespace dryout::casework
