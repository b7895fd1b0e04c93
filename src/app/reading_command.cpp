// dryout reading: one reading against one limit, and what it is worth.
#include <CLI/CLI.hpp>
#include <deque>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/usable_knowledge.h"
#include "circuit/netlist_json.h"
#include "quantities/measure.h"
#include "quantities/value_list.h"
#include "readings/assess_reading.h"

namespace dryout::app {
namespace {

using quantities::Measure;
using quantities::Problem;
using quantities::Problems;
using quantities::Unit;
using readings::ReadingInput;

constexpr const char* reading_caution =
    "Discharge and measure before a meter or a hand goes to a part; local electrical codes and "
    "licensed practice come first.";

struct AssessWords {
  std::string value, kind = "esr", capacitance, volts, body = "unknown",
                     technology = "wet-aluminium", frequency, temperature = "23", limit,
                     limit_source = "datasheet", limit_kind, across = "unknown", netlist, lead_zero,
                     cohort, meter, age = "30", test_volts;
  bool in_circuit = false;
};

/// Reads words into values and keeps every complaint, naming the option it came from.
class Options {
 public:
  [[nodiscard]] const Problems& problems() const { return problems_; }

  std::optional<double> number(const char* option, const std::string& text, Unit unit) {
    if (text.empty()) {
      return std::nullopt;
    }
    const auto value = quantities::parse_engineering(text, unit);
    if (value) {
      return *value;
    }
    Problem problem = value.problems().front();
    problem.place.file = option;
    problems_.push_back(problem);
    return std::nullopt;
  }

  /// The same, held against what such a quantity can be.
  std::optional<double> number(const char* option, const std::string& text,
                               const quantities::PhysicalRange& range) {
    const auto value = number(option, text, range.unit);
    if (value) {
      check(option, *value, range);
    }
    return value;
  }
  void check(const char* option, double value, const quantities::PhysicalRange& range) {
    if (auto problem = quantities::out_of_range(range, value, "this value")) {
      problem->place.file = option;
      problems_.push_back(*std::move(problem));
    }
  }

  template <class Choice, class Spellings>
  Choice word(const char* option, const std::string& text, std::optional<Choice> choice,
              const Spellings& words, Choice fallback) {
    if (choice) {
      return *choice;
    }
    std::string accepted;
    for (const std::string_view known : words) {
      accepted += (accepted.empty() ? "" : ", ") + std::string(known);
    }
    problems_.push_back(
        {"unknown word", {option, 0, {}}, '"' + quantities::excerpt(text) + '"', accepted});
    return fallback;
  }

  void append(const Problems& more) { problems_.insert(problems_.end(), more.begin(), more.end()); }

