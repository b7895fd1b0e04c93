#include "casestore/sha256.h"

#include <algorithm>
#include <bit>

namespace dryout::casestore {
namespace {

/// FIPS 180-4, 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64
/// primes.
constexpr std::array<std::uint32_t, 64> constants{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

constexpr std::size_t block_size = 64;
constexpr std::size_t length_at = 56;  ///< where the length stands in the last block

std::uint32_t word_at(const unsigned char* bytes) {
  return (std::uint32_t{bytes[0]} << 24U) | (std::uint32_t{bytes[1]} << 16U) |
         (std::uint32_t{bytes[2]} << 8U) | std::uint32_t{bytes[3]};
}

std::uint32_t small_sigma_0(std::uint32_t x) {
  return std::rotr(x, 7) ^ std::rotr(x, 18) ^ (x >> 3U);
}
std::uint32_t small_sigma_1(std::uint32_t x) {
  return std::rotr(x, 17) ^ std::rotr(x, 19) ^ (x >> 10U);
}
std::uint32_t big_sigma_0(std::uint32_t x) {
  return std::rotr(x, 2) ^ std::rotr(x, 13) ^ std::rotr(x, 22);
}
std::uint32_t big_sigma_1(std::uint32_t x) {
  return std::rotr(x, 6) ^ std::rotr(x, 11) ^ std::rotr(x, 25);
}

}  // namespace

void Sha256::take_block(const unsigned char* block) {
  std::array<std::uint32_t, 64> w{};
  for (std::size_t t = 0; t < 16; ++t) {
    w[t] = word_at(block + 4 * t);
  }
  for (std::size_t t = 16; t < 64; ++t) {
    w[t] = small_sigma_1(w[t - 2]) + w[t - 7] + small_sigma_0(w[t - 15]) + w[t - 16];
  }
  auto [a, b, c, d, e, f, g, h] = state_;
  for (std::size_t t = 0; t < 64; ++t) {
    const std::uint32_t choice = (e & f) ^ (~e & g);
    const std::uint32_t majority = (a & b) ^ (a & c) ^ (b & c);
    const std::uint32_t first = h + big_sigma_1(e) + choice + constants[t] + w[t];
    const std::uint32_t second = big_sigma_0(a) + majority;
    h = g;
    g = f;
    f = e;
    e = d + first;
    d = c;
    c = b;
    b = a;
    a = first + second;
  }
  const std::array<std::uint32_t, 8> added{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < state_.size(); ++i) {
    state_[i] += added[i];
  }
}

Sha256& Sha256::add(std::string_view bytes) {
  bytes_ += bytes.size();
  while (!bytes.empty()) {
    const std::size_t taken = std::min(bytes.size(), block_size - filled_);
    std::copy_n(bytes.begin(), taken, block_.begin() + static_cast<std::ptrdiff_t>(filled_));
    filled_ += taken;
    bytes.remove_prefix(taken);
    if (filled_ == block_size) {
      take_block(block_.data());
      filled_ = 0;
    }
  }
  return *this;
}

Digest Sha256::finish() {
  const std::uint64_t bits = bytes_ * 8;
  constexpr std::string_view one_bit("\x80", 1);
  constexpr std::string_view no_bits("\0", 1);
  add(one_bit);
  while (filled_ != length_at) {
    add(no_bits);
  }
  std::string length(8, '\0');
  for (std::size_t i = 0; i < length.size(); ++i) {
    length[i] = static_cast<char>((bits >> (56U - 8U * i)) & 0xffU);
  }
  add(length);
  Digest digest{};
  for (std::size_t i = 0; i < digest.size(); ++i) {
    digest[i] = static_cast<unsigned char>((state_[i / 4] >> (24U - 8U * (i % 4))) & 0xffU);
  }
  return digest;
}

Digest sha256(std::string_view bytes) { return Sha256().add(bytes).finish(); }

std::string hex_of(const Digest& digest) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : digest) {
    text += digits[byte >> 4U];
    text += digits[byte & 0xfU];
  }
  return text;
}

std::string_view bytes_of(const Digest& digest) {
  return {reinterpret_cast<const char*>(digest.data()), digest.size()};  // NOLINT: bytes are bytes
}

Digest digest_of_bytes(std::string_view bytes) {
  Digest digest{};
  if (bytes.size() == digest.size()) {
    std::copy(bytes.begin(), bytes.end(), digest.begin());
  }
  return digest;
}

}  // namespace dryout::casestore
