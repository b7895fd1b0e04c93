// dryout case import|backup|check|restore: cases from other benches, and keeping them safe.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "app/kept_files.h"
#include "app/tell_arrivals.h"
#include "casework/case_exchange.h"
#include "documents/read_text.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::ImportReport;
using documents::Value;

/// The file itself, or the .json files of a folder by name.
std::vector<std::string> files_behind(const std::string& path) {
  std::error_code error;
  if (!fs::is_directory(path, error)) {
    return {path};
  }
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(path, error)) {
    if (entry.path().extension() == ".json") {
      files.push_back(entry.path().string());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// A file of many case by case; one of a single case as a whole.
quantities::Result<ImportReport> take_in(casework::Workshop& workshop, const std::string& file) {
  if (casework::begins_as_many(file)) {
    return workshop.import_many(file);
  }
  const auto text = documents::read_text(file, "a readable case file", casework::case_bytes_max);
  return text ? workshop.import_cases(*text, file) : text.problems();
}

Exit import_cases(const Invocation& invocation, const std::string& path) {
  const Terminal& terminal = invocation.terminal;
  auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  ImportReport report;
  for (const std::string& file : files_behind(path)) {
    auto taken = take_in(**workshop, file);
    if (!taken) {
      return refuse(terminal, taken.problems());
    }
    for (casework::ArrivedCase& each : taken->cases) {
      --taken->counts.at(static_cast<std::size_t>(each.arrival));
      taken->unchained -= each.chained ? 0 : 1;
      report.add(std::move(each));
    }
    for (std::size_t i = 0; i < taken->counts.size(); ++i) {  // of those beyond the ones named
      report.counts.at(i) += taken->counts.at(i);
    }
    report.unchained += taken->unchained;
  }
  return tell_arrivals(terminal, report);
}

Exit say(const Terminal& terminal, const char* key, const std::string& value,
         const std::string& sentence) {
  if (terminal.json) {
    return answer(terminal, Value::object({{key, value}}));
  }
  terminal.out << sentence << '\n';
  return Exit::done;
}

Exit backup(const Invocation& invocation, const std::string& path) {
  if (const auto allowed = may_be_written(invocation.surroundings, path); !allowed) {
    return refuse(invocation.terminal, allowed.problems());
  }
  const auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(invocation.terminal, workshop.problems());
  }
  const auto copied = (*workshop)->backup(path);
  return copied ? say(invocation.terminal, "backup", path, "All cases are in " + path + ".")
                : refuse(invocation.terminal, copied.problems());
}

Exit check(const Invocation& invocation, bool rebuild) {
  const Terminal& terminal = invocation.terminal;
  auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  if (rebuild) {
    if (const auto rebuilt = (*workshop)->rebuild_facts(); !rebuilt) {
      return refuse(terminal, rebuilt.problems());
    }
  }
  const auto sound = (*workshop)->check_integrity();
  return sound ? say(terminal, "sound", invocation.surroundings.store, "The case store is sound.")
               : refuse(terminal, sound.problems(), Exit::answer_is_no);
}

Exit restore(const Invocation& invocation, const std::string& path) {
  const std::string& store = invocation.surroundings.store;
  if (store.empty()) {
    return refuse(invocation.terminal, {no_data_folder()});
  }
  const auto kept = casework::Workshop::restore(path, store);
  if (!kept) {
    return refuse(invocation.terminal, kept.problems());
  }
  return say(invocation.terminal, "kept", *kept,
             "The cases of " + path + " are back." +
                 (kept->empty() ? "" : " What was there before is in " + *kept + "."));
}

}  // namespace

void add_case_keeping(Commands& commands, CLI::App* parent) {
  add_export(commands, parent);
  add_rescue(commands, parent);
  const auto add_one = [&](const char* name, const char* help, const char* what,
                           Exit (*run)(const Invocation&, const std::string&)) {
    std::string& path = commands.text();
    commands
        .add(
            name, help,
            [&path, run](const Invocation& invocation) { return run(invocation, path); }, parent)
        ->add_option("file", path, what)
        ->required();
  };
  add_one("import", "Takes cases from another bench, without making doubles",
          "Case file, or a folder of them", import_cases);
  add_one("backup", "Copies the whole store into one new file", "A name not yet in use", backup);
  add_one("restore", "Puts a backup in the place of the store, and keeps what was there",
          "File made by backup", restore);
  bool& rebuild = commands.flag();
  commands
      .add(
          "check", "Reads every page of the store and tells whether it is sound",
          [&rebuild](const Invocation& invocation) { return check(invocation, rebuild); }, parent)
      ->add_flag("--rebuild", rebuild,
                 "Before that, works out anew what searches and statistics go by");
}

}  // namespace dryout::app
