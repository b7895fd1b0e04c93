// SHA-256 against published vectors: the examples to FIPS 180-4 (NIST, Cryptographic Standards and
// Guidelines, "SHA-256" examples; the same as in FIPS 180-2, appendix B), and what the system's own
// sha256sum (GNU coreutils) makes of texts of every length about the edges of a block.
#include "casestore/sha256.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "temporary_folder.h"

namespace dryout::casestore {
namespace {

TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(hex_of(sha256("abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hex_of(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hex_of(sha256("")), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  // FIPS 180-2, B.3: a million times "a", here in pieces that do not fit a block.
  Sha256 million;
  for (int i = 0; i < 10'000; ++i) {
    million.add(std::string(100, 'a'));
  }
  EXPECT_EQ(hex_of(million.finish()),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, AgreesWithTheSystemsOwnAtEveryEdgeOfABlock) {
  const tests::TemporaryFolder folder;
  const std::string path = folder.file("text");
  for (std::size_t size = 50; size <= 130; ++size) {
    std::string text;
    for (std::size_t i = 0; i < size; ++i) {
      text += static_cast<char>((i * 37 + size) & 0xffU);
    }
    std::ofstream(path, std::ios::binary) << text;
    FILE* said = popen(("sha256sum < " + path).c_str(), "r");
    ASSERT_NE(said, nullptr);
    std::string digest(64, ' ');
    ASSERT_EQ(fread(digest.data(), 1, digest.size(), said), digest.size());
    ASSERT_EQ(pclose(said), 0);
    EXPECT_EQ(hex_of(sha256(text)), digest) << size;
  }
}

}  // namespace
}  // namespace dryout::casestore
