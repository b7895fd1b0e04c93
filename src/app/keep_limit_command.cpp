// dryout keep-limit: the row of the data sheet in hand, kept for next time in the technician's own
// folder.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "app/usable_knowledge.h"
#include "casework/library_entries.h"
#include "documents/read_text.h"
#include "documents/write_whole.h"
#include "knowledge/known_ids.h"
#include "quantities/measure.h"
#include "readings/impossible_limits.h"
#include "readings/limits_library.h"

namespace dryout::app {
namespace {

using quantities::Measure;
using quantities::Problems;
using readings::LimitRow;

constexpr std::size_t id_length_max = 64;
constexpr std::size_t bytes_most = 64U << 20U;  // as the reader of documents takes

struct LimitWords {
  std::string maker, series, document, technology = "wet-aluminium", body = "unknown", capacitance,
                                       volts, impedance, esr, tan_delta, leakage, insulation,
                                       insulation_volts, dc_esr, frequency = "100k";
  bool replace = false;
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
void require_technology(const knowledge::KnowledgeBase& base, const std::string& technology,
                        Problems& problems) {
  knowledge::KnownIds("technology", base.technologies)
      .require(technology, {"--technology", 0, {}}, problems);
}

std::string lower_case(std::string text) {
  for (char& c : text) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return text;
}

/// However it was typed: 47u and 0.000047 are one value.
bool same_part(const LimitRow& a, const LimitRow& b) {
  const auto alike = [](double x, double y) { return std::abs(x - y) <= 1e-9 * std::abs(y); };
  return lower_case(a.maker) == lower_case(b.maker) &&
         lower_case(a.series) == lower_case(b.series) &&
         a.capacitance.has_value() == b.capacitance.has_value() &&
         (!a.capacitance || alike(a.capacitance->si(), b.capacitance->si())) &&
         alike(a.rated.si(), b.rated.si());
}

/// "own-m-s-47u-25: ESR at most: 1.1 Ω at 100 kHz, 20 °C; Leakage at most: 12 µA at 25 V".
std::string what_is_kept(const LimitRow& row) {
  std::string text = row.id + ':';
  const char* between = " ";
  for (const auto& [name, fact] : casework::shelved(row).entry.facts) {
    text.append(between).append(name).append(1, ' ').append(fact);
    between = "; ";
  }
  return text;
}

/// Turns the place of a member of the row into the option it came from.
void name_option(quantities::Problem& problem) {
  constexpr std::array<std::pair<std::string_view, const char*>, 13> options{
      {{"maker", "--maker"},
       {"series", "--series"},
       {"document", "--document"},
       {"technology", "--technology"},
       {"capacitance_F", "--capacitance"},
       {"rated_V", "--volts"},
       {"impedance_ohm", "--impedance"},
       {"esr_ohm", "--esr"},
       {"tan_delta", "--tan-delta"},
       {"frequency_Hz", "--frequency"},
       {"leakage", "--leakage"},
       {"insulation", "--insulation"},
       {"dc_esr_ohm", "--dc-esr"}}};
  for (const auto& [member, option] : options) {
    if (problem.place.pointer.ends_with(std::string("/").append(member))) {
      problem.place = {option, 0, {}};
      return;
    }
  }
}

/// What the reader of such files says of this row, and what the rows of the library do.
Problems faults_of(const LimitRow& row, const readings::LimitsLibrary& known) {
  Problems problems;
  const auto read = readings::parse_limits(
      documents::to_text(readings::to_json(std::vector<LimitRow>{row})), "keep-limit");
  if (!read) {
    problems = read.problems();
  } else {
    readings::LimitsLibrary with{known};
    std::erase_if(with.rows, [&](const LimitRow& other) { return same_part(other, row); });
    with.rows.push_back(read->rows.front());
    for (quantities::Problem& problem : readings::impossible_limits(with)) {
      if (problem.place.file == "keep-limit") {
        problems.push_back(std::move(problem));
      }
    }
  }
  for (quantities::Problem& problem : problems) {
    name_option(problem);
  }
  return problems;
}

/// The rows that `file` holds; none where it is not there.
quantities::Result<std::vector<LimitRow>> rows_in(const std::string& file) {
  std::error_code error;
  if (!std::filesystem::exists(file, error)) {
    return std::vector<LimitRow>{};
  }
  const auto text = documents::read_text(file, "a readable file of limits", bytes_most);
  if (!text) {
    return text.problems();
  }
  auto read = readings::parse_limits(*text, file);
  return read ? quantities::Result<std::vector<LimitRow>>(std::move(read->rows)) : read.problems();
}

/// Puts the row among those of its file; refused where the part has one and `replace` is not set,
/// or where another own file has it.
Problems place_among(std::vector<LimitRow>& rows, LimitRow& row,
                     const readings::LimitsLibrary& known, const std::string& own,
                     const std::string& file, bool replace) {
  for (const LimitRow& other : known.rows) {
    const bool own_file = other.place.file.starts_with(own) && other.place.file != file;
    if (own_file && same_part(other, row)) {
      return {{"this part has a row in another file of yours", other.place, what_is_kept(other),
               "change it there"}};
    }
  }
  const auto same = std::find_if(rows.begin(), rows.end(),
                                 [&](const LimitRow& other) { return same_part(other, row); });
  if (same != rows.end()) {
    if (!replace) {
      return {{"this part has a row of yours already", same->place, what_is_kept(*same),
               "--replace to put this one in its place, with all that is to stay typed again"}};
    }
    row.id = same->id;
    *same = row;
    return {};
  }
  const std::string plain_id = row.id;
  const auto taken = [&](const LimitRow& other) { return other.id == row.id; };
  for (int number = 2; std::any_of(rows.begin(), rows.end(), taken); ++number) {
    row.id = plain_id.substr(0, id_length_max - 4) + '-' + std::to_string(number);
  }
  rows.push_back(row);
  return {};
}

Exit keep(const Invocation& invocation, const LimitWords& words) {
  namespace fs = std::filesystem;
  const Terminal& terminal = invocation.terminal;
  Problems problems;
  LimitRow row = read_row(words, problems);
  const auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) {
    return refuse(terminal, usable.problems());
  }
  const readings::LimitsLibrary& known = usable->loaded.readings.limits;
  require_technology(usable->loaded.base, words.technology, problems);
  if (problems.empty()) {
    problems = faults_of(row, known);
  }
  if (!problems.empty()) {
    return refuse(terminal, problems);
  }
  const std::string& own = invocation.surroundings.own_knowledge;
  if (own.empty()) {
    return refuse(terminal, {no_data_folder()});
  }
  const fs::path folder = fs::path(own) / "rules/limits";
  const std::string file = (folder / "bench.json").string();
  auto rows = rows_in(file);
  if (!rows) {
    return refuse(terminal, rows.problems());
  }
  problems = place_among(*rows, row, known, own, file, words.replace);
  if (!problems.empty()) {
    return refuse(terminal, problems);
  }
  std::error_code error;
  fs::create_directories(folder, error);
  const auto written = documents::write_whole(file, documents::to_text(readings::to_json(*rows)));
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
  command->add_flag("--replace", words.replace, "In place of the row this part has");
  command->add_option("--dc-esr", words.dc_esr,
                      "Greatest d.c. resistance of a back-up part, by a step of current: 30");
}

}  // namespace dryout::app
