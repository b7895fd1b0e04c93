#include "app/surroundings.h"

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <sstream>
#include <system_error>

#include "app/knowledge_watch.h"
#include "app/own_files.h"
#include "app/shop_setting.h"
#include "app/shown_stream.h"
#include "app/usable_knowledge.h"
#include "documents/scratch_file.h"
#include "knowledge/load.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::LoadedKnowledge;
using quantities::Problem;
using quantities::Result;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

/// "" where neither variable names a folder; a relative path names none, by the specification.
fs::path data_folder() {
  const fs::path xdg = environment("XDG_DATA_HOME");
  const fs::path home = environment("HOME");
  if (xdg.is_absolute()) {
    return xdg / "dryout";
  }
  return home.is_absolute() ? home / ".local/share/dryout" : fs::path();
}

/// In the data folder; "" where nobody says where that is.
std::string in_data_folder(const char* name) {
  const fs::path folder = data_folder();
  return folder.empty() ? "" : (folder / name).string();
}

bool is_knowledge(const fs::path& folder) {
  std::error_code error;
  return fs::is_directory(folder / "rules/equipment", error);
}

fs::path shipped_knowledge() {
  if (const std::string told = environment("DRYOUT_KNOWLEDGE"); !told.empty()) {
    return told;
  }
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  fs::path installed = program.parent_path().parent_path() / "share/dryout";
  if (const fs::path sources = DRYOUT_SOURCES_ELSEWHERE; !sources.empty()) {
    return is_knowledge(installed) ? installed : sources;
  }
  for (fs::path up = program.parent_path(); up.has_relative_path(); up = up.parent_path()) {
    if (is_knowledge(up)) {  // built inside the sources
      return up;
    }
  }
  return installed;
}

std::int64_t seconds_now() {
  return std::chrono::duration_cast<std::chrono::seconds>(
             std::chrono::system_clock::now().time_since_epoch())
      .count();
}

int year_now() {
  const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  return static_cast<int>(std::chrono::year_month_day(today).year());
}

Result<std::unique_ptr<casework::Workshop>> open_workshop_on(const Surroundings& surroundings,
                                                             const std::string& store) {
  KnowledgeWatch watch(surroundings.knowledge, surroundings.own_knowledge);
  auto usable = load_usable_knowledge(surroundings);
  if (!usable) {
    return usable.problems();
  }
  LoadedKnowledge& loaded = usable->loaded;
  auto workshop = casework::Workshop::open(store, std::move(loaded.base), seconds_now,
                                           std::move(loaded.readings), std::move(loaded.mending));
  if (workshop) {
    ShownStream err(std::cerr);
    tell_left_out(err, usable->left_out);
    for (const std::string& each : usable->left_out) {
      (*workshop)->leave_word("Left out of your own rules: " + each);
    }
    if ((*workshop)->reads_only()) {
      err << "The case store can only be read: " << store << '\n';
      (*workshop)->leave_word("The case store can only be read: nothing can be entered.");
    }
    (*workshop)->know_words(std::move(loaded.vocabulary));
    (*workshop)->give_files(own_files(surroundings));
    (*workshop)->watch_knowledge([watch = std::move(watch)]() mutable { return watch.look(); });
  }
  return workshop;
}

/// The figures do without the shop's own cases rather than not at all.
void leave_out_history(casework::Workshop& workshop, const quantities::Problems& problems) {
  const std::string why = quantities::describe(problems.front());
  ShownStream(std::cerr) << "left out: the shop's own history: " << why << '\n';
  workshop.leave_word("The shop's own history is left out of the figures: " + why);
}

/// What a program that was killed had begun and not finished.
void sweep_leftovers(const Surroundings& surroundings) {
  std::vector<fs::path> folders{fs::path(surroundings.store).parent_path(), surroundings.papers,
                                surroundings.pictures};
  if (const fs::path own = surroundings.own_knowledge; !own.empty()) {
    folders.insert(folders.end(),
                   {own.parent_path(), own / "rules/equipment", own / "rules/limits"});
  }
  for (const fs::path& folder : folders) {
    if (!folder.empty() || &folder == &folders.front()) {
      (void)documents::sweep_scratch_files(folder.string());
    }
  }
}

std::optional<std::string> read_whole(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return stream ? std::optional(text.str()) : std::nullopt;
}

