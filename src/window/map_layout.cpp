#include "window/map_layout.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace dryout::window {
namespace {

using casework::BlockView;

std::vector<MapArrow> signal_arrows(const std::vector<BlockView>& blocks) {
  std::map<std::string, std::size_t> place;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    place[blocks[i].id] = i;
  }
  std::vector<MapArrow> arrows;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    for (const std::string& to : blocks[i].signal_to) {
      const auto found = place.find(to);
      if (found != place.end() && found->second != i) {
        arrows.push_back({i, found->second});
      }
    }
  }
  return arrows;
}

std::vector<MapArrow> supply_arrows(const std::vector<BlockView>& blocks) {
  std::vector<MapArrow> arrows;
  for (std::size_t from = 0; from < blocks.size(); ++from) {
    for (const std::string& rail : blocks[from].makes) {
      for (std::size_t to = 0; to < blocks.size(); ++to) {
        const std::vector<std::string>& fed = blocks[to].fed_by;
        if (to != from && std::find(fed.begin(), fed.end(), rail) != fed.end()) {
          arrows.push_back({from, to});
        }
      }
    }
  }
  return arrows;
}

/// Steps from a source: the longest way, arrows that would close a loop left out.
class Depths {
 public:
  Depths(std::size_t count, const std::vector<MapArrow>& arrows)
      : arrows_(arrows), state_(count, State::unseen), depth_(count, 0) {}

  std::vector<int> of_all() {
    for (std::size_t i = 0; i < depth_.size(); ++i) {
      (void)of(i);
    }
    return depth_;
  }

 private:
  enum class State { unseen, open, done };

  int of(std::size_t block) {
    if (state_[block] == State::unseen) {
      state_[block] = State::open;
      int depth = 0;
      for (const MapArrow& arrow : arrows_) {
        if (arrow.to == block && state_[arrow.from] != State::open) {
          depth = std::max(depth, of(arrow.from) + 1);
        }
      }
      depth_[block] = depth;
      state_[block] = State::done;
    }
    return depth_[block];
  }

  const std::vector<MapArrow>& arrows_;
  std::vector<State> state_;
  std::vector<int> depth_;
};

/// The mean row of those it is fed from (signal from the column before, or a rail).
double mean_row(std::size_t block, const std::vector<MapArrow>& arrows,
                const std::vector<MapCell>& cells, double otherwise) {
  double sum = 0;
  int count = 0;
  for (const MapArrow& arrow : arrows) {
    if (arrow.to == block && cells[arrow.from].column < cells[block].column) {
      sum += cells[arrow.from].row;
      ++count;
    }
  }
  return count == 0 ? otherwise : sum / count;
}

/// Gives rows to the blocks of each column, sources first. Returns the rows each column takes.
std::vector<int> stack(std::vector<MapCell>& cells, const std::vector<std::size_t>& members,
                       const std::vector<MapArrow>& arrows) {
  int deepest = -1;
  for (const std::size_t member : members) {
    deepest = std::max(deepest, cells[member].column);
  }
  std::vector<int> rows;
  for (int column = 0; column <= deepest; ++column) {
    std::vector<std::pair<double, std::size_t>> order;
    for (const std::size_t member : members) {
      if (cells[member].column == column) {
        order.emplace_back(mean_row(member, arrows, cells, static_cast<double>(order.size())),
                           member);
      }
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    int row = 0;
    for (const auto& [mean, member] : order) {
      cells[member].row = row++;
    }
    rows.push_back(row);
  }
  return rows;
}

/// Folds columns beyond the page into bands below each other; returns the rows used.
int fold(std::vector<MapCell>& cells, const std::vector<std::size_t>& members,
         const std::vector<int>& rows, int columns_max, int first_row) {
  std::vector<int> band_top;
  int top = first_row;
  for (std::size_t column = 0; column < rows.size();
       column += static_cast<std::size_t>(columns_max)) {
    band_top.push_back(top);
    const std::size_t end = std::min(rows.size(), column + static_cast<std::size_t>(columns_max));
    top += *std::max_element(rows.begin() + static_cast<std::ptrdiff_t>(column),
                             rows.begin() + static_cast<std::ptrdiff_t>(end));
  }
  for (const std::size_t member : members) {
    MapCell& cell = cells[member];
    cell.row += band_top[static_cast<std::size_t>(cell.column / columns_max)];
    cell.column %= columns_max;
  }
  return top;
}

}  // namespace

MapLayout lay_out_map(const std::vector<BlockView>& blocks, int columns_max) {
  MapLayout layout;
  columns_max = std::max(columns_max, 1);
  layout.signal = signal_arrows(blocks);
  layout.supply = supply_arrows(blocks);
  layout.cells.resize(blocks.size());
  std::vector<bool> carries(blocks.size(), false);
  for (const MapArrow& arrow : layout.signal) {
    carries[arrow.from] = carries[arrow.to] = true;
  }
  const std::vector<int> signal_depth = Depths(blocks.size(), layout.signal).of_all();
  const std::vector<int> supply_depth = Depths(blocks.size(), layout.supply).of_all();
  std::vector<std::size_t> signal, supply;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    layout.cells[i].block = i;
    layout.cells[i].supply = !carries[i];
    layout.cells[i].column = carries[i] ? signal_depth[i] : supply_depth[i];
    (carries[i] ? signal : supply).push_back(i);
  }
  layout.signal_rows =
      fold(layout.cells, signal, stack(layout.cells, signal, layout.signal), columns_max, 0);
  layout.rows = fold(layout.cells, supply, stack(layout.cells, supply, layout.supply), columns_max,
                     layout.signal_rows);
  for (const MapCell& cell : layout.cells) {
    layout.columns = std::max(layout.columns, cell.column + 1);
  }
  return layout;
}

}  // namespace dryout::window
