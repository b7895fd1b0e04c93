#include "app/own_files.h"

#include <filesystem>

#include "app/write_whole.h"
#include "documents/read_text.h"
#include "documents/table.h"

namespace dryout::app {

using quantities::Problem;
using quantities::Result;

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
  fs::create_directories(path.parent_path(), error);
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
