// Everything the window remembers between frames, and the drawing of one frame of it. No case is
// changed here and no file touched: wishes go into the queue.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "casework/catalogue.h"
#include "casework/drafts.h"
#include "casework/practice_room.h"
#include "casework/workshop.h"
#include "window/cases_view.h"
#include "window/command_queue.h"
#include "window/hand_over_view.h"
#include "window/intake_view.h"
#include "window/library_view.h"
#include "window/log_view.h"
#include "window/map_view.h"
#include "window/mend_view.h"
#include "window/plan_view.h"
#include "window/practice_view.h"
#include "window/probe_view.h"
#include "window/readings_view.h"
#include "window/sheet.h"
#include "window/shop_view.h"
#include "window/suspects_view.h"
#include "window/symptoms_view.h"
#include "window/widgets.h"

namespace dryout::window {

struct Desk {
  ThemeName theme = ThemeName::dark;
  float scale = 1.0F;  ///< 1 to 3
  bool far = false, help = false;
  Station station = Station::cases;
  std::string word;  ///< the last thing to say: a refusal, a file written
  bool word_is_refusal = false;

  casework::Catalogue catalogue;
  CaseShelf shelf;
  std::optional<casework::CaseView> open_case;
  std::optional<casework::MendingView> mending;    ///< of it, where a page shows it
  std::optional<casework::PlanStep> plan;          ///< of it, where a page shows it
  std::optional<casework::PracticeView> practice;  ///< the open case is a practice set
  std::string alone;  ///< the chart that fills the whole desk, for a picture of it; "" = none

  CasesState cases_state;
  IntakeState new_case, intake;
  SymptomsState symptoms;
  ProbeState probe;
  SuspectsState suspects;
  MendState mend;
  HandOverState hand_over;
  MapState map;
  ReadingsState readings;
  LogState log;
  LibraryState library;
  PlanState ahead;
  PracticeState practising;
  ShopState shop;

  std::string thinking;      ///< what is being worked out and how far, "" = nothing
  bool figures_due = false;  ///< the figures of the open case are from before the last step
  std::int64_t coming = 0;   ///< the case that comes to the desk once its figures are there
  /// What was asked for the page in sight, answered or not.
  struct Asked {
    std::optional<double> mending_for;
    std::optional<int> plan_for;
  } asked;

  casework::TypedText typed;                           ///< as this frame began
  std::map<std::int64_t, casework::TypedText> drafts;  ///< [case, 0 = none yet] typed, not entered
  /// Steps that wait until another program lets go of the store, and the text they were typed as.
  std::vector<casework::Command> waiting;
  casework::TypedText waiting_text;
};

/// Draws the desk over the whole display of `width` by `height` pixels.
void draw_desk(Sheet& sheet, Desk& desk, float width, float height, CommandQueue& queue);

/// The column of stations at the left edge, the job as one thread from top to bottom.
void draw_stations(Sheet& sheet, const Desk& desk, Box box, CommandQueue& queue);

/// Whether the page is about a case: not the shelf, the shop, the library, the door to practice.
[[nodiscard]] bool needs_case(Station station);

/// Answers a wish that concerns only the desk (pages, theme, scale); false if it concerns the case.
bool turn_page(Desk& desk, const Intention& wish);

}  // namespace dryout::window
