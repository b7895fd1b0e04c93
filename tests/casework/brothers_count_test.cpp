// Who counts as a brother of a part that was read: as many as were read in the same manner, of one
// batch, with a number to show.
#include <gtest/gtest.h>

#include "casework/case_ground.h"
#include "casework/reading_evidence.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

/// Five parts of one group on the bench, the third of another make, each read for its resistance.
class BrothersCounted : public testing::Test {
 protected:
  BrothersCounted() {
    fold(state_, ++step_, 1'772'614'800, TakeIn{"stereo-receiver", "a set", 1975, "", ""});
    for (const char* const make : {"Orbrin RS", "orbrin rs", "Wexholm T", "", ""}) {
      name("C" + std::to_string(901 + state_.parts.size()), make);
    }
  }

  void name(const std::string& reference, const std::string& make) {
    told(NamePart{reference, group_, {}, {}, "", make});
  }
  void told(const Command& command) { fold(state_, ++step_, 1'772'614'860, command); }

  static RecordReading read(const std::string& item) {
    RecordReading reading;
    reading.item = item;
    reading.value = 0.9;
    return reading;
  }

  std::size_t brothers_of(const std::string& item) {
    const auto ground = grounds_.of(state_);
    return Brothers(**ground, state_).of(*(*ground)->item(item), read(item));
  }

  const knowledge::KnowledgeBase& knowledge_ = tests::shipped_knowledge();
  GroundCache grounds_{knowledge_, tests::shipped_readings()};
  CaseState state_;
  const std::string group_ = "selector-coupling";  // of six
  int step_ = 0;
};

TEST_F(BrothersCounted, AreTheOthersOfOneMakeReadAlike) {
  for (const char* const item : {"C901", "C902", "C903", "C904"}) {
    told(read(item));
  }
  EXPECT_EQ(brothers_of("C901"), 2U);
  EXPECT_EQ(brothers_of("C903"), 0U) << "another make";
  EXPECT_EQ(brothers_of("C904"), 2U) << "where nobody said a make it is the usual one";
  EXPECT_EQ(brothers_of("C905"), 3U) << "not read itself";
}

TEST_F(BrothersCounted, MustShowANumberThatCanBe) {
  RecordReading over = read("C902");
  over.over_range = true;
  RecordReading wild = read("C904");
  wild.value = 1e-60;
  RecordReading sound = read("C905");
  for (const RecordReading& reading : {read("C901"), over, wild, sound}) {
    told(reading);
  }
  EXPECT_EQ(brothers_of("C901"), 1U);
  EXPECT_EQ(brothers_of("C902"), 2U) << "what shows no number has brothers, and is none";
}

TEST_F(BrothersCounted, AreReadInTheSameManner) {
  RecordReading lifted = read("C902");
  lifted.in_circuit = false;
  RecordReading other = read("C904");
  other.kind = ReadingKind::capacitance;
  other.value = 1e-6;
  for (const RecordReading& reading : {read("C901"), lifted, other}) {
    told(reading);
  }
  EXPECT_EQ(brothers_of("C901"), 0U);
  EXPECT_EQ(brothers_of("C905"), 1U);
}

}  // namespace
}  // namespace dryout::casework
