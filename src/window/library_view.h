// Everything the program knows, to be looked up: what an entry says, where it comes from, and which
// rules touch it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/catalogue.h"
#include "window/sheet.h"

namespace dryout::window {

struct LibraryState {
  std::string search;
  std::optional<casework::Shelf> shelf;  ///< none = all
  std::size_t selected = static_cast<std::size_t>(-1);
  int shown = 40;      ///< entries; more on demand
  bool whole = false;  ///< of the selected entry, all that touches it

  /// What fits, kept until the question changes.
  std::vector<std::size_t> found;
  std::string found_for;
};

void draw_library(Sheet& sheet, const casework::Catalogue& catalogue, LibraryState& state);

}  // namespace dryout::window
