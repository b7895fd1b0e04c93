#include "window/reading_form.h"

#include <algorithm>

#include "casework/bench_hints.h"
#include "casework/check_command.h"
#include "casework/measuring_at.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using quantities::Measure;
using quantities::PhysicalRange;
using quantities::Unit;

/// Reads one line of the form into `value`; an empty line leaves it unset. False on a line that
/// can't be read, with the reason in `fault`.
bool read_line(const std::string& text, const PhysicalRange& range, const char* line,
               std::optional<double>& value, std::string& fault) {
  if (text.empty()) {
    return true;
  }
  quantities::Result<double> parsed = quantities::parse_engineering(text, range.unit);
  if (parsed) {
    if (auto problem = quantities::out_of_range(range, *parsed, "this value")) {
      parsed = *problem;
    }
  }
  if (!parsed) {
    fault = std::string(line) + ": " + quantities::describe(parsed.problems().front());
    return false;
  }
  value = *parsed;
  return true;
}

bool leads_matter(const KindWords& kind, const std::string& figure) {
  const quantities::Result<double> value = quantities::parse_engineering(figure, kind.unit);
  return value && casework::leads_matter(kind.kind, *value);
}

bool is_zeroed(const FormSurroundings& around, const std::string& meter) {
  const auto& meters = around.catalogue.meters;
  return std::any_of(meters.begin(), meters.end(), [&meter](const casework::MeterChoice& choice) {
    return choice.id == meter && choice.zeroed;
  });
}

/// Asked only where the description of the set does not know, or is doubted.
void draw_across(Sheet& sheet, const std::string& name, const FormSurroundings& around,
                 ReadingFormState& state) {
  if (around.across == "nothing" && around.across_because.empty()) {
    return;  // a leg is off the board
  }
  if (!around.across.empty() && !state.ask_across) {
    say(sheet, Face::note, sheet.theme.faint,
        "Across it on the board, by the description of the set: " + around.across_because + '.');
    if (flow_button(sheet, name + "/across", "Not so",
                    {.weight = Weight::quiet, .face = Face::note})) {
      state.ask_across = true;
    }
    return;
  }
  say(sheet, Face::note, sheet.theme.faint, "What sits across it on the board?");
  bool begun = false;
  for (const AcrossWords& words : across_words()) {
    const ButtonLook look{.weight = state.across == words.across ? Weight::chosen : Weight::plain,
                          .face = Face::note};
    const std::string id = name + "/across/" + std::to_string(static_cast<int>(words.across));
    if (row_button(sheet, begun, id, words.title, look)) {
      state.across = words.across;
    }
  }
}

/// The shop's meters that can show this kind; the one picked stays until another is.
void draw_meters(Sheet& sheet, const std::string& name, const KindWords& kind,
                 const FormSurroundings& around, ReadingFormState& state) {
  std::string told = "Read with a usual hand-held meter";
  bool begun = false;
  for (const casework::MeterChoice& meter : around.catalogue.meters) {
    const bool chosen = meter.id == state.meter;
    if (chosen) {
      told = "Read with: " + meter.title + " (" + meter.told + ')';
    }
    const bool fits = meter.shows.empty() || std::find(meter.shows.begin(), meter.shows.end(),
                                                       kind.kind) != meter.shows.end();
    if (!state.more || !fits) {
      continue;
    }
    const ButtonLook look{.weight = chosen ? Weight::chosen : Weight::plain, .face = Face::note};
    if (!begun) {
      say(sheet, Face::note, sheet.theme.faint, "Which meter?");
    }
    if (row_button(sheet, begun, name + "/meter/" + meter.id, meter.title, look)) {
      state.meter = chosen ? "" : meter.id;
    }
  }
  if (!around.catalogue.meters.empty()) {
    say(sheet, Face::note, sheet.theme.faint, told + '.');
  }
}

}  // namespace

const std::vector<LimitSource>& limit_sources() {
  static const std::vector<LimitSource> sources{{"datasheet", "its data sheet"},
                                                {"look-alike", "a look-alike"},
                                                {"fresh-part", "a fresh part"},
                                                {"tan-delta", "from tan \u03b4"},
                                                {"general-table", "a table"}};
  return sources;
}

std::optional<casework::RecordReading> reading_of(ReadingFormState& state) {
  state.fault.clear();
  const KindWords& kind = kind_words(state.kind);
  const Measure measure = casework::measure_of(state.kind);
  casework::RecordReading reading;
  reading.item = state.item;
  reading.kind = state.kind;
  reading.across = state.across;
  reading.in_circuit = state.in_circuit;
  reading.meter = state.meter;
  reading.beside = state.beside;
  std::optional<double> figure, frequency, celsius, test_volts;
  if (state.figure.empty()) {
    state.fault = std::string("Type what the meter shows, such as ") + kind.example + '.';
    return std::nullopt;
  }
  reading.over_range = casework::is_over_range(state.figure);
  if (reading.over_range) {
    figure = 0.0;
  }
  const bool read =
      (reading.over_range ||
       read_line(state.figure, range_of(measure), "Reading", figure, state.fault)) &&
      read_line(state.limit, range_of_limit(measure), "Limit", reading.limit, state.fault) &&
      read_line(state.lead_zero, range_of(Measure::lead_resistance), "Leads shorted",
                reading.lead_zero, state.fault) &&
      read_line(state.test_volts, range_of(Measure::test_volts), "Test volts", test_volts,
                state.fault) &&
      read_line(state.frequency, range_of(Measure::frequency), "Test frequency", frequency,
                state.fault) &&
      read_line(state.celsius, range_of(Measure::temperature), "Temperature", celsius, state.fault);
  if (!read) {
    return std::nullopt;
  }
  reading.value = *figure;
  if (reading.limit) {
    reading.limit_source = limit_sources()[static_cast<std::size_t>(state.limit_source)].id;
  }
  if (test_volts) {
    reading.test_volts = quantities::Volt(*test_volts);
  }
  if (frequency) {
    reading.frequency = quantities::Hertz(*frequency);
  }
  if (celsius) {
    reading.temperature = quantities::Celsius(*celsius);
  }
  return reading;
}

