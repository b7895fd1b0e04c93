// SHA-256, from FIPS 180-4 (NIST, Secure Hash Standard, August 2015), sections 4.1.2, 4.2.2, 5.1.1,
// 5.3.3 and 6.2. Its examples and those of the NIST validation suite are in the tests. Seen only
// inside this room and by those who carry a digest from one call to the next.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace dryout::casestore {

/// 32 bytes; all zero = none.
using Digest = std::array<unsigned char, 32>;

class Sha256 {
 public:
  Sha256& add(std::string_view bytes);
  /// Of everything added. Nothing may be added afterwards.
  [[nodiscard]] Digest finish();

 private:
  void take_block(const unsigned char* block);

  std::array<std::uint32_t, 8> state_{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
  std::array<unsigned char, 64> block_{};
  std::size_t filled_ = 0;   ///< bytes of the block
  std::uint64_t bytes_ = 0;  ///< added so far
};

[[nodiscard]] Digest sha256(std::string_view bytes);

[[nodiscard]] std::string hex_of(const Digest& digest);
[[nodiscard]] std::string_view bytes_of(const Digest& digest);
/// All zero where there are not 32 bytes.
[[nodiscard]] Digest digest_of_bytes(std::string_view bytes);

}  // namespace dryout::casestore
