// Entering a number read from a meter. The figure alone is enough; what sits across the part, the
// limit from the sheet in hand and the lead zero sharpen what it proves.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/catalogue.h"
#include "casework/command.h"
#include "window/command_queue.h"
#include "window/sheet.h"
#include "window/wording.h"

namespace dryout::window {

struct ReadingFormState {
  std::string item, figure, limit, lead_zero, frequency, celsius, test_volts, beside;
  std::string meter;  ///< id in the shop's list; stays from reading to reading
  casework::ReadingKind kind = casework::ReadingKind::esr;
  casework::Across across = casework::Across::unknown;
  bool in_circuit = true;
  bool more = false;        ///< the lines below the first are unfolded
  bool ask_across = false;  ///< what is known to sit across is doubted: ask all the same
  int limit_source = 0;     ///< place in limit_sources()
  std::string fault;        ///< what can't be read, and what can
};

/// What is known around the place where the reading is taken.
struct FormSurroundings {
  const casework::Catalogue& catalogue;
  std::string across;          ///< known to sit across the part, "" = to be asked
  std::string across_because;  ///< how that is known
  bool limit_drawn = false;    ///< draw_limit() stands elsewhere on the page
};

struct LimitSource {
  const char* id;
  const char* title;
};
[[nodiscard]] const std::vector<LimitSource>& limit_sources();

/// The reading as the form stands, or nothing and the reason in `state.fault`.
[[nodiscard]] std::optional<casework::RecordReading> reading_of(ReadingFormState& state);

/// The line for the figure. True when Enter closed it with something in it.
bool draw_figure_field(Sheet& sheet, const std::string& name, const KindWords& kind,
                       ReadingFormState& state, Face face);
/// The limit from the sheet in hand and where it comes from, and what is shown beside it. True
/// when Enter closed one of them.
[[nodiscard]] bool draw_limit(Sheet& sheet, const std::string& name, const KindWords& kind,
                              ReadingFormState& state);
/// The rest: what sits across, limit and its source, zero, frequency, temperature.
void draw_reading_details(Sheet& sheet, const std::string& name, const KindWords& kind,
                          const FormSurroundings& around, ReadingFormState& state);
/// Where a part that is new to the case belongs.
struct PartBelonging {
  std::string group;      ///< id; "" = it must be known
  std::string make = {};  ///< maker and series as printed; "" = not told
  /// As printed on it, where that was typed: it is described anew with it.
  std::optional<quantities::Farad> capacitance = {};
  std::optional<quantities::Volt> rated = {};
};
/// Sends the reading; of a part that is new, first its name and where it belongs.
void push_reading(const casework::CaseView& view, const PartBelonging& of,
                  const casework::RecordReading& reading, CommandQueue& queue);

}  // namespace dryout::window