bool draw_limit(Sheet& sheet, const std::string& name, const KindWords& kind,
                ReadingFormState& state) {
  bool done =
      number_field(sheet, name + "/limit", "Limit from the sheet in hand", state.limit,
                   range_of_limit(casework::measure_of(kind.kind)), {kind.example, sheet.px(230)});
  flow(sheet, sheet.px(420));
  done |= field(sheet, name + "/beside", "Shown beside it on paper, not judged by", state.beside,
                {"general-table 2.75; fresh-part 0.367", sheet.px(420)});
  bool begun = false;
  for (std::size_t i = 0; i < limit_sources().size(); ++i) {
    const bool chosen = static_cast<int>(i) == state.limit_source;
    const ButtonLook look{.weight = chosen ? Weight::chosen : Weight::plain, .face = Face::note};
    if (row_button(sheet, begun, name + "/limit-source/" + limit_sources()[i].id,
                   limit_sources()[i].title, look)) {
      state.limit_source = static_cast<int>(i);
    }
  }
  return done;
}

bool draw_figure_field(Sheet& sheet, const std::string& name, const KindWords& kind,
                       ReadingFormState& state, Face face) {
  const std::string label = std::string(kind.title) + " read" +
                            (kind.unit == Unit::none ? "" : ", in ") +
                            std::string(quantities::symbol_of(kind.unit));
  state.kind = kind.kind;
  return number_field(sheet, name + "/figure", label, state.figure,
                      range_of(casework::measure_of(kind.kind)),
                      {kind.example, face == Face::text ? sheet.px(230) : sheet.px(420), face}) &&
         !state.figure.empty();
}

void draw_reading_details(Sheet& sheet, const std::string& name, const KindWords& kind,
                          const FormSurroundings& around, ReadingFormState& state) {
  if (kind.unit == Unit::ohm && state.lead_zero.empty() && !is_zeroed(around, state.meter) &&
      leads_matter(kind, state.figure)) {
    say(sheet, Face::text, sheet.theme.ink,
        "At a figure this small the leads count: hold the tips together.");
    state.more = true;
  }
  if (kind.unit == Unit::ohm || kind.unit == Unit::farad) {
    draw_across(sheet, name, around, state);
  }
  if (kind.kind == casework::ReadingKind::leakage_current ||
      kind.kind == casework::ReadingKind::insulation) {
    field(sheet, name + "/test-volts", "Read at, in V", state.test_volts,
          {"its working volts", sheet.px(230)});
  }
  draw_meters(sheet, name, kind, around, state);
  const bool more = button(sheet, name + "/more", state.more ? "Fewer details" : "More details",
                           {.weight = Weight::quiet, .face = Face::note});
  state.more = more ? !state.more : state.more;
  if (!state.more) {
    return;
  }
  if (!around.limit_drawn) {
    (void)draw_limit(sheet, name, kind, state);
  }
  number_field(sheet, name + "/zero", "Meter with its leads shorted, in \u03a9", state.lead_zero,
               range_of(Measure::lead_resistance), {"0.05", sheet.px(230)});
  number_field(sheet, name + "/frequency", "Test frequency, in Hz", state.frequency,
               range_of(Measure::frequency), {"100k", sheet.px(230)});
  number_field(sheet, name + "/celsius", "Temperature of the part, in \u00b0C", state.celsius,
               range_of(Measure::temperature), {"23", sheet.px(230)});
  if (button(sheet, name + "/in-circuit",
             state.in_circuit ? "Measured in circuit" : "Measured with a leg lifted",
             {.face = Face::note})) {
    state.in_circuit = !state.in_circuit;
  }
}

void push_reading(const casework::CaseView& view, const PartBelonging& of,
                  const casework::RecordReading& reading, CommandQueue& queue) {
  const bool unknown = casework::suspect_called(view, reading.item) == nullptr;
  if ((unknown || of.capacitance || of.rated) && reading.item != of.group && !of.group.empty()) {
    casework::NamePart part;
    part.reference = reading.item;
    part.group = of.group;
    part.make = of.make;
    part.capacitance = of.capacitance;
    part.rated = of.rated;
    queue.push(part);
  }
  queue.push(reading);
}

}  // namespace dryout::window
