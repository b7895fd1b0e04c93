// How many of the complaints with known answers are understood. The aims are those of the project,
// for complaints written by others; these two halves are by the hand that wrote the words, so they
// must do better. README.md has the first scores. DRYOUT_SCORES=1 prints those of now.
#include "complaints/halves.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <iostream>

namespace dryout::complaints {
namespace {

class Halves : public testing::TestWithParam<const char*> {};

TEST_P(Halves, AreUnderstood) {
  const std::vector<KnownComplaint> known = known_complaints(GetParam());
  ASSERT_GT(known.size(), 90U);
  const Score score = score_of(shipped_reader(), known);
  if (std::getenv("DRYOUT_SCORES") != nullptr) {
    std::cout << GetParam() << ": first " << score.first << ", five " << score.five << ", nothing "
              << score.nothing << ", elsewhere " << score.elsewhere_first << ", where "
              << score.where << ", equipment " << score.equipment << ", sent away "
              << score.sent_away << '\n';
  }
  EXPECT_GE(score.first, 0.80);
  EXPECT_GE(score.five, 0.95);
  EXPECT_LE(score.nothing, 0.03);
  EXPECT_GE(score.elsewhere_first, 0.80);
  EXPECT_GE(score.where, 0.80);
  EXPECT_GE(score.equipment, 0.70);
  EXPECT_LE(score.sent_away, 0.10);
}

INSTANTIATE_TEST_SUITE_P(Both, Halves, testing::Values("tuning", "kept_apart", "later"));

TEST(Halves, NameOnlySymptomsAndKindsThatThereAre) {
  for (const char* half : {"tuning", "kept_apart", "later"}) {
    for (const KnownComplaint& complaint : known_complaints(half)) {
      for (const std::string& id : complaint.symptoms) {
        EXPECT_NE(knowledge::find(shipped_base().symptoms, id), nullptr) << id;
      }
      for (const std::string& id : complaint.equipment) {
        EXPECT_NE(knowledge::find(shipped_base().equipment, id), nullptr) << id;
      }
      for (const std::string& id : complaint.elsewhere) {
        EXPECT_NE(knowledge::find(shipped_vocabulary().elsewhere, id), nullptr) << id;
      }
    }
  }
}

}  // namespace
}  // namespace dryout::complaints