 private:
  Problems problems_;
};

std::vector<std::string_view> limit_source_words() {
  std::vector<std::string_view> words;
  for (const readings::Rung& rung : readings::ladder()) {
    words.push_back(rung.word);
  }
  return words;
}

std::vector<double> read_brothers(Options& options, const std::string& list,
                                  const quantities::PhysicalRange& range) {
  auto brothers = quantities::parse_list(list, range.unit);
  if (!brothers) {
    Problem problem = brothers.problems().front();
    problem.place.file = "--cohort";
    options.append({problem});
    return {};
  }
  for (const double value : *brothers) {
    options.check("--cohort", value, range);
  }
  return *brothers;
}

void read_limit(Options& options, const AssessWords& words, Measure measure, ReadingInput& input) {
  input.limit = options.number("--limit", words.limit, quantities::range_of_limit(measure));
  input.limit_source = options.word("--limit-source", words.limit_source,
                                    readings::limit_source_of(words.limit_source),
                                    limit_source_words(), readings::LimitSource::datasheet);
  if (!words.limit_kind.empty()) {
    input.limit_kind =
        options.word("--limit-kind", words.limit_kind, readings::kind_of(words.limit_kind),
                     readings::kind_words(), readings::Kind::esr);
  }
}

ReadingInput read_input(Options& options, const AssessWords& words) {
  ReadingInput input;
  input.kind = options.word("--kind", words.kind, readings::kind_of(words.kind),
                            readings::kind_words(), readings::Kind::esr);
  const Measure measure =
      quantities::measure_of(readings::word_of(input.kind)).value_or(Measure::esr);
  const quantities::PhysicalRange& range = range_of(measure);
  input.over_range = readings::is_over_range(words.value);
  if (!input.over_range) {
    input.value = options.number("--value", words.value, range).value_or(0.0);
  }
  if (const auto volts =
          options.number("--test-volts", words.test_volts, range_of(Measure::test_volts))) {
    input.test_volts = quantities::Volt(*volts);
  }
  input.technology = words.technology;
  input.body = options.word("--body", words.body, readings::body_of(words.body),
                            readings::body_words(), readings::Body::unknown);
  if (const auto c = options.number("--capacitance", words.capacitance,
                                    range_of(Measure::marked_capacitance))) {
    input.capacitance = quantities::Farad(*c);
  }
  if (const auto v = options.number("--volts", words.volts, range_of(Measure::rated_volts))) {
    input.rated = quantities::Volt(*v);
  }
  const auto frequency =
      options.number("--frequency", words.frequency, range_of(Measure::frequency));
  input.frequency = frequency ? quantities::Hertz(*frequency)
                              : readings::usual_frequency(input.kind, input.technology);
  input.temperature = quantities::Celsius(
      options.number("--temperature", words.temperature, range_of(Measure::temperature))
          .value_or(23.0));
  read_limit(options, words, measure, input);
  input.in_circuit = words.in_circuit || !words.netlist.empty();
  input.across = options.word("--across", words.across, readings::across_of(words.across),
                              readings::across_words(), readings::Across::unknown);
  if (const auto zero =
          options.number("--lead-zero", words.lead_zero, range_of(Measure::lead_resistance))) {
    input.lead_zero = quantities::Ohm(*zero);
  }
  input.brothers = read_brothers(options, words.cohort, range);
  return input;
}

void read_netlist(Options& options, const std::string& path, ReadingInput& input) {
  if (path.empty()) {
    return;
  }
  const auto document = documents::read_file(path);
  if (!document) {
    return options.append(document.problems());
  }
  const auto netlist = circuit::read_netlist(*document);
  if (!netlist) {
    return options.append(netlist.problems());
  }
  input.netlist = *netlist;
}

void print(std::ostream& out, const readings::Assessment& found) {
  out << readings::word_of(found.verdict) << ": " << found.sentence << '\n';
  out << "limit: "
      << (found.limit                   ? found.limit_told
          : found.limit_refusal.empty() ? "none was asked for"
                                        : "none (" + found.limit_refusal + ")")
      << '\n';
  for (std::size_t s = 0; s < found.states.size(); ++s) {
    out << std::right << std::setw(13) << percent(found.after[s]) << "  " << found.states[s]
        << " (before " << percent(found.before[s]) << ")\n";
  }
  for (const std::string& advice : found.advice) {
    out << "do: " << advice << '\n';
  }
  for (const readings::FiredCaveat& caveat : found.caveats) {
    out << "note (" << caveat.id << "): " << caveat.effect << '\n';
  }
}

/// The shop's meter by its id: how well it reads, what its test signal does, at which frequency.
void set_meter(Options& options, const AssessWords& words,
               const std::vector<readings::Meter>& meters, ReadingInput& input) {
  if (words.meter.empty()) {
    return;
  }
  const readings::Meter* meter = readings::find_meter(meters, words.meter);
  std::string known;
  for (const readings::Meter& each : meters) known += (known.empty() ? "" : ", ") + each.id;
  if (meter == nullptr) {
    return options.append({{"no such meter in the shop's list",
                            {"--meter", 0, {}},
                            '"' + quantities::excerpt(words.meter) + '"',
                            known}});
  }
  if (!meter->can_show(input.kind)) {
    return options.append({{"this meter does not show this kind of reading",
                            {"--meter", 0, {}},
                            words.meter + " and " + std::string(readings::word_of(input.kind)),
                            "a meter that does (dryout list meters)"}});
  }
  input.meter = *meter;
  if (words.frequency.empty()) input.frequency = meter->frequency;
  input.meter->frequency = input.frequency;
}

Exit assess(const Invocation& invocation, const AssessWords& words) {
  const Terminal& terminal = invocation.terminal;
  Options options;
  ReadingInput input = read_input(options, words);
  read_netlist(options, words.netlist, input);
  const auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) return refuse(terminal, usable.problems());
  tell_left_out(terminal.err, usable->left_out);
  set_meter(options, words, usable->loaded.readings.meters, input);
  const double age = options.number("--age", words.age, Unit::none).value_or(30.0);
  input.years = age;
  if (!options.problems().empty()) {
    return refuse(terminal, options.problems());
  }
  const knowledge::KnowledgeBase& base = usable->loaded.base;
  const knowledge::Technology* technology = find(base.technologies, input.technology);
  if (technology == nullptr) {
    return refuse(terminal, {{"unknown technology",
                              {"--technology", 0, {}},
                              '"' + quantities::excerpt(input.technology) + '"',
                              "an id of rules/technologies, as wet-aluminium"}});
  }
  const auto found = readings::assess_reading(
      input, readings::priors_of(*technology, base.ageing, age), usable->loaded.readings);
  if (!found) {
    return refuse(terminal, found.problems());
  }
  if (terminal.json) {
    documents::Value document = readings::to_json(*found, input.kind);
    document.set("caution", reading_caution);
    return answer(terminal, document);
  }
  print(terminal.out, *found);
  terminal.out << "CAUTION. " << reading_caution << '\n';
  return Exit::done;
}

}  // namespace

