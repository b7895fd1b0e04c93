#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string_view>
#include <system_error>

#include "knowledge/read_tree.h"

namespace dryout::knowledge {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view folders[] = {
    "modes",    "technologies", "roles",         "causes",    "phenomena", "links",
    "checks",   "cautions",     "equipment",     "limits",    "caveats",   "substitution",
    "decision", "meters",       "common_values", "complaints"};

bool is_schema(const fs::path& file) {
  return file.filename().string().find(".schema.") != std::string::npos;
}

/// `file` is seen from the tree's top: symptoms/x.json, rules/eras.json, rules/links/x.json.
bool is_read(const fs::path& file) {
  const std::vector<fs::path> parts(file.begin(), file.end());
  if (is_schema(file) || (parts.size() == 2 && parts[0] == "symptoms")) {
    return true;
  }
  if (parts.size() == 2) {
    return parts[1] == "ageing.json" || parts[1] == "eras.json";
  }
  return parts.size() == 3 && parts[0] == "rules" &&
         std::find(std::begin(folders), std::end(folders), parts[1].string()) != std::end(folders);
}

}  // namespace

quantities::Problems unread_files(const std::string& directory) {
  std::vector<fs::path> unread;
  for (const char* top : {"rules", "symptoms"}) {
    std::error_code error;
    fs::recursive_directory_iterator entry(fs::path(directory) / top, error);
    for (; !error && entry != fs::recursive_directory_iterator(); entry.increment(error)) {
      const fs::path file = entry->path().lexically_relative(directory);
      if (entry->path().extension() == ".json" && !is_read(file)) unread.push_back(entry->path());
    }
  }
  std::sort(unread.begin(), unread.end());
  quantities::Problems warnings;
  for (const fs::path& file : unread) {
    quantities::Problem& warning = warnings.emplace_back();
    warning.message = "nobody reads this file";
    warning.place.file = file.string();
    warning.accepted =
        "rules/ageing.json, rules/eras.json, a file in one of the folders of rules/ "
        "or in symptoms/";
  }
  return warnings;
}

}  // namespace dryout::knowledge