bool is_number(const std::string& name, std::int64_t& number) {
  const char* end = name.data() + name.size();
  const auto [stop, error] = std::from_chars(name.data(), end, number);
  return error == std::errc() && stop == end;
}

}  // namespace

Surroundings find_surroundings() {
  Surroundings found;
  const fs::path shipped = shipped_knowledge();
  found.knowledge.push_back(shipped.string());
  found.demo_case = (shipped / "assets/demo_case.json").string();
  found.own_knowledge = in_data_folder("own");
  if (knowledge::holds_knowledge(found.own_knowledge)) {
    found.knowledge.push_back(found.own_knowledge);
  }
  found.store = in_data_folder("cases.db");
  const std::string pictures = environment("XDG_PICTURES_DIR");
  found.pictures =
      pictures.empty() ? in_data_folder("pictures") : (fs::path(pictures) / "dryout").string();
  const std::string documents = environment("XDG_DOCUMENTS_DIR");
  found.papers =
      documents.empty() ? in_data_folder("papers") : (fs::path(documents) / "dryout").string();
  found.year_now = year_now();
  return found;
}

Problem no_data_folder() {
  return {"it is not known where this user's files are kept",
          {},
          "neither XDG_DATA_HOME nor HOME names a folder",
          "one of the two set to an absolute path, or --store FILE for the cases"};
}

Result<std::unique_ptr<casework::Workshop>> open_workshop(const Surroundings& surroundings) {
  if (surroundings.store.empty()) {
    return no_data_folder();
  }
  const fs::path folder = fs::path(surroundings.store).parent_path();
  std::error_code error;
  if (!folder.empty() && !fs::exists(folder, error)) {
    fs::create_directories(folder, error);
    if (error) {
      return Problem{"the folder for the case store cannot be made: " + error.message(),
                     {folder.string(), 0, {}},
                     "",
                     "a folder this user may write, or --store FILE"};
    }
    fs::permissions(folder, fs::perms::owner_all, error);
  }
  sweep_leftovers(surroundings);
  auto workshop = open_workshop_on(surroundings, surroundings.store);
  const auto history = shop_history_wanted(surroundings);
  if (workshop && !history) {
    leave_out_history(**workshop, history.problems());
  }
  if (workshop && history && *history) {
    if (const auto used = (*workshop)->use_shop_history(true); !used) {
      leave_out_history(**workshop, used.problems());
    }
  }
  return workshop;
}

Result<quantities::Done> lay_out_demo(const Surroundings& surroundings,
                                      casework::Workshop& workshop) {
  const auto cases = workshop.cases(1);
  if (!cases) {
    return cases.problems();
  }
  const auto text = cases->empty() ? read_whole(surroundings.demo_case) : std::nullopt;
  if (text) {
    const auto imported = workshop.import_case(*text, surroundings.demo_case);
    if (!imported) {
      return imported.problems();
    }
  }
  return quantities::Done{};
}

std::string OpenCase::damage() const {
  const auto told = workshop->damage(number);
  return told ? *told : std::string();
}

Result<OpenCase> open_case(const Surroundings& surroundings, const std::string& name) {
  std::int64_t number = 0;
  if (is_number(name, number)) {
    auto workshop = open_workshop(surroundings);
    if (!workshop) {
      return workshop.problems();
    }
    return OpenCase{std::move(*workshop), number, true};
  }
  std::error_code error;
  if (!fs::is_regular_file(name, error)) {
    return Problem{"no such case",
                   {},
                   '"' + quantities::excerpt(name) + '"',
                   "a number from `dryout case list`, or the path of a case file"};
  }
  const auto text = read_whole(name);
  if (!text) {
    return Problem{"cannot be read", {name, 0, {}}, "", "a readable case file"};
  }
  auto workshop = open_workshop_on(surroundings, ":memory:");
  if (!workshop) {
    return workshop.problems();
  }
  auto imported = (*workshop)->import_case(*text, name);
  if (!imported) {
    return imported.problems();
  }
  return OpenCase{std::move(*workshop), *imported, false};
}

Result<OpenCase> open_store_or_case(const Surroundings& surroundings, const std::string& name) {
  if (!name.empty()) {
    return open_case(surroundings, name);
  }
  auto workshop = open_workshop(surroundings);
  if (!workshop) {
    return workshop.problems();
  }
  return OpenCase{std::move(*workshop), 0, true};
}

}  // namespace dryout::app
