#include "knowledge/read_tree.h"

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>

#include "documents/parse.h"
#include "knowledge/load.h"
#include "knowledge/read_entries.h"

namespace dryout::knowledge {
namespace {

namespace fs = std::filesystem;
using documents::Reader;
using quantities::Problems;

constexpr documents::Range schema_version{.min = 1, .max = 1};

/// The JSON files of a folder in the order of their names; schemas are not knowledge. A folder that
/// is not there holds none.
std::vector<std::string> files_in(const fs::path& folder, Problems& problems) {
  std::vector<std::string> files;
  std::error_code error;
  if (!fs::exists(folder, error)) {
    return files;
  }
  fs::directory_iterator entry(folder, error);
  for (; !error && entry != fs::directory_iterator(); entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    if (entry->path().extension() == ".json" && name.find(".schema.") == std::string::npos) {
      files.push_back(entry->path().string());
    }
  }
  if (error) {
    problems.push_back({"this folder cannot be listed",
                        {folder.string(), 0, {}},
                        error.message(),
                        "a folder that can be read"});
  }
  std::sort(files.begin(), files.end());
  return files;
}

void append(Problems& problems, const Problems& more) {
  problems.insert(problems.end(), more.begin(), more.end());
}

/// Reads {"schema": 1, "<list>": [...]} and appends what `read` makes of each element.
template <class Item>
void read_list(const std::string& file, std::string_view list, std::vector<Item>& items,
               Item (*read)(const Reader&), Problems& problems) {
  const auto document = documents::read_file(file);
  if (!document) {
    append(problems, document.problems());
    return;
  }
  const Reader root(*document, problems);
  root.accept_only({"schema", list});
  (void)root.whole_number("schema", schema_version);
  root.for_each(list, [&](const Reader& element) { items.push_back(read(element)); });
}

template <class Item>
void read_folder(const fs::path& folder, std::string_view list, std::vector<Item>& items,
                 Item (*read)(const Reader&), Problems& problems) {
  for (const std::string& file : files_in(folder, problems)) {
    read_list(file, list, items, read, problems);
  }
}

void read_ageing_file(const fs::path& path, Ageing& ageing, Problems& problems) {
  std::error_code error;
  if (!fs::exists(path, error)) {
    return;
  }
  const auto document = documents::read_file(path.string());
  if (!document) {
    append(problems, document.problems());
    return;
  }
  const Reader root(*document, problems);
  root.accept_only({"schema", "ageing"});
  (void)root.whole_number("schema", schema_version);
  ageing = read_ageing(root.object("ageing"));
}

template <class Entries>
void refuse_repeated(const Entries& entries, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& entry : entries) {
    if (!entry.id.empty() && !seen.insert(entry.id).second) {
      problems.push_back({"the same id stands twice in one tree", entry.place, entry.id,
                          "each id once (a tree laid over this one may use it again)"});
    }
  }
}

void refuse_repeated_ids(const KnowledgeBase& base, Problems& problems) {
  refuse_repeated(base.eras, problems);
  refuse_repeated(base.modes, problems);
  refuse_repeated(base.technologies, problems);
  refuse_repeated(base.roles, problems);
  refuse_repeated(base.causes, problems);
  refuse_repeated(base.phenomena, problems);
  refuse_repeated(base.links, problems);
  refuse_repeated(base.symptoms, problems);
  refuse_repeated(base.cautions, problems);
  refuse_repeated(base.checks, problems);
  refuse_repeated(base.equipment, problems);
}

template <class Entries>
void lay(Entries& base, Entries&& over) {
  for (auto& entry : over) {
    if (auto* same = find(base, entry.id)) {
      *same = std::move(entry);
    } else {
      base.push_back(std::move(entry));
    }
  }
}

}  // namespace

KnowledgeBase read_tree(const std::string& directory, Problems& problems) {
  const fs::path rules = fs::path(directory) / "rules";
  const fs::path symptoms = fs::path(directory) / "symptoms";
  KnowledgeBase base;
  std::error_code error;
  if (!holds_knowledge(directory)) {
    problems.push_back(
        {"no knowledge here", {directory, 0, {}}, "", "a folder that holds rules/ or symptoms/"});
    return base;
  }
  read_ageing_file(rules / "ageing.json", base.ageing, problems);
  if (fs::exists(rules / "eras.json", error)) {
    read_list((rules / "eras.json").string(), "eras", base.eras, read_era, problems);
  }
  read_folder(rules / "modes", "modes", base.modes, read_mode, problems);
  read_folder(rules / "technologies", "technologies", base.technologies, read_technology, problems);
  read_folder(rules / "roles", "roles", base.roles, read_role, problems);
  read_folder(rules / "causes", "causes", base.causes, read_cause, problems);
  read_folder(rules / "phenomena", "phenomena", base.phenomena, read_phenomenon, problems);
  read_folder(rules / "links", "links", base.links, read_link, problems);
  read_folder(rules / "checks", "checks", base.checks, read_check, problems);
  read_folder(rules / "cautions", "cautions", base.cautions, read_caution, problems);
  read_folder(rules / "equipment", "equipment", base.equipment, read_equipment, problems);
  read_folder(symptoms, "symptoms", base.symptoms, read_symptom, problems);
  refuse_repeated_ids(base, problems);
  return base;
}

void lay_over(KnowledgeBase& base, KnowledgeBase over) {
  if (!over.ageing.levels.empty()) {
    base.ageing = std::move(over.ageing);
  }
  lay(base.eras, std::move(over.eras));
  lay(base.modes, std::move(over.modes));
  lay(base.technologies, std::move(over.technologies));
  lay(base.roles, std::move(over.roles));
  lay(base.causes, std::move(over.causes));
  lay(base.phenomena, std::move(over.phenomena));
  lay(base.links, std::move(over.links));
  lay(base.symptoms, std::move(over.symptoms));
  lay(base.cautions, std::move(over.cautions));
  lay(base.checks, std::move(over.checks));
  lay(base.equipment, std::move(over.equipment));
}

}  // namespace dryout::knowledge
