// Where each block stands on the map, worked out from the signal's way alone: sources left, the
// signal goes right, one column a step; blocks of a column in the order that crosses fewest lines;
// a path too long for the page is folded like a line of writing. Blocks that carry no signal
// (supplies) stand in rows of their own below. Grid cells only; no pixels.
#pragma once

#include <string>
#include <vector>

#include "casework/case_view.h"

namespace dryout::window {

struct MapCell {
  std::size_t block = 0;  ///< place in the list given
  int column = 0, row = 0;
  bool supply = false;
};

struct MapArrow {
  std::size_t from = 0, to = 0;  ///< places in `cells`
};

struct MapLayout {
  std::vector<MapCell> cells;    ///< one for each block, in the order given
  std::vector<MapArrow> signal;  ///< blocks given only
  std::vector<MapArrow> supply;  ///< from the block that makes a rail to each that it feeds
  int columns = 0;
  int rows = 0;  ///< signal rows and supply rows together
  int signal_rows = 0;
};

/// At most `columns_max` (at least 1) columns.
[[nodiscard]] MapLayout lay_out_map(const std::vector<casework::BlockView>& blocks,
                                    int columns_max);

}  // namespace dryout::window
