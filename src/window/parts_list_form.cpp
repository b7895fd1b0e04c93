#include "window/parts_list_form.h"

#include <algorithm>

#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

constexpr std::size_t lines_told = 6;

void say_list(const Sheet& sheet, const char* heading, const std::vector<std::string>& lines) {
  if (lines.empty()) {
    return;
  }
  say(sheet, Face::note, sheet.theme.faint, heading);
  for (std::size_t i = 0; i < std::min(lines_told, lines.size()); ++i) {
    say(sheet, Face::note, sheet.theme.ink, lines[i]);
  }
  if (lines.size() > lines_told) {
    say(sheet, Face::note, sheet.theme.faint,
        "and " + std::to_string(lines.size() - lines_told) + " more");
  }
}

void draw_outcome(Sheet& sheet, const std::string& name, const casework::OwnSetWish& wish,
                  PartsListState& state, CommandQueue& queue) {
  const casework::OwnSet& set = *state.seen;
  gap(sheet, 4);
  say(sheet, Face::text, sheet.theme.ink, set.sentence);
  say_list(sheet, "Missing; the set works without them:", set.missing);
  say_list(sheet, "Role or block taken from a look-alike:", set.lent);
  say_list(sheet, "Stayed as in the architecture, the list has nothing there:", set.kept);
  gap(sheet, 4);
  field(sheet, name + "/title", "Its name", state.title, {set.title, sheet.px(300)});
  if (button(sheet, name + "/keep", "Keep it as your own", {.weight = Weight::next})) {
    queue.push(KeepPartsList{wish});
  }
}

}  // namespace

void draw_parts_list(Sheet& sheet, const std::string& name, const std::string& like,
                     PartsListState& state, CommandQueue& queue) {
  gap(sheet, 6);
  if (button(sheet, name, state.open ? "No parts list" : "A parts list of the set is at hand",
             {.weight = Weight::quiet, .face = Face::note})) {
    state.open = !state.open;
  }
  if (!state.open) {
    return;
  }
  const std::string before = state.file.path;
  bool look = find_file(sheet, name, "Its file (CSV)", {".csv", ".txt"}, state.file, queue);
  if (state.file.path != before) {
    state.seen.reset();
  }
  look |= button(sheet, name + "/look", "What comes of it", {.face = Face::note});
  casework::OwnSetWish wish;
  wish.file = state.file.path;
  wish.like = like;
  wish.title = state.title;
  if (look && !state.file.path.empty()) {
    queue.push(LookAtPartsList{wish});
  }
  say(sheet, Face::note, sheet.theme.faint,
      like.empty() ? "The kind of equipment that fits best is taken as a start; pick one below to "
                     "start from that."
                   : "The kind of equipment picked below is the start.");
  if (state.seen) {
    draw_outcome(sheet, name, wish, state, queue);
  }
}

}  // namespace dryout::window
