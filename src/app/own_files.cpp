#include "app/own_files.h"

#include <filesystem>

#include "app/look_into_folder.h"
#include "app/shop_setting.h"
#include "documents/read_text.h"
#include "documents/table.h"
#include "documents/write_whole.h"

namespace dryout::app {

using quantities::Problem;
using quantities::Result;

namespace {

/// Makes the folders that are missing, for this user alone.
std::error_code make_private_folders(const std::filesystem::path& folder) {
  std::error_code error;
  if (folder.empty() || std::filesystem::exists(folder, error)) {
    return error;
  }
  if (const std::error_code failed = make_private_folders(folder.parent_path())) {
    return failed;
  }
  std::filesystem::create_directory(folder, error);
  if (!error) {
    std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
  }
  return error;
}

Problem there_already(const std::string& path) {
  return {
      "this file is there already", {path, 0, {}}, "", "another id, or --replace to overwrite it"};
}

Result<std::string> keep_own(const std::string& own_folder, const std::string& name,
                             const std::string& text, bool replace) {
  namespace fs = std::filesystem;
  if (own_folder.empty()) {
    return no_data_folder();
  }
  const fs::path path = fs::path(own_folder) / name;
  std::error_code error;
  if (!replace && fs::exists(path, error)) {
    return there_already(path.string());
  }
  error = make_private_folders(path.parent_path());
  if (error) {
    return Problem{"the folder cannot be made: " + error.message(),
                   {path.parent_path().string(), 0, {}},
                   "",
                   "a folder this user may write"};
  }
  if (replace) {
    const auto written = documents::write_whole(path.string(), text);
    return written ? Result<std::string>(path.string()) : written.problems();
  }
  const auto written = documents::write_new(path.string(), text);
  if (!written) {
    return written.problems();
  }
  return *written ? Result<std::string>(path.string()) : there_already(path.string());
}

Result<std::string> free_path(const std::string& folder, const std::string& stem,
                              const std::string& ending) {
  namespace fs = std::filesystem;
  if (folder.empty()) {
    return no_data_folder();
  }
  if (const std::error_code error = make_private_folders(folder)) {
    return Problem{"the folder cannot be made: " + error.message(),
                   {folder, 0, {}},
                   "",
                   "a folder this user may write (--papers FOLDER, --pictures FOLDER)"};
  }
  std::error_code error;
  for (int number = 1;; ++number) {
    std::string name = stem;
    name.append(1, '-').append(std::to_string(number)).append(ending);
    const fs::path path = fs::path(folder) / name;
    if (!fs::exists(path, error)) {
      return path.string();
    }
  }
}

}  // namespace

casework::OwnFiles own_files(const Surroundings& surroundings) {
  casework::OwnFiles files;
  files.read = [](const std::string& path) {
    return documents::read_text(path, "a readable parts list (CSV) or case file (JSON)",
                                documents::table_bytes_max);
  };
  files.own_text = [own =
                        surroundings.own_knowledge](std::string_view name) -> Result<std::string> {
    const auto path = std::filesystem::path(own) / name;
    std::error_code error;
    if (own.empty() || !std::filesystem::exists(path, error)) {
      return std::string();
    }
    return documents::read_text(path.string(), "a readable file", documents::table_bytes_max);
  };
  files.keep = [own = surroundings.own_knowledge](const std::string& name, const std::string& text,
                                                  bool replace) {
    return keep_own(own, name, text, replace);
  };
  files.look_into = look_into_folder;
  files.free_path = [papers = surroundings.papers, pictures = surroundings.pictures](
                        casework::Made what, const std::string& stem, const std::string& ending) {
    return free_path(what == casework::Made::papers ? papers : pictures, stem, ending);
  };
  files.hand_out = [papers = surroundings.papers](const std::string& stem,
                                                  const std::string& ending,
                                                  const std::string& bytes) -> Result<std::string> {
    for (;;) {
      auto path = free_path(papers, stem, ending);
      if (!path) {
        return path;
      }
      const auto written = documents::write_new(*path, bytes);
      if (!written) {
        return written.problems();
      }
      if (*written) {
        return path;
      }  // another window has taken the name in this moment
    }
  };
  files.want_shop_history = [surroundings](bool wanted) {
    return want_shop_history(surroundings, wanted);
  };
  return files;
}

}  // namespace dryout::app
