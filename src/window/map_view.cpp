#include "window/map_view.h"

#include <imgui.h>

#include <algorithm>

#include "window/chart_picture.h"
#include "window/drawing.h"
#include "window/map_layout.h"
#include "window/suspicion_column.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::BlockView;

constexpr float box_width = 138;
constexpr float box_least = 88;  ///< height
constexpr float box_padding = 8;
constexpr float bar_height = 14;
constexpr float gutter_x = 34;
constexpr float gutter_y = 22;

struct Grid {
  float left = 0, top = 0;
  float cell_width = 0, cell_height = 0;
  float box_height = 0;
  float lane = 0;  ///< extra room between signal and supply
};

Box box_of(const Sheet& sheet, const Grid& grid, const MapCell& cell) {
  const float x = grid.left + static_cast<float>(cell.column) * grid.cell_width;
  const float y =
      grid.top + static_cast<float>(cell.row) * grid.cell_height + (cell.supply ? grid.lane : 0);
  return {x, y, x + grid.cell_width - sheet.px(gutter_x), y + grid.box_height};
}

/// Straight to a neighbour on the right; round the corner to a block in another band.
void draw_flow(const Sheet& sheet, Box from, Box to, Colour colour, float thickness) {
  const float y0 = (from.top + from.bottom) / 2;
  const float y1 = (to.top + to.bottom) / 2;
  if (to.left > from.right) {
    const float bend = to.left - sheet.px(gutter_x) / 2;
    if (y0 == y1) {
      arrow(sheet, from.right, y0, to.left, y1, colour, thickness);
      return;
    }
    line(from.right, y0, bend, y0, colour, thickness);
    line(bend, y0, bend, y1, colour, thickness);
    arrow(sheet, bend, y1, to.left, y1, colour, thickness);
    return;
  }
  const bool down = to.top > from.top;
  const float across = down ? to.top - sheet.px(gutter_y) / 2 : to.bottom + sheet.px(gutter_y) / 2;
  const float out = from.right + sheet.px(gutter_x) / 2;
  const float centre = (to.left + to.right) / 2;
  line(from.right, y0, out, y0, colour, thickness);
  line(out, y0, out, across, colour, thickness);
  line(out, across, centre, across, colour, thickness);
  arrow(sheet, centre, across, centre, down ? to.top : to.bottom, colour, thickness);
}

void draw_feed(const Sheet& sheet, Box from, Box to) {
  const Colour colour = sheet.theme.clears;
  const float x0 = (from.left + from.right) / 2;
  const float x1 = to.left + sheet.px(14);
  dashed(sheet, x0, from.top, x1, to.bottom, colour);
  arrow(sheet, x1, to.bottom + sheet.px(12), x1, to.bottom, colour, sheet.px(2));
}

std::string block_words(const BlockView& block) {
  std::string words = block.title + "\nsuspicion " + percent(block.suspicion);
  if (!block.board_title.empty()) {
    words += "\non " + block.board_title;
  }
  if (!block.fed_by.empty()) {
    words += "\nfed by " + joined(block.fed_by);
  }
  if (!block.makes.empty()) {
    words += "\nmakes " + joined(block.makes);
  }
  return words;
}

/// A tint that leaves ink on it readable at 7:1 (held by a test).
Colour tint_of(const Theme& theme, quantities::Probability suspicion) {
  return theme.accuses.faded(static_cast<std::uint8_t>(64.0 * suspicion.value()));
}

/// The words, with a line's end after the hyphen of each word too long for a line: the library that
/// draws the text breaks lines at spaces alone, and a long word anywhere.
std::string broken_at_hyphens(const Sheet& sheet, const std::string& words, float width) {
  std::string lines;
  for (std::size_t begin = 0; begin < words.size();) {
    const std::size_t space = std::min(words.find(' ', begin), words.size() - 1);
    std::string word = words.substr(begin, space + 1 - begin);
    const std::size_t hyphen = word.find('-');
    if (hyphen != std::string::npos && width_of(sheet, Face::note, word) > width) {
      word.insert(hyphen + 1, "\n");
    }
    lines += word;
    begin = space + 1;
  }
  return lines;
}

std::string rails_of(const BlockView& block) {
  return !block.makes.empty() ? "makes " + joined(block.makes) : joined(block.fed_by);
}

/// What a block's bar and words take in a box of this width.
float height_for(const Sheet& sheet, const BlockView& block, float width) {
  const float inner = width - 2 * sheet.px(box_padding);
  return sheet.px(2 * box_padding + bar_height + 8) +
         wrapped_height(sheet, Face::note, inner, broken_at_hyphens(sheet, block.title, inner)) +
         wrapped_height(sheet, Face::note, inner, rails_of(block));
}

bool draw_block(Sheet& sheet, const BlockView& block, Box box, bool selected) {
  const Theme& theme = sheet.theme;
  ImGui::SetCursorScreenPos(ImVec2(box.left, box.top));
  const Touch touch = press_area(sheet, "map/" + block.id, block.title, box.width(), box.height());
  fill(sheet, box, theme.card, 4);
  fill(sheet, box, tint_of(theme, block.suspicion), 4);
  outline(sheet, box, selected || touch.hovered ? theme.ink : theme.line, selected ? 2.5F : 1.2F,
          4);
  const float pad = sheet.px(box_padding);
  const float number = width_of(sheet, Face::figure_note, "> 99 %");
  const Box bar{box.left + pad, box.top + pad, box.right - 2 * pad - number,
                box.top + pad + sheet.px(bar_height)};
  suspicion_bar(sheet, bar, block.suspicion);
  write(sheet, Face::figure_note, theme.ink, box.right - pad - number, bar.top - sheet.px(1),
        percent(block.suspicion));
  const float inner = box.width() - 2 * pad;
  write_wrapped(sheet, Face::note, theme.ink, box.left + pad, bar.bottom + sheet.px(6), inner,
                broken_at_hyphens(sheet, block.title, inner));
  const std::string rails = rails_of(block);
  write_wrapped(sheet, Face::note, theme.ink, box.left + pad,
                box.bottom - pad - wrapped_height(sheet, Face::note, inner, rails), inner, rails);
  if (touch.focused) {
    focus_ring(sheet, box);
  }
  if (touch.hovered) {
    explain(sheet, block_words(block));
  }
  return touch.pressed;
}