void add_reading(Commands& commands) {
  static std::deque<AssessWords> kept;  // options outlive this function
  AssessWords& words = kept.emplace_back();
  CLI::App* command =
      commands.add("reading", "One reading against one limit: what it proves",
                   [&words](const Invocation& invocation) { return assess(invocation, words); });
  command->add_option("--value", words.value, "The number read: 2.4, 4R7, 10u, OL")->required();
  command->add_option("--kind", words.kind,
                      "esr, impedance, capacitance, leakage-current, dc-resistance, ripple, "
                      "dc-volts, insulation, dissipation, hold-up");
  command->add_option("--capacitance", words.capacitance, "Marked value, 47u");
  command->add_option("--volts", words.volts, "Rated volts");
  command->add_option("--body", words.body, "smd, radial, axial, can");
  command->add_option("--technology", words.technology, "wet-aluminium, solid-tantalum, ...");
  command->add_option("--frequency", words.frequency, "Of the meter (100k unless it says so)");
  command->add_option("--meter", words.meter, "Id in the shop's list (dryout list meters)");
  command->add_option("--temperature", words.temperature, "Of the part, degrees Celsius");
  command->add_option("--limit", words.limit, "What it may be at most");
  command->add_option("--limit-source", words.limit_source,
                      "datasheet (this, unless said), look-alike, fresh-part, tan-delta, "
                      "general-table");
  command->add_option("--limit-kind", words.limit_kind, "Where it is not that of the reading");
  command->add_flag("--in-circuit", words.in_circuit,
                    "Both legs were on the board (a leg off it, unless said)");
  command->add_option("--across", words.across,
                      "nothing, ceramic, electrolytic, winding, regulator, low-resistor");
  command->add_option("--netlist", words.netlist, "What is across it, as of dryout circuit");
  command->add_option("--lead-zero", words.lead_zero, "Reading with the tips together");
  command->add_option("--cohort", words.cohort,
                      "Readings of its brothers: 2.2,2.5,0.6, or with decimal commas 2,2;2,5;0,6");
  command->add_option("--test-volts", words.test_volts, "At which leakage or insulation was read");
  command->add_option("--age", words.age, "Years");
}

}  // namespace dryout::app
