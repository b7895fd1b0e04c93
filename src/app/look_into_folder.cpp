#include "app/look_into_folder.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::FolderEntry;
using casework::FolderView;
using quantities::Problem;
using quantities::Result;

constexpr std::size_t entries_most = 12;

std::string home() {
  const char* named = std::getenv("HOME");
  return (named == nullptr || *named == '\0' ? std::string("/") : std::string(named) + '/');
}

/// "" and "~" begin at home; a name without a folder in the folder the program was started in.
std::string spelt_out(const std::string& begun) {
  if (begun.empty() || begun == "~" || begun == "~/") {
    return home();
  }
  if (begun.starts_with("~/")) {
    return home() + begun.substr(2);
  }
  std::error_code error;
  return begun.front() == '/' ? begun : (fs::current_path(error) / begun).string();
}

std::string lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return text;
}

bool wanted(const fs::path& path, const std::vector<std::string>& endings) {
  return std::find(endings.begin(), endings.end(), lower_case(path.extension().string())) !=
         endings.end();
}

}  // namespace

Result<FolderView> look_into_folder(const std::string& begun,
                                    const std::vector<std::string>& endings) {
  const std::string whole = spelt_out(begun);
  const std::size_t stroke = whole.rfind('/');
  FolderView view{begun, whole.substr(0, stroke + 1), {}, 0};
  const std::string name_begun = whole.substr(stroke + 1);
  std::error_code error;
  fs::directory_iterator entries(view.folder, error);
  if (error) {
    return Problem{"this folder can't be looked into: " + error.message(),
                   {view.folder, 0, {}},
                   "",
                   "a folder this user may read"};
  }
  for (; entries != fs::directory_iterator(); entries.increment(error)) {
    const std::string name = entries->path().filename().string();
    if (!name.starts_with(name_begun) || (name.front() == '.' && name_begun.empty())) {
      continue;
    }
    std::error_code unknown;
    const bool is_folder = entries->is_directory(unknown);
    if (is_folder) {
      view.entries.push_back({name + '/', view.folder + name + '/', true});
    } else if (wanted(entries->path(), endings) && entries->is_regular_file(unknown)) {
      view.entries.push_back({name, view.folder + name, false});
    }
  }
  // An iterator that fails on its way has come to its end: what was read is still true.
  std::sort(view.entries.begin(), view.entries.end(),
            [](const FolderEntry& one, const FolderEntry& other) {
              return one.is_folder != other.is_folder ? one.is_folder : one.name < other.name;
            });
  if (view.entries.size() > entries_most) {
    view.left_out = static_cast<int>(view.entries.size() - entries_most);
    view.entries.resize(entries_most);
  }
  return view;
}

}  // namespace dryout::app
