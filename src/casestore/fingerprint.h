// FNV-1a, 64 bits (draft-eastlake-fnv): tells texts apart and notices a bit that turned. No defence
// against forgers, and none is needed. Seen only inside this room.
#pragma once

#include <cstdint>
#include <string_view>

namespace dryout::casestore {

inline constexpr std::uint64_t fingerprint_of_nothing = 0xcbf29ce484222325;

/// The fingerprint of what `state` stands for, followed by `bytes`.
[[nodiscard]] constexpr std::uint64_t fingerprint(std::uint64_t state, std::string_view bytes) {
  constexpr std::uint64_t prime = 0x100000001b3;
  for (const char byte : bytes) {
    state = (state ^ static_cast<unsigned char>(byte)) * prime;
  }
  return state;
}

}  // namespace dryout::casestore
