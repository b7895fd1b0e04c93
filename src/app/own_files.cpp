#include "app/own_files.h"

#include <filesystem>

#include "app/write_whole.h"
#include "documents/read_text.h"
#include "documents/table.h"

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

}  // namespace

Result<std::string> keep_own(const std::string& own_folder, const std::string& name,
                             const std::string& text, bool replace) {
  namespace fs = std::filesystem;
  const fs::path path = fs::path(own_folder) / name;
  std::error_code error;
  if (!replace && fs::exists(path, error)) {
    return Problem{"this file is there already",
                   {path.string(), 0, {}},
                   "",
                   "another id, or --replace to overwrite it"};
  }
  error = make_private_folders(path.parent_path());
  if (error) {
    return Problem{"the folder cannot be made: " + error.message(),
                   {path.parent_path().string(), 0, {}},
                   "",
                   "a folder this user may write"};
  }
  const auto written = write_whole(path.string(), text);
  if (!written) {
    return written.problems();
  }
  return path.string();
}

casework::OwnFiles own_files(const std::string& own_folder) {
  return {[](const std::string& path) {
            return documents::read_text(path, "a readable parts list (CSV) or case file (JSON)",
                                        documents::table_bytes_max);
          },
          [own_folder](const std::string& name, const std::string& text, bool replace) {
            return keep_own(own_folder, name, text, replace);
          }};
}

}  // namespace dryout::app
