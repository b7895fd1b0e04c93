// dryout keep-limit: the row of the data sheet in hand, kept for next time in the technician's own
// folder.
#include <CLI/CLI.hpp>
#include <deque>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "documents/write_whole.h"
#include "knowledge/known_ids.h"
#include "knowledge/load.h"
#include "quantities/measure.h"
#include "readings/limits_library.h"

namespace dryout::app {
namespace {

using quantities::Measure;
using quantities::Problems;
using readings::LimitRow;

struct LimitWords {
  std::string maker, series, document, technology = "wet-aluminium", body = "unknown", capacitance,
                                       volts, impedance, esr, tan_delta, leakage, insulation,
                                       insulation_volts, dc_esr, frequency = "100k";
};

std::optional<double> number(const char* option, const std::string& text, Measure measure,
                             Problems& problems) {
  if (text.empty()) {
    return std::nullopt;
  }
  const auto value = quantities::parse_limit(text, measure);
  if (value) {
    return *value;
  }
  quantities::Problem problem = value.problems().front();
  problem.place.file = option;
  problems.push_back(problem);
  return std::nullopt;
}

/// An id made of what names the row, with everything else turned into hyphens.
std::string id_of(const LimitWords& words) {
  std::string id =
      "own-" + words.maker + '-' + words.series + '-' + words.capacitance + '-' + words.volts;
  for (char& c : id) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.';
    const bool upper = c >= 'A' && c <= 'Z';
    c = plain ? c : upper ? static_cast<char>(c - 'A' + 'a') : '-';
  }
  constexpr std::size_t id_length_max = 64;
  return id.substr(0, id_length_max);
}

void read_direct_current(const LimitWords& words, LimitRow& row, Problems& problems) {
  if (const auto i = number("--leakage", words.leakage, Measure::leakage_current, problems)) {
    row.leakage = readings::LeakageRule{};
    row.leakage->least = *i;
  }
  const auto volts =
      number("--insulation-volts", words.insulation_volts, Measure::test_volts, problems);
  if (const auto r = number("--insulation", words.insulation, Measure::insulation, problems)) {
    row.insulation = readings::InsulationRule{*r, 0.0, volts.value_or(0.0), 0.0};
  } else if (volts) {
    problems.push_back({"volts of a test whose result is not said",
                        {"--insulation-volts", 0, {}},
                        words.insulation_volts,
                        "--insulation as well"});
  }
  if (const auto r = number("--dc-esr", words.dc_esr, Measure::esr, problems)) {
    row.dc_esr_max = quantities::Ohm(*r);
  }
}

LimitRow read_row(const LimitWords& words, Problems& problems) {
  LimitRow row;
  row.id = id_of(words);
  row.maker = words.maker;
  row.series = words.series;
  row.document = words.document.empty() ? "data sheet in hand" : words.document;
  row.technology = words.technology;
  row.body = readings::body_of(words.body).value_or(readings::Body::unknown);
  if (const auto c =
          number("--capacitance", words.capacitance, Measure::marked_capacitance, problems)) {
    row.capacitance = quantities::Farad(*c);
  }
  row.rated = quantities::Volt(
      number("--volts", words.volts, Measure::rated_volts, problems).value_or(0.0));
  if (const auto z = number("--impedance", words.impedance, Measure::impedance, problems)) {
    row.impedance_max = quantities::Ohm(*z);
  }
  if (const auto r = number("--esr", words.esr, Measure::esr, problems)) {
    row.esr_max = quantities::Ohm(*r);
  }
  row.tan_delta_max = number("--tan-delta", words.tan_delta, Measure::dissipation, problems);
  read_direct_current(words, row, problems);
  row.frequency = quantities::Hertz(
      number("--frequency", words.frequency, Measure::frequency, problems).value_or(100e3));
  if (problems.empty() && !row.impedance_max && !row.esr_max && !row.tan_delta_max &&
      !row.leakage && !row.insulation && !row.dc_esr_max) {
    problems.push_back({"a row without a limit",
                        {},
                        "",
                        "--impedance, --esr, --tan-delta, --leakage, --insulation or --dc-esr"});
  }
  return row;
}

/// A row of a technology that nobody knows would never be found again.
void require_technology(const std::vector<std::string>& trees, const std::string& technology,
                        Problems& problems) {
  if (const auto base = knowledge::load(trees)) {
    knowledge::KnownIds("technology", base->technologies)
        .require(technology, {"--technology", 0, {}}, problems);
  }
}

Exit keep(const Invocation& invocation, const LimitWords& words) {
  namespace fs = std::filesystem;
  const Terminal& terminal = invocation.terminal;
  Problems problems;
  const LimitRow row = read_row(words, problems);
  require_technology(invocation.surroundings.knowledge, words.technology, problems);
  if (!problems.empty()) {
    return refuse(terminal, problems);
  }
  if (invocation.surroundings.own_knowledge.empty()) {
    return refuse(terminal, {no_data_folder()});
  }
  const fs::path folder = fs::path(invocation.surroundings.own_knowledge) / "rules/limits";
  std::vector<LimitRow> rows;
  std::error_code error;
  if (fs::is_directory(folder, error)) {
    const auto kept = readings::load_limits({invocation.surroundings.own_knowledge});
    if (!kept) {
      return refuse(terminal, kept.problems());
    }
    rows = kept->rows;
  }
  std::erase_if(rows, [&](const LimitRow& other) { return other.id == row.id; });
  rows.push_back(row);
  fs::create_directories(folder, error);
  const auto written = documents::write_whole((folder / "bench.json").string(),
                                              documents::to_text(readings::to_json(rows)));
  if (!written) {
    return refuse(terminal, written.problems());
  }
  if (terminal.json) {
    return answer(terminal, readings::to_json(row));
  }
  terminal.out << "Kept as " << row.id << " in " << folder.string() << '\n';
  return Exit::done;
}

}  // namespace

void add_keep_limit(Commands& commands) {
  static std::deque<LimitWords> kept;  // options outlive this function
  LimitWords& words = kept.emplace_back();
  CLI::App* command =
      commands.add("keep-limit", "Keeps the row of a data sheet in hand for next time",
                   [&words](const Invocation& invocation) { return keep(invocation, words); });
  command->add_option("--maker", words.maker, "Maker")->required();
  command->add_option("--series", words.series, "Series")->required();
  command->add_option("--document", words.document, "Title or number of the sheet, page");
  command->add_option("--technology", words.technology, "wet-aluminium, solid-tantalum, ...");
  command->add_option("--body", words.body, "smd, radial, axial, can")
      ->check(CLI::IsMember({"unknown", "smd", "radial", "axial", "can"}));
  command->add_option("--capacitance", words.capacitance, "47u")->required();
  command->add_option("--volts", words.volts, "25")->required();
  command->add_option("--impedance", words.impedance, "Greatest |Z|");
  command->add_option("--esr", words.esr, "Greatest ESR");
  command->add_option("--tan-delta", words.tan_delta, "Greatest tan delta at 120 Hz");
  command->add_option("--frequency", words.frequency, "Of |Z| and ESR");
  command->add_option("--leakage", words.leakage, "Greatest leakage at its rated volts: 3uA");
  command->add_option("--insulation", words.insulation, "Least insulation resistance: 10G");
  command->add_option("--insulation-volts", words.insulation_volts, "At which it is stated: 100");
  command->add_option("--dc-esr", words.dc_esr,
                      "Greatest d.c. resistance of a back-up part, by a step of current: 30");
}

}  // namespace dryout::app