std::vector<BlockView> blocks_on(const casework::CaseView& view, const std::string& board) {
  std::vector<BlockView> blocks;
  for (const BlockView& block : view.blocks) {
    if (board.empty() || block.board == board) {
      blocks.push_back(block);
    }
  }
  return blocks;
}

void draw_boards(Sheet& sheet, const casework::CaseView& view, MapState& state) {
  if (button(
          sheet, "map/board/all", "Whole set",
          {.weight = state.board.empty() ? Weight::chosen : Weight::plain, .face = Face::note})) {
    state.board.clear();
  }
  for (const casework::BoardView& board : view.boards) {
    if (flow_button(sheet, "map/board/" + board.id, board.title + "  " + percent(board.suspicion),
                    {.weight = state.board == board.id ? Weight::chosen : Weight::plain,
                     .face = Face::note})) {
      state.board = board.id;
    }
  }
  for (const casework::BoardView& board : view.boards) {
    if (board.id == state.board && !board.opens_titles.empty()) {
      say(sheet, Face::note, sheet.theme.faint,
          "To reach it: " + joined(board.opens_titles) + ", " +
              quantities::format_duration(board.access_effort));
    }
  }
}

void draw_picked(Sheet& sheet, const casework::CaseView& view, const std::string& id,
                 CommandQueue& queue) {
  for (const BlockView& block : view.blocks) {
    if (block.id != id) {
      continue;
    }
    section(sheet, block.title);
    if (!block.fed_by.empty() || !block.makes.empty()) {
      say(sheet, Face::note, sheet.theme.faint,
          (block.fed_by.empty() ? "" : "fed by " + joined(block.fed_by) + ". ") +
              (block.makes.empty() ? "" : "makes " + joined(block.makes) + "."));
    }
    for (const casework::SuspectView& suspect : view.suspects) {
      if (suspect.block == id &&
          draw_suspect_row(sheet, "map/item/" + suspect.item, suspect, false)) {
        queue.push(ShowSuspect{suspect.item});
      }
    }
  }
}

void draw_arrows(const Sheet& sheet, const Grid& grid, const MapLayout& layout,
                 const std::vector<BlockView>& blocks, const std::string& picked) {
  for (const MapArrow& arrow : layout.signal) {
    draw_flow(sheet, box_of(sheet, grid, layout.cells[arrow.from]),
              box_of(sheet, grid, layout.cells[arrow.to]), sheet.theme.faint, sheet.px(1.8F));
  }
  for (const MapArrow& arrow : layout.supply) {
    if (blocks[arrow.from].id == picked || blocks[arrow.to].id == picked) {
      draw_feed(sheet, box_of(sheet, grid, layout.cells[arrow.from]),
                box_of(sheet, grid, layout.cells[arrow.to]));
    }
  }
}

}  // namespace

void draw_block_map(Sheet& sheet, const casework::CaseView& view, MapState& state) {
  const std::vector<BlockView> blocks = blocks_on(view, state.board);
  const float width = ImGui::GetContentRegionAvail().x;
  const float wanted = sheet.px(box_width + gutter_x);
  const int columns = std::max(1, static_cast<int>((width + sheet.px(gutter_x)) / wanted));
  const MapLayout layout = lay_out_map(blocks, columns);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float cell = std::min(
      wanted * 1.4F, (width - sheet.px(4)) / static_cast<float>(std::max(1, layout.columns)));
  const bool both = layout.signal_rows > 0 && layout.rows > layout.signal_rows;
  float box_height = sheet.px(box_least);
  for (const BlockView& block : blocks) {
    box_height = std::max(box_height, height_for(sheet, block, cell - sheet.px(gutter_x)));
  }
  const Grid grid{at.x + sheet.px(2), at.y + sheet.px(4),     cell, box_height + sheet.px(gutter_y),
                  box_height,         both ? sheet.px(26) : 0};
  draw_arrows(sheet, grid, layout, blocks, state.block);
  if (both) {
    const float y = grid.top + static_cast<float>(layout.signal_rows) * grid.cell_height;
    write(sheet, Face::note, sheet.theme.faint, grid.left, y - sheet.px(4),
          "Supply (pick a block to see what feeds it, and what it feeds)");
  }
  for (const MapCell& cell_of_block : layout.cells) {
    const BlockView& block = blocks[cell_of_block.block];
    if (draw_block(sheet, block, box_of(sheet, grid, cell_of_block), block.id == state.block)) {
      state.block = state.block == block.id ? "" : block.id;
    }
  }
  ImGui::SetCursorScreenPos(at);
  ImGui::Dummy(ImVec2(width, static_cast<float>(layout.rows) * grid.cell_height + grid.lane));
}

void draw_map(Sheet& sheet, const casework::CaseView& view, MapState& state, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Block map");
  if (view.blocks.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "This kind of equipment has no blocks on record.");
    return;
  }
  draw_boards(sheet, view, state);
  save_chart_button(sheet, "map", queue);
  gap(sheet, 4);
  const Box chart = chart_begins();
  draw_block_map(sheet, view, state);
  chart_ends(sheet, "map", chart, queue);
  draw_picked(sheet, view, state.block, queue);
}

}  // namespace dryout::window
