// The preventive job in a real window by keys alone: a working set, six parts of one make over the
// maker's limit and one of another make under it, from the counter to the decision. Invented
// figures; the pattern is common practice, no source.
#include <signal.h>

#include "window/real_bench.h"

namespace dryout::window {
namespace {

/// Counts the keys pressed beside what is typed into a field.
class CountedKeys {
 public:
  explicit CountedKeys(RealWindow& bench) : bench_(bench) {}
  void key(const std::string& name) {
    bench_.key(name);
    ++pressed_;
  }
  [[nodiscard]] int pressed() const { return pressed_; }

 private:
  RealWindow& bench_;
  int pressed_ = 0;
};

TEST_F(RealInput, DoesThePreventiveJobInFortyKeys) {
  ASSERT_TRUE(bench.open());
  CountedKeys keys(bench);
  keys.key("n");
  ASSERT_TRUE(bench.wait_for("intake/set"));
  bench.type("Larkfield 40");
  keys.key("Tab");
  bench.type("1990");
  for (int line = 0; line < 3; ++line) {
    keys.key("Tab");
  }
  bench.type("stereo rec");
  keys.key("Return");
  keys.key("Return");
  ASSERT_TRUE(bench.wait_for("symptoms/search"));
  keys.key("F8");
  keys.key("n");
  ASSERT_TRUE(bench.wait_for("readings/item"));
  bench.type("C301");
  keys.key("Tab");
  bench.type("tuner dec");
  keys.key("Tab");
  bench.type("Orbrin RS");
  keys.key("Tab");
  ASSERT_TRUE(bench.wait_for("readings/acknowledge"));
  keys.key("Return");
  ASSERT_TRUE(bench.wait_for("readings/form/figure"));
  bench.picture("batch-first");
  bench.type("0,598");
  keys.key("Tab");
  bench.type("0.46");
  keys.key("Tab");
  bench.type("general-table 1.15; fresh-part 0.153");
  keys.key("Return");
  for (const char* figure : {"0.644", "0.69", "0.736", "0.782", "0.828"}) {
    bench.type(figure);
    keys.key("Return");
  }
  keys.key("shift+Tab");
  bench.picture("batch-six");
  keys.key("ctrl+a");
  bench.type("Wexholm T");
  keys.key("Tab");
  bench.type("0.23");
  keys.key("Return");
  keys.key("F5");
  ASSERT_TRUE(bench.wait_until_gone("readings/item"));
  bench.picture("batch-decided");
  EXPECT_LE(keys.pressed(), 40);
  for (const char* part : {"C301", "C302", "C303", "C304", "C305", "C306", "C307"}) {
    EXPECT_TRUE(holds(part)) << part;
  }
  const std::string decided = bench.dryout("decide " + newest() + " --years 10");
  EXPECT_NE(decided.find("C306"), std::string::npos) << decided;
  EXPECT_NE(decided.find("6 of 6 measured"), std::string::npos) << decided;
  EXPECT_EQ(decided.find("is to replace nothing"), std::string::npos) << decided;
}

TEST_F(RealInput, GivesBackWhatWasTypedWhenTheWindowIsKilled) {
  open_at("F9");
  ASSERT_TRUE(bench.tab_to("log/note"));
  bench.type("the owner had it repaired by hi");
  kill(-bench.program(), SIGKILL);
  bench.close();
  ASSERT_TRUE(bench.open("1"));
  bench.key("F9");
  ASSERT_TRUE(bench.tab_to("log/note"));
  bench.type("s cousin");
  bench.key("Return");
  EXPECT_TRUE(holds("the owner had it repaired by his cousin"));
}

TEST_F(RealInput, ShowsWhatAnotherProgramNotesWithoutBeingTouched) {
  open_at("F8");
  ASSERT_TRUE(bench.wait_for("readings/add"));
  (void)bench.dryout("case measure 1 reservoirs 0.4 --limit 0.2 --limit-source datasheet");
  (void)bench.dryout("case heed 1 reservoirs");
  (void)bench.dryout("case measure 1 reservoirs 0.4 --limit 0.2 --limit-source datasheet");
  EXPECT_TRUE(bench.wait_for("readings/copy"));
}

}  // namespace
}  // namespace dryout::window
