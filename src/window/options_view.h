// The ways of mending on the page: what each costs now and later, over which horizon, where the
// answer flips, and what it would have one buy.
#pragma once

#include "casework/mending_view.h"
#include "window/mend_view.h"
#include "window/widgets.h"

namespace dryout::window {

/// Advice, reasons, horizon, options, chart; before a complaint, the batches to sample first.
void draw_options(Sheet& sheet, const casework::MendingView& mending, MendState& state,
                  CommandQueue& queue);

/// The shopping list of the option looked at.
void draw_shopping(Sheet& sheet, const casework::MendingView& mending, MendState& state,
                   CommandQueue& queue);

/// Expected cost of every option over the horizon. `shown`: the option drawn strongest.
void draw_cost_chart(Sheet& sheet, const casework::MendingView& mending, std::size_t shown);

/// Batches to sample and what the readings so far say of them.
void draw_sampling(Sheet& sheet, const casework::MendingView& mending, CommandQueue& queue);

/// The option looked at: index into MendingView::options.
[[nodiscard]] std::size_t option_in_sight(const casework::MendingView& mending,
                                          const MendState& state);

}  // namespace dryout::window
