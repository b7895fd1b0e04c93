#include "window/library_view.h"

#include <imgui.h>

#include <algorithm>

#include "window/drawing.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::LibraryEntry;
using casework::Shelf;

std::string shelf_word(Shelf shelf) {
  return std::string(casework::shelf_words()[static_cast<std::size_t>(shelf)]);
}

void look_up(const casework::Catalogue& catalogue, LibraryState& state) {
  const std::string asked = (state.shelf ? shelf_word(*state.shelf) : "") + '\n' + state.search +
                            '\n' + std::to_string(catalogue.library.size());
  if (asked == state.found_for) {
    return;
  }
  state.found_for = asked;
  state.found.clear();
  state.shown = LibraryState{}.shown;
  for (std::size_t i = 0; i < catalogue.library.size(); ++i) {
    const LibraryEntry& entry = catalogue.library[i];
    if ((!state.shelf || entry.shelf == *state.shelf) && matches(entry, state.search)) {
      state.found.push_back(i);
    }
  }
}

void draw_shelves(Sheet& sheet, LibraryState& state) {
  if (button(sheet, "library/all", "all",
             {.weight = state.shelf ? Weight::plain : Weight::chosen, .face = Face::note})) {
    state.shelf.reset();
  }
  for (std::size_t i = 0; i < casework::shelf_words().size(); ++i) {
    const Shelf shelf = static_cast<Shelf>(i);
    const ButtonLook look{.weight = state.shelf == shelf ? Weight::chosen : Weight::plain,
                          .face = Face::note};
    const std::string word = shelf_word(shelf);
    flow(sheet, button_width(sheet, word, look));
    if (button(sheet, "library/shelf/" + word, word, look)) {
      state.shelf = shelf;
    }
  }
}

std::string source_words(const LibraryEntry& entry) {
  const std::string kind(casework::word_of_source(entry.kind));
  return "Source: " + kind + (entry.source.empty() ? "" : ": " + entry.source);
}

void draw_fact(const Sheet& sheet, const std::string& word, const std::string& text) {
  const float column = sheet.px(120);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x - column;
  const float word_high = write_wrapped(sheet, Face::note, sheet.theme.faint, at.x,
                                        at.y + sheet.px(2), column - sheet.px(8), word);
  const float text_high =
      write_wrapped(sheet, Face::text, sheet.theme.ink, at.x + column, at.y, width, text);
  ImGui::Dummy(ImVec2(column + width, std::max(word_high, text_high) + sheet.px(3)));
}

void draw_entry(Sheet& sheet, const LibraryEntry& entry, LibraryState& state) {
  constexpr std::size_t touching_shown = 8;
  ImGui::Indent(sheet.px(14));
  if (!entry.because.empty()) {
    say(sheet, Face::text, sheet.theme.ink, entry.because);
  }
  for (const auto& [name, fact] : entry.facts) {
    draw_fact(sheet, name, fact);
  }
  say(sheet, Face::note, sheet.theme.faint, source_words(entry));
  const std::size_t all = entry.touched_by.size();
  const std::size_t count = state.whole ? all : std::min(all, touching_shown);
  if (all > 0) {
    say(sheet, Face::note, sheet.theme.faint,
        "Touched by " + std::to_string(all) + (all == 1 ? " entry:" : " entries:"));
  }
  for (std::size_t i = 0; i < count; ++i) {
    say(sheet, Face::note, sheet.theme.ink, entry.touched_by[i]);
  }
  if (count < all && button(sheet, "library/whole", "All of them",
                            {.weight = Weight::quiet, .face = Face::note})) {
    state.whole = true;
  }
  gap(sheet, 6);
  ImGui::Unindent(sheet.px(14));
}

void draw_row(Sheet& sheet, const LibraryEntry& entry, std::size_t index, LibraryState& state) {
  const bool chosen = state.selected == index;
  const float width = ImGui::GetContentRegionAvail().x;
  const Face face = chosen ? Face::strong : Face::text;
  const float mark_width = std::min(width * 0.38F, sheet.px(280));
  const float title_width = width - mark_width - sheet.px(18);
  const std::string mark = shelf_word(entry.shelf) + "  " + entry.id;
  const float high = std::max(wrapped_height(sheet, face, title_width, entry.title),
                              wrapped_height(sheet, Face::note, mark_width, mark) + sheet.px(2));
  const Touch touch = press_area(sheet, "library/" + shelf_word(entry.shelf) + '/' + entry.id,
                                 entry.title, width, high + sheet.px(10));
  if (touch.hovered || chosen) {
    fill(sheet, touch.box, sheet.theme.card, 4);
  }
  const float y = touch.box.top + sheet.px(5);
  write_wrapped(sheet, face, sheet.theme.ink, touch.box.left + sheet.px(6), y, title_width,
                entry.title);
  write_wrapped(sheet, Face::note, sheet.theme.faint, touch.box.right - mark_width, y + sheet.px(2),
                mark_width, mark);
  if (touch.focused) {
    focus_ring(sheet, touch.box);
  }
  if (touch.pressed) {
    state.selected = chosen ? static_cast<std::size_t>(-1) : index;
    state.whole = false;
  }
}

}  // namespace

void draw_library(Sheet& sheet, const casework::Catalogue& catalogue, LibraryState& state) {
  say(sheet, Face::heading, sheet.theme.ink, "What the program knows");
  field(sheet, "library/search", "", state.search, {"words that must stand in it"});
  gap(sheet, 4);
  draw_shelves(sheet, state);
  look_up(catalogue, state);
  gap(sheet, 6);
  say(sheet, Face::note, sheet.theme.faint,
      state.found.empty() ? "Nothing has all of these words."
                          : std::to_string(state.found.size()) + " entries");
  const std::size_t count = std::min(state.found.size(), static_cast<std::size_t>(state.shown));
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t index = state.found[i];
    draw_row(sheet, catalogue.library[index], index, state);
    if (state.selected == index) {
      draw_entry(sheet, catalogue.library[index], state);
    }
  }
  if (count < state.found.size() && button(sheet, "library/more", "More of them",
                                           {.weight = Weight::quiet, .face = Face::note})) {
    state.shown += 60;
  }
}

}  // namespace dryout::window
