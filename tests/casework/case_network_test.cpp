#include "casework/case_network.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "quantities/check.h"

namespace dryout::casework {
namespace {

using quantities::InternalFault;

// A finding of the knowledge and one of a case's network do not mix.
static_assert(!std::is_constructible_v<CaseFinding, KnownFinding>);
static_assert(!std::is_constructible_v<KnownFinding, CaseFinding>);
static_assert(!std::is_invocable_v<decltype(&CaseNetwork::at), const CaseNetwork&, KnownFinding>);
static_assert(!std::is_invocable_v<decltype(&diagnosis::CompiledNetwork::at),
                                   const diagnosis::CompiledNetwork&, CaseFinding>);

class ACaseNetwork : public ::testing::Test {
 protected:
  ACaseNetwork() {
    compiled_.network.findings = {{"hum", 0.1, {}}, {"ripple", 0.2, {}}};
    network_ = CaseNetwork(compiled_);
  }
  diagnosis::CompiledNetwork compiled_;
  CaseNetwork network_;
};

TEST_F(ACaseNetwork, BeginsWithTheFindingsOfTheKnowledge) {
  EXPECT_EQ(network_.at(network_.of(KnownFinding(1))).id, "ripple");
  EXPECT_EQ(network_.known(CaseFinding(1)), KnownFinding(1));
  EXPECT_EQ(network_.find("ripple"), CaseFinding(1));
  EXPECT_FALSE(network_.find("smoke"));
}

TEST_F(ACaseNetwork, KnowsWhatEachTwinIsATwinOfHoweverManyThereAre) {
  const CaseFinding first = network_.add_twin(KnownFinding(1), {"ripple (with 1 mended)", 0.2, {}});
  const CaseFinding of_hum = network_.add_twin(KnownFinding(0), {"hum (with 1 mended)", 0.1, {}});
  const CaseFinding of_first =
      network_.add_twin(network_.known(first), {"ripple (with 1 mended) (what went)", 0.2, {}});
  EXPECT_EQ(network_.known(first), KnownFinding(1));
  EXPECT_EQ(network_.known(of_hum), KnownFinding(0));
  EXPECT_EQ(network_.known(of_first), KnownFinding(1)) << "the twin of a twin";
  EXPECT_EQ(network_.at(of_hum).id, "hum (with 1 mended)");
  EXPECT_EQ(network_.plain().findings.size(), 5U);
}

TEST_F(ACaseNetwork, StopsAtAnIndexOfSomeOtherNetwork) {
  EXPECT_THROW((void)network_.of(KnownFinding(2)), InternalFault);
  EXPECT_THROW((void)network_.at(CaseFinding(2)), InternalFault);
  EXPECT_THROW((void)network_.known(CaseFinding(2)), InternalFault);
  (void)network_.add_twin(KnownFinding(0), {"hum (with 1 mended)", 0.1, {}});
  EXPECT_THROW((void)network_.of(KnownFinding(2)), InternalFault) << "a twin is not known";
  EXPECT_THROW((void)network_.add_twin(KnownFinding(2), {"?", 0.1, {}}), InternalFault);
  EXPECT_THROW((void)network_.add_twin(KnownFinding(0), {"hum", 0.1, {}}), InternalFault)
      << "two of one name could not be told apart";
  EXPECT_THROW((void)compiled_.at(KnownFinding(2)), InternalFault);
  EXPECT_THROW((void)compiled_.named(KnownFinding(0)), InternalFault) << "it has no words for it";
}

}  // namespace
}  // namespace dryout::casework
