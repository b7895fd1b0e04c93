// dryout case symptom|outcome|measure|...: the spelling of every casework::Command. Adding an
// alternative to Command without a spelling here fails the test that walks them.
#include <CLI/CLI.hpp>
#include <charconv>
#include <optional>

#include "app/case_action.h"
#include "app/typed_place.h"
#include "casework/check_command.h"
#include "casework/words.h"
#include "quantities/measure.h"

namespace dryout::app {
namespace {

using casework::Command;
using quantities::Measure;
using quantities::Problem;
using quantities::Result;

Problem unknown_word(const std::string& what, const std::string& word,
                     const std::vector<std::string_view>& words) {
  std::string accepted;
  for (const std::string_view choice : words) {
    accepted += (accepted.empty() ? "" : ", ") + std::string(choice);
  }
  return {"unknown word for " + what, {}, '"' + quantities::excerpt(word) + '"', accepted};
}

/// Problems name the option they came from.
Problem at_option(const quantities::Problems& problems, const std::string& option) {
  Problem problem = problems.front();
  problem.place.file = option;
  return problem;
}

struct CheckPlace {
  std::string check;
  std::string place;
};

/// "ripple@main-rail" or "owner-interview".
CheckPlace split_check(const std::string& word) {
  const std::size_t at = word.find('@');
  return at == std::string::npos ? CheckPlace{word, ""}
                                 : CheckPlace{word.substr(0, at), word.substr(at + 1)};
}

Result<Command> make_outcome(const std::string& check, const std::string& bad,
                             const std::string& remark) {
  const CheckPlace where = split_check(check);
  const std::string word = bad == "bad" ? "yes" : bad == "good" ? "no" : bad;
  const auto seen = casework::choice_of<casework::Seen>(word);
  if (!seen || bad == "yes" || bad == "no") {
    return unknown_word("the outcome", bad, {"bad", "good", "unclear"});
  }
  return Command(casework::RecordOutcome{where.check, where.place, *seen, remark});
}

struct ReadingWords {
  std::string& item;
  std::string& value;
  std::string& kind;
  std::string& frequency;
  std::string& temperature;
  bool& lifted;
  std::string& across;
  std::string& limit;
  std::string& limit_source;
  std::string& lead_zero;
  std::string& meter;
  std::string& remark;
  std::string& test_volts;
  std::string& beside;
};

/// Reads an optional value: nothing where the option was not given.
Result<std::optional<double>> optional_value(const std::string& text, quantities::Measure measure,
                                             const char* option, bool is_limit = false) {
  if (text.empty()) {
    return std::optional<double>();
  }
  const auto value =
      is_limit ? quantities::parse_limit(text, measure) : quantities::parse_measure(text, measure);
  if (!value) {
    return at_option(value.problems(), option);
  }
  return std::optional<double>(*value);
}

/// A year of four figures; nothing where the option was not given.
Result<std::optional<int>> year_in(const std::string& text) {
  if (text.empty()) {
    return std::optional<int>();
  }
  int year = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, year);
  constexpr int year_max = 9999;
  if (error != std::errc() || stop != end || year < 0 || year > year_max) {
    return Problem{
        "not a year", {"--year", 0, {}}, '"' + quantities::excerpt(text) + '"', "a year like 1974"};
  }
  return std::optional<int>(year);
}

Result<Command> make_reading(const ReadingWords& words) {
  const auto kind = casework::choice_of<casework::ReadingKind>(words.kind);
  if (!kind) {
    return unknown_word("--kind", words.kind, casework::all_words<casework::ReadingKind>());
  }
  const auto across = casework::choice_of<casework::Across>(words.across);
  if (!across) {
    return unknown_word("--across", words.across, casework::all_words<casework::Across>());
  }
  const Measure measure = casework::measure_of(*kind);
  const bool over_range = casework::is_over_range(words.value);
  const auto value =
      over_range ? Result<double>(0.0) : quantities::parse_measure(words.value, measure);
  const auto test_volts = optional_value(words.test_volts, Measure::test_volts, "--test-volts");
  const auto frequency = quantities::parse_measure(words.frequency, Measure::frequency);
  const auto temperature = quantities::parse_measure(words.temperature, Measure::temperature);
  const auto limit = optional_value(words.limit, measure, "--limit", true);
  const auto lead_zero = optional_value(words.lead_zero, Measure::lead_resistance, "--lead-zero");
  if (!value) return at_option(value.problems(), "the value");
  if (!frequency) return at_option(frequency.problems(), "--frequency");
  if (!temperature) return at_option(temperature.problems(), "--temperature");
  if (!limit) return limit.problems();
  if (!lead_zero) return lead_zero.problems();
  if (!test_volts) return test_volts.problems();
  casework::RecordReading reading;
  reading.item = words.item;
  reading.kind = *kind;
  reading.value = *value;
  reading.frequency = quantities::Hertz(*frequency);
  reading.temperature = quantities::Celsius(*temperature);
  reading.in_circuit = !words.lifted;
  reading.across = *across;
  reading.limit = *limit;
  reading.limit_source = words.limit_source;
  reading.lead_zero = *lead_zero;
  reading.meter = words.meter;
  reading.remark = words.remark;
  reading.beside = words.beside;
  reading.over_range = over_range;
  if (*test_volts) {
    reading.test_volts = quantities::Volt(**test_volts);
  }
  return Command(std::move(reading));
}

void add_reading_action(Commands& commands, CLI::App* parent) {
  Action action(commands, parent, "measure", "Records a number read at a part or group");
  const ReadingWords words{
      action.word("item", "Part as printed (C12), or group id"),
      action.word("value", "The number: 2.4, 4R7, 10u; OL where the meter shows no end"),
      action.option("--kind",
                    "esr, impedance, capacitance, leakage-current, dc-resistance, "
                    "ripple, dc-volts, insulation, dissipation, hold-up",
                    "esr"),
      action.option("--frequency", "Of the meter", "100k"),
      action.option("--temperature", "Of the part, in degrees Celsius", "23"),
      action.flag("--lifted", "A leg was off the board (on it, unless said)"),
      action.option("--across",
                    "What else is across it: nothing, ceramic, electrolytic, winding, "
                    "regulator, low-resistor; unknown = as the set's description knows",
                    "unknown"),
      action.option("--limit", "The limit it is held against"),
      action.option(
          "--limit-source",
          "datasheet, look-alike, fresh-part, tan-delta, general-table (this, unless said)"),
      action.option("--lead-zero", "What the meter shows with its tips together"),
      action.option("--meter", "Id in the shop's list (dryout list meters)"),
      action.option("--remark", "Remark"),
      action.option("--test-volts", "At which leakage or insulation was read"),
      action.option("--beside",
                    "Figures shown beside it on paper, not judged by: \"general-table 2.75; "
                    "fresh-part 0.367\"")};
  action.makes([words] { return make_reading(words); });
}

void add_finding_actions(Commands& commands, CLI::App* parent) {
  {
    Action action(commands, parent, "symptom", "A symptom is there, is not, or cannot be told");
    std::string& id = action.word("symptom", "Symptom id (see list symptoms)");
    std::string& seen = action.word("seen", "yes, no, unclear");
    std::vector<std::string>& where = action.options(
        "--where", "channel=left, band=ID, path=receive, source=ID; may stand several times");
    std::string& follows = action.option("--follows", "volume: goes down with it; not: stays");
    std::string& rate = action.option("--rate", "Of a hum: mains, twice");
    std::string& when = action.option("--when", "cold, warm, load, minutes=M");
    action.makes([&]() -> Result<Command> {
      const auto choice = casework::choice_of<casework::Seen>(seen);
      if (!choice) {
        return unknown_word("the symptom", seen, casework::all_words<casework::Seen>());
      }
      auto place = typed_place(where);
      if (!place) return place.problems();
      *place = {place->channel, place->band, place->path, place->source, follows, rate, when};
      return Command(casework::ReportSymptom{id, *choice, std::move(*place)});
    });
  }
  {
    Action action(commands, parent, "outcome", "The outcome of a check");
    std::string& check = action.word("check", "check@place as printed by next");
    std::string& bad = action.word("looked", "bad, good, unclear");
    std::string& remark = action.option("--remark", "Remark");
    action.makes([&] { return make_outcome(check, bad, remark); });
  }
  add_reading_action(commands, parent);
}

void add_check_actions(Commands& commands, CLI::App* parent) {
  {
    Action action(commands, parent, "acknowledge",
                  "The cautions of a check were read and are heeded");
    std::string& check =
        action.word("check", "check@place; of a number to be read: C12, or C12@dc-volts");
    action.makes([&] {
      const CheckPlace where = split_check(check);
      return Command(casework::AcknowledgeCautions{where.check, where.place});
    });
  }
  {
    Action action(commands, parent, "decline", "A check is refused or out of reach");
    std::string& check = action.word("check", "check@place");
    std::string& reason = action.option("--reason", "Why");
    action.makes([&] {
      const CheckPlace where = split_check(check);
      return Command(casework::DeclineCheck{where.check, where.place, reason});
    });
  }
  {
    Action action(commands, parent, "reconsider", "A declined check may be proposed again");
    std::string& check = action.word("check", "check@place");
    action.makes([&] {
      const CheckPlace where = split_check(check);
      return Command(casework::ReconsiderCheck{where.check, where.place});
    });
  }
}

void add_set_actions(Commands& commands, CLI::App* parent) {
  {
    Action action(commands, parent, "open", "Lid, shield or board is now open");
    std::string& access = action.word("access", "Access id of the equipment");
    action.makes([&] { return Command(casework::OpenAccess{access}); });
  }
  {
    Action action(commands, parent, "close-access", "Lid, shield or board is closed again");
    std::string& access = action.word("access", "Access id of the equipment");
    action.makes([&] { return Command(casework::CloseAccess{access}); });
  }
  {
    Action action(commands, parent, "name-part", "Takes a part out of its group by its name");
    std::string& reference = action.word("reference", "As printed on the board: C12");
    std::string& group = action.word("group", "Group id");
    std::string& capacitance = action.option("--capacitance", "47u");
    std::string& rated = action.option("--volts", "25");
    std::string& technology = action.option("--technology", "As its group unless said");
    std::string& make = action.option("--make", "Maker and series where printed");
    std::string& body = action.option(
        "--body", "What must fit: \"10x16 pitch 5 radial 105C 0.6A\", as far as it shows");
    action.makes([&]() -> Result<Command> {
      const auto farads = optional_value(capacitance, Measure::marked_capacitance, "--capacitance");
      const auto volts = optional_value(rated, Measure::rated_volts, "--volts");
      if (!farads) return farads.problems();
      if (!volts) return volts.problems();
      casework::NamePart part{reference, group, {}, {}, technology, make, body};
      if (*farads) part.capacitance = quantities::Farad(**farads);
      if (*volts) part.rated = quantities::Volt(**volts);
      return Command(part);
    });
  }
}

void add_verdict_actions(Commands& commands, CLI::App* parent) {
  {
    Action action(commands, parent, "judge", "Overrules the figures on one suspect");
    std::string& item = action.word("suspect", "Id as printed by suspects");
    std::string& verdict = action.word("verdict", "at-fault, cleared, open");
    action.makes([&]() -> Result<Command> {
      const auto choice = casework::choice_of<casework::JudgeSuspect::Verdict>(verdict);
      if (!choice) {
        return unknown_word("the verdict", verdict,
                            casework::all_words<casework::JudgeSuspect::Verdict>());
      }
      return Command(casework::JudgeSuspect{item, *choice});
    });
  }
  {
    Action action(commands, parent, "repair", "What was mended or replaced");
    std::string& item = action.word("suspect", "Id as printed by suspects");
    std::string& done = action.word("action", "replaced, resoldered, cleaned, adjusted");
    std::string& fitted = action.option("--fitted", "Maker, series, value, volts of what went in");
    action.makes([&] { return Command(casework::RecordRepair{item, done, fitted}); });
  }
  {
    Action action(commands, parent, "retest", "The symptom after the repair");
    std::string& symptom = action.word("symptom", "Symptom id");
    bool& still = action.flag("--still-there", "It is still there");
    action.makes([&] { return Command(casework::RetestSymptom{symptom, still}); });
  }
}

void add_proof_action(Commands& commands, CLI::App* parent) {
  Action action(commands, parent, "proof", "A step of proving the repair");
  std::string& step = action.word("step", "Id as printed by decide: first-power, ripple@main-rail");
  std::string& outcome = action.word("outcome", "passed, failed, skipped");
  std::string& remark = action.option("--remark", "What was seen, or why it was skipped");
  action.makes([&]() -> Result<Command> {
    const auto choice = casework::choice_of<casework::Proved>(outcome);
    if (!choice) {
      return unknown_word("the proof", outcome, casework::all_words<casework::Proved>());
    }
    return Command(casework::RecordProof{step, *choice, remark});
  });
}

void add_paper_actions(Commands& commands, CLI::App* parent) {
  {
    Action action(commands, parent, "note", "Adds a note");
    std::string& text = action.word("text", "The note");
    action.makes([&] { return Command(casework::AddNote{text}); });
  }
  {
    Action action(commands, parent, "close", "Closes the case, with its cause or without one");
    std::string& cause = action.option("--cause", "Suspect id; leave out where none was found");
    std::string& summary = action.option("--summary", "In a sentence");
    action.makes([&] { return Command(casework::CloseCase{cause, summary}); });
  }
  {
    Action action(commands, parent, "reopen", "Opens a closed case again");
    std::string& reason = action.option("--reason", "Why");
    action.makes([&] { return Command(casework::ReopenCase{reason}); });
  }
  {
    Action action(commands, parent, "correct", "Corrects what was taken in at the counter");
    std::string& equipment = action.option("--equipment", "Nearest architecture");
    std::string& set_name = action.option("--set", "Maker and model");
    std::string& year = action.option("--year", "Year it was built");
    std::string& owner = action.option("--owner", "Owner");
    std::string& complaint = action.option("--complaint", "In the owner's words");
    action.makes([&]() -> Result<Command> {
      if (equipment.empty() && set_name.empty() && year.empty() && owner.empty() &&
          complaint.empty()) {
        return Problem{"nothing to correct",
                       {},
                       "",
                       "--equipment, --set, --year, --owner or "
                       "--complaint"};
      }
      casework::TakeIn intake{equipment, set_name, std::nullopt, owner, complaint};
      const auto built = year_in(year);
      if (!built) return built.problems();
      intake.year_built = *built;
      return Command(intake);
    });
  }
}

}  // namespace

void add_case_actions(Commands& commands, CLI::App* parent) {
  add_finding_actions(commands, parent);
  add_check_actions(commands, parent);
  add_set_actions(commands, parent);
  add_verdict_actions(commands, parent);
  add_proof_action(commands, parent);
  add_paper_actions(commands, parent);
}

}  // namespace dryout::app
