#include "window/map_layout.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

#include "window/sample.h"

namespace dryout::window {
namespace {

using casework::BlockView;

BlockView block(const std::string& id, std::vector<std::string> to = {}) {
  BlockView view;
  view.id = id;
  view.signal_to = std::move(to);
  return view;
}

std::set<std::pair<int, int>> places(const MapLayout& layout) {
  std::set<std::pair<int, int>> taken;
  for (const MapCell& cell : layout.cells) {
    taken.insert({cell.column, cell.row});
  }
  return taken;
}

TEST(MapLayout, PutsEachBlockRightOfThoseItHearsFrom) {
  const MapLayout layout = lay_out_map({block("c"), block("a", {"b", "c"}), block("b", {"c"})}, 10);
  EXPECT_EQ(layout.cells[1].column, 0);
  EXPECT_EQ(layout.cells[2].column, 1);
  EXPECT_EQ(layout.cells[0].column, 2) << "the longest way counts";
}

TEST(MapLayout, SurvivesALoop) {
  const MapLayout layout =
      lay_out_map({block("a", {"b"}), block("b", {"c"}), block("c", {"a"})}, 10);
  EXPECT_EQ(places(layout).size(), 3U);
  EXPECT_EQ(layout.signal.size(), 3U);
}

TEST(MapLayout, FoldsAPathThatIsTooLongForThePage) {
  std::vector<BlockView> blocks;
  for (int i = 0; i < 10; ++i) {
    blocks.push_back(block(std::to_string(i), {std::to_string(i + 1)}));
  }
  const MapLayout layout = lay_out_map(blocks, 4);
  EXPECT_LE(layout.columns, 4);
  EXPECT_EQ(layout.rows, 3);
  EXPECT_EQ(places(layout).size(), 10U);
}

TEST(MapLayout, KeepsSuppliesBelowTheSignal) {
  const auto view = sample_case();
  const MapLayout layout = lay_out_map(view.blocks, 5);
  for (const MapCell& cell : layout.cells) {
    EXPECT_EQ(cell.supply, cell.row >= layout.signal_rows) << view.blocks[cell.block].id;
  }
  EXPECT_FALSE(layout.supply.empty());
}

TEST(MapLayout, GivesNothingForNothing) {
  const MapLayout layout = lay_out_map({}, 4);
  EXPECT_TRUE(layout.cells.empty());
  EXPECT_EQ(layout.rows, 0);
}

TEST(MapLayout, NeverPutsTwoBlocksInOnePlace) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    std::mt19937 random(seed);
    std::uniform_int_distribution<int> count(1, 24);
    std::vector<BlockView> blocks;
    const int total = count(random);
    for (int i = 0; i < total; ++i) {
      BlockView one = block(std::to_string(i));
      for (int to = 0; to < total; ++to) {
        if (count(random) < 3) {
          one.signal_to.push_back(std::to_string(to));
        }
      }
      if (count(random) < 6) {
        one.makes = {"rail" + std::to_string(i)};
      }
      one.fed_by = {"rail" + std::to_string(count(random))};
      blocks.push_back(one);
    }
    const int columns = count(random);
    const MapLayout layout = lay_out_map(blocks, columns);
    ASSERT_EQ(places(layout).size(), blocks.size()) << "seed " << seed;
    ASSERT_LE(layout.columns, columns) << "seed " << seed;
  }
}

}  // namespace
}  // namespace dryout::window
