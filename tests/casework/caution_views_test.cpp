#include "casework/caution_views.h"

#include <gtest/gtest.h>

#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

TEST(CautionViews, SayWhoComesFirstOnce) {
  std::vector<const knowledge::Caution*> cautions;
  for (const char* id : {"mains", "high-tension", "stored-charge"}) {
    cautions.push_back(knowledge::find(tests::shipped_knowledge().cautions, id));
    ASSERT_NE(cautions.back(), nullptr) << id;
  }
  const std::vector<CautionView> views = views_of(cautions);
  int said = 0;
  for (std::size_t i = 0; i < views.size(); ++i) {
    const bool deferring = views[i].wording.find("Your local electrical code") != std::string::npos;
    said += deferring ? 1 : 0;
    // Nothing else is lost.
    EXPECT_EQ(cautions[i]->wording.rfind(views[i].wording, 0), 0U);
    EXPECT_EQ(views[i].wording.back(), '.');
  }
  EXPECT_EQ(said, 1);
}

TEST(CautionViews, LeaveAloneWhatStandsAlone) {
  const auto* mains = knowledge::find(tests::shipped_knowledge().cautions, "mains");
  EXPECT_EQ(views_of({mains}).front().wording, mains->wording);
}

}  // namespace
}  // namespace dryout::casework
