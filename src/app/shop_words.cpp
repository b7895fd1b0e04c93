#include "app/shop_words.h"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "app/json_list.h"
#include "app/usable_knowledge.h"
#include "complaints/complaint_reader.h"
#include "documents/write_whole.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using complaints::Remembered;
using documents::Value;
using quantities::Result;

/// In the technician's own folder: deleting it, or an entry of it, takes it back.
constexpr const char* file_name = "rules/complaints/remembered.json";

Value entry_json(const Remembered& each) {
  return Value::object({{"id", each.id},
                        {"title", each.title},
                        {"because", each.because},
                        {"source", "judgement"},
                        {"symptom", each.symptom},
                        {"said", each.said}});
}

/// What is understood already teaches nothing.
bool understood(const complaints::ComplaintReader& reader, const std::string& said,
                const std::string& symptom) {
  const complaints::Heard heard = reader.read(said);
  return !heard.symptoms.empty() && heard.symptoms.front().id == symptom;
}

Result<std::vector<Remembered>> learned_from(const casework::Workshop& workshop,
                                             const complaints::ComplaintReader& reader) {
  const auto cases = workshop.cases();
  if (!cases) return cases.problems();
  std::vector<Remembered> learned;
  for (const casework::CaseSummary& summary : *cases) {
    if (summary.state != "closed" || summary.complaint.empty()) continue;
    const auto view = workshop.view(summary.number);
    if (!view) return view.problems();
    for (const casework::SymptomView& symptom : view->symptoms) {
      if (symptom.seen != "yes" || understood(reader, summary.complaint, symptom.id)) continue;
      Remembered& each = learned.emplace_back();
      const std::string number = std::to_string(summary.number);
      each.id = "case-" + number + '-' + symptom.id;
      each.title = "Said in case " + number;
      each.because = "The owner of case " + number +
                     " said this, and the symptom was then found by hand at this bench.";
      each.symptom = symptom.id;
      each.said = summary.complaint;
    }
  }
  return learned;
}

void print(std::ostream& out, const char* heading, const std::vector<Remembered>& list) {
  out << heading << (list.empty() ? "none" : "") << '\n';
  for (const Remembered& each : list) {
    out << "  " << each.symptom << ": \"" << each.said << "\" (" << each.title << ")\n";
  }
}

Exit keep(const Terminal& terminal, const std::string& path,
          const std::vector<Remembered>& learned) {
  std::error_code error;
  fs::create_directories(fs::path(path).parent_path(), error);
  const Value file = Value::object({{"schema", 1}, {"remembered", list_json(learned, entry_json)}});
  if (const auto done = documents::write_whole(path, documents::to_text(file)); !done) {
    return refuse(terminal, done.problems());
  }
  terminal.err << "Kept: " << path << "; `dryout shop words forget` takes it back.\n";
  return Exit::done;
}

Exit forget(const Terminal& terminal, const std::string& path) {
  std::error_code error;
  const bool there = fs::remove(path, error);
  if (error) {
    return refuse(terminal, {{"this file cannot be removed", {path, 0, {}}, error.message(), ""}});
  }
  terminal.err << (there ? "Forgotten: " : "There was nothing to forget: ") << path << '\n';
  return Exit::done;
}

Exit words(const Invocation& invocation, const std::string& wish) {
  const Terminal& terminal = invocation.terminal;
  const std::string& own = invocation.surroundings.own_knowledge;
  if (own.empty()) return refuse(terminal, {no_data_folder()});
  const std::string path = fs::path(own) / file_name;
  if (wish == "forget") return forget(terminal, path);
  auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) return refuse(terminal, usable.problems());
  const auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) return refuse(terminal, workshop.problems());
  complaints::Vocabulary& vocabulary = usable->loaded.vocabulary;
  const std::vector<Remembered> now = std::exchange(vocabulary.remembered, {});
  const auto learned =
      learned_from(**workshop, complaints::ComplaintReader(usable->loaded.base, vocabulary));
  if (!learned) return refuse(terminal, learned.problems());
  if (terminal.json) {
    (void)answer(terminal, Value::object({{"remembered", list_json(now, entry_json)},
                                          {"cases_teach", list_json(*learned, entry_json)},
                                          {"file", path}}));
  } else {
    print(terminal.out, "Remembered now: ", now);
    print(terminal.out, "Closed cases teach: ", *learned);
  }
  return wish == "keep" ? keep(terminal, path, *learned) : Exit::done;
}

}  // namespace

void add_shop_words(Commands& commands, CLI::App* shop_command) {
  std::string& wish = commands.text();
  commands
      .add(
          "words", "Owners' words of closed cases for the complaint reader: shown, kept, forgotten",
          [&wish](const Invocation& invocation) { return words(invocation, wish); }, shop_command)
      ->add_option("wanted", wish, "keep, forget; without it, what there is and would be")
      ->check(CLI::IsMember({"keep", "forget"}));
}

}  // namespace dryout::app
