#include "window/file_finder.h"

#include <algorithm>

#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::FolderEntry;
using casework::FolderView;

/// Takes an entry up into the path; whether that is a file.
bool take_up(Sheet& sheet, const std::string& field_name, const FolderEntry& entry,
             FinderState& state) {
  state.path = entry.path;
  if (entry.is_folder) {
    sheet.items.focus_on(field_name);
  }
  return !entry.is_folder;
}

bool draw_entries(Sheet& sheet, const std::string& name, const FolderView& seen,
                  FinderState& state) {
  bool taken = false;
  const std::string folder = "In " + seen.folder;
  if (seen.entries.empty()) {
    say(sheet, Face::note, sheet.theme.faint, folder + " nothing begins so.");
    return false;
  }
  say(sheet, Face::note, sheet.theme.faint, folder);
  bool begun = false;
  for (const FolderEntry& entry : seen.entries) {
    const ButtonLook look{.weight = entry.is_folder ? Weight::quiet : Weight::plain,
                          .face = Face::note};
    const bool pressed = row_button(sheet, begun, name + "/entry/" + entry.name, entry.name, look);
    taken |= pressed && take_up(sheet, name + "/path", entry, state);
  }
  if (seen.left_out > 0) {
    say(sheet, Face::note, sheet.theme.faint,
        "and " + std::to_string(seen.left_out) + " more: type on to narrow the list.");
  }
  return taken;
}

/// Nothing is left to find when the path names the one file in sight.
bool found(const FinderState& state) {
  return state.seen->entries.size() == 1 && state.seen->entries.front().path == state.path;
}

}  // namespace

bool find_file(Sheet& sheet, const std::string& name, const std::string& label,
               const std::vector<std::string>& endings, FinderState& state, CommandQueue& queue) {
  bool taken = field(sheet, name + "/path", label, state.path,
                     {"type a path, pick below, or drop the file here"});
  if (state.seen && state.seen->begun == state.path) {
    const FolderView& seen = *state.seen;
    if (taken && seen.entries.size() == 1) {
      taken = take_up(sheet, name + "/path", seen.entries.front(), state);
    } else if (!found(state)) {
      taken |= draw_entries(sheet, name, seen, state);
    }
  }
  if (state.asked == state.path && !state.path.empty() && !state.seen) {
    say(sheet, Face::note, sheet.theme.faint, "There is no such folder, or it may not be read.");
  }
  if (state.asked != state.path) {
    state.asked = state.path;
    queue.push(LookIntoFolder{state.path, endings});
  }
  return taken && !state.path.empty();
}

}  // namespace dryout::window
