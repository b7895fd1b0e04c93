// Tables on pages: widths of columns by what stands in them, rows kept whole where a page has room
// for them, the heading row again on every page.
#include <algorithm>
#include <numeric>

#include "quantities/shown_text.h"
#include "report/page_flow.h"

namespace dryout::report {
namespace {

constexpr double gap = 10.0;              // between columns
constexpr double pad = 3.0;               // above and below a row's words
constexpr double word_width_max = 130.0;  // longer words are broken
constexpr std::size_t rows_measured_max = 400;

struct Wish {
  double least = 0.0;  ///< the longest word, within reason
  double all = 0.0;    ///< everything on one line
};

double sum(const std::vector<Wish>& wishes, double Wish::*part) {
  return std::accumulate(wishes.begin(), wishes.end(), 0.0,
                         [part](double so_far, const Wish& wish) { return so_far + wish.*part; });
}

/// Everything on one line where there is room for that; else between the least and the wish, each
/// column in proportion to what it lacks, where no wish counts for more than half the width.
std::vector<double> share_out(std::vector<Wish> wishes, double width) {
  const bool roomy = sum(wishes, &Wish::all) <= width;
  for (Wish& wish : wishes) {
    wish.all = roomy ? wish.all : std::max(wish.least, std::min(wish.all, width / 2.0));
  }
  const double least = sum(wishes, &Wish::least);
  const double all = sum(wishes, &Wish::all);
  std::vector<double> widths;
  for (const Wish& wish : wishes) {
    if (all <= width) {
      widths.push_back(wish.all * (roomy ? 1.0 : width / all));
    } else if (least >= width) {
      widths.push_back(width * wish.least / least);
    } else {
      widths.push_back(wish.least + (width - least) * (wish.all - wish.least) / (all - least));
    }
  }
  return widths;
}

}  // namespace

PageFlow::Grid PageFlow::grid_of(const Table& table) const {
  Grid grid;
  grid.head = {body().size - 1.5, true, false, Ink::quiet, false};
  std::vector<Wish> wishes;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const Column& column = table.columns[c];
    const SetText head(pen_.get(), column.title, grid.head, 0.0);
    Wish wish{longest_word(pen_.get(), column.title, grid.head), head.width()};
    Lettering lettering = body();
    lettering.figures = column.figures;
    for (std::size_t r = 0; r < std::min(rows_measured_max, table.rows.size()); ++r) {
      const std::string& text = table.rows[r].at(c);
      wish.all = std::max(wish.all, SetText(pen_.get(), text, lettering, 0.0).width());
      wish.least = std::max(wish.least, longest_word(pen_.get(), text, lettering));
    }
    // A number and its unit stay together.
    wish.least = std::min(column.figures ? wish.all : wish.least, word_width_max) + 1.0;
    wish.all = std::max(wish.all + 1.0, wish.least);
    wishes.push_back(wish);
  }
  const double gaps = gap * static_cast<double>(table.columns.size() - 1);
  grid.widths = share_out(wishes, text_width() - gaps);
  double left = margin;
  for (const double width : grid.widths) {
    grid.lefts.push_back(left);
    left += width + gap;
  }
  return grid;
}

std::vector<PageFlow::Cell> PageFlow::cells_of(const std::vector<std::string>& row,
                                               const Table& table, const Grid& grid,
                                               bool heading) const {
  std::vector<Cell> cells;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    Lettering lettering = heading ? grid.head : body();
    lettering.figures = !heading && table.columns[c].figures;
    lettering.flush_right = table.columns[c].figures;
    cells.push_back({SetText(pen_.get(), row.at(c), lettering, grid.widths[c]), grid.lefts[c], 0});
  }
  return cells;
}

double PageFlow::heading_row_height(const Table& table, const Grid& grid) const {
  double height = 0.0;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    height = std::max(
        height, SetText(pen_.get(), table.columns[c].title, grid.head, grid.widths[c]).height());
  }
  return height + 2 * pad;
}

void PageFlow::set_heading_row(const Table& table, const Grid& grid) {
  std::vector<std::string> titles;
  for (const Column& column : table.columns) {
    titles.push_back(column.title);
  }
  std::vector<Cell> cells = cells_of(titles, table, grid, true);
  draw_cells(cells);
  rule(y_, Ink::text, 0.75);
}

/// As many lines of every cell as the page has room for; moves below them.
void PageFlow::draw_cells(std::vector<Cell>& cells) {
  const double free = room() - 2 * pad;
  double used = 0.0;
  double baseline = 0.0;  // the faces differ in height: their first lines stand on one line
  for (const Cell& cell : cells) {
    baseline = std::max(baseline, cell.text.lines().front().baseline);
  }
  for (Cell& cell : cells) {
    const double shift = cell.next == 0 ? baseline - cell.text.lines().front().baseline : 0.0;
    const std::vector<SetLine>& lines = cell.text.lines();
    const double start = cell.next < lines.size() ? lines[cell.next].top : 0.0;
    const std::size_t first = cell.next;
    while (cell.next < lines.size() &&
           (lines[cell.next].bottom - start <= free || (at_top() && cell.next == first))) {
      cell.text.draw(pen_.get(), lines[cell.next], cell.x, y_ + pad + shift - start);
      used = std::max(used, lines[cell.next].bottom - start + shift);
      ++cell.next;
    }
  }
  y_ += used + 2 * pad;
}

void PageFlow::set_row(const std::vector<std::string>& row, const Table& table, const Grid& grid) {
  std::vector<Cell> cells = cells_of(row, table, grid, false);
  double height = 0.0;
  for (const Cell& cell : cells) {
    height = std::max(height, cell.text.height());
  }
  const auto turn = [&] {
    turn_page();
    set_heading_row(table, grid);
  };
  const double whole_max = page_room() - heading_row_height(table, grid);
  if (height + 2 * pad > room() && height + 2 * pad <= whole_max) {
    turn();
  }
  const auto unfinished = [](const Cell& cell) { return cell.next < cell.text.lines().size(); };
  for (draw_cells(cells); std::any_of(cells.begin(), cells.end(), unfinished); draw_cells(cells)) {
    turn();
  }
  rule(y_, Ink::hairline, 0.5);
}

void PageFlow::set(const Table& table) {
  if (table.columns.empty()) {
    return;
  }
  const Grid grid = grid_of(table);
  if (heading_row_height(table, grid) + 3 * body().size > room() && !at_top()) {
    turn_page();
  }
  set_heading_row(table, grid);
  for (const auto& row : table.rows) {
    set_row(row, table, grid);
  }
  y_ += 8.0;
}

void PageFlow::set(const Facts& facts) {
  double name_width = 0.0;
  for (const auto& [name, value] : facts.facts) {
    name_width = std::max(name_width, SetText(pen_.get(), name, body(Ink::quiet), 0.0).width());
  }
  name_width = std::min(name_width, 140.0);
  const double value_left = name_width + 14.0;
  for (const auto& [name, value] : facts.facts) {
    const SetText label(pen_.get(), name, body(Ink::quiet), name_width + 1.0);
    const SetText text(pen_.get(), quantities::shown_line(value), body(),
                       text_width() - value_left);
    if (std::max(label.height(), text.lines().front().bottom) > room() && !at_top()) {
      turn_page();
    }
    const int page = page_;
    const double top = y_;
    label.draw_all(pen_.get(), margin, y_);
    flow(text, value_left, false);
    y_ = page_ == page ? std::max(y_, top + label.height()) + 1.0 : y_ + 1.0;
  }
  y_ += 5.0;
}

}  // namespace dryout::report
