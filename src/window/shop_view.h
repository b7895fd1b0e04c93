// The shop: what all its cases say together, whether that enters the figures, and how the cases
// are kept safe and carried to another bench.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/catalogue.h"
#include "casework/shop_memory.h"
#include "casework/workshop.h"
#include "window/command_queue.h"
#include "window/file_finder.h"
#include "window/sheet.h"

namespace dryout::window {

/// What the store was asked for.
struct ShopPage {
  std::vector<casework::CausesView> causes;  ///< by family of equipment
  std::optional<casework::ReadingsView> readings;
  std::optional<casework::LearnedView> learned;  ///< for the open case's kind of equipment
  bool history_on = false;                       ///< closed cases enter the figures
  casework::Workshop::ShopFigures figures;       ///< what mending is reckoned with
};

struct ShopState {
  casework::ReadingsAsked asked{"wet-aluminium", "esr", "", {}, {}};
  std::optional<ShopPage> page;
  FinderState arriving;  ///< a file of cases from another bench
  std::string figure;    ///< key of the figure being set; "" = none
  std::string figure_text, figure_fault;
};

void draw_shop(Sheet& sheet, const casework::Catalogue& catalogue, ShopState& state,
               CommandQueue& queue);

/// The figures that mending is reckoned with, each with its range; press one to set it.
void draw_shop_figures(Sheet& sheet, ShopState& state, CommandQueue& queue);

/// Shares of causes by family, with where the true share lies.
void draw_cause_shares(Sheet& sheet, const std::vector<casework::CausesView>& families);
/// What parts of one type read, on a logarithmic scale, by age of the set.
void draw_readings_by_age(Sheet& sheet, const casework::ReadingsView& readings);

}  // namespace dryout::window
