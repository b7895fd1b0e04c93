// The check to make now, large: what, where the probes go, what good and bad look like, what it
// costs; cautions before anything else; the outcome by one key or one figure.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "casework/case_view.h"
#include "casework/what_if.h"
#include "window/command_queue.h"
#include "window/reading_form.h"
#include "window/sheet.h"

namespace dryout::window {

/// What was typed at one check: it never moves to another.
struct TypedAtCheck {
  std::string remark, part, print, figure, limit, beside, test_volts;
};

struct ProbeState {
  std::string check, place;  ///< picked from the alternatives; "" = the best one
  std::string typed_for;     ///< "check@place" that what is typed below belongs to
  std::map<std::string, TypedAtCheck> typed_at;  ///< of the other checks
  std::string remark;       ///< what the meter showed where it belongs to no part
  std::string part;         ///< printed name of the part the figure belongs to
  std::string print;        ///< what is printed on it
  std::string print_fault;  ///< why that cannot be taken over
  ReadingFormState reading;
  bool show_figures = false;  ///< the arithmetic behind the choice
  bool set_answers = false;   ///< practice: the set shows how it looks, and no advice is given
  std::optional<casework::WhatIfView> what_if;  ///< the answer to the last question
  int alternatives = 6;                         ///< shown; more on demand
};

/// The check the page shows: the one picked, else the best one (in practice none), else null.
[[nodiscard]] const casework::CheckView* check_in_hand(const casework::CaseView& view,
                                                       const ProbeState& state);

/// Lays aside what was typed at another check, and brings back what was typed at this one. Null:
/// none is in hand.
void turn_to_check(ProbeState& state, const casework::CheckView* check);

void draw_probe(Sheet& sheet, const casework::CaseView& view, const casework::Catalogue& catalogue,
                ProbeState& state, CommandQueue& queue);

/// Cautions with their button, or the outcome keys and the figure: shared with the far view.
void draw_check_entry(Sheet& sheet, const casework::CaseView& view,
                      const casework::CheckView& check, const casework::Catalogue& catalogue,
                      ProbeState& state, CommandQueue& queue, Face face);

}  // namespace dryout::window
