#include "documents/read_text.h"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

namespace dryout::documents {

using quantities::Problem;

Problem too_large(const std::string& file, std::size_t bytes, std::size_t bytes_max) {
  return {"file too large",
          {file, 0, {}},
          std::to_string(bytes) + " bytes",
          "at most " + std::to_string(bytes_max)};
}

quantities::Result<std::string> read_text(const std::string& path, std::string_view accepted,
                                          std::size_t bytes_max) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) {
    return Problem{"no such file", {path, 0, {}}, "", std::string(accepted)};
  }
  if (!std::filesystem::is_regular_file(status)) {
    return Problem{"not a regular file", {path, 0, {}}, "", std::string(accepted)};
  }
  const auto bytes = std::filesystem::file_size(path, error);
  if (!error && bytes > bytes_max) {
    return too_large(path, static_cast<std::size_t>(bytes), bytes_max);
  }
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  // An empty file sets the fail bit of what it was poured into.
  if (!stream || (text.fail() && bytes > 0)) {
    return Problem{"cannot be read", {path, 0, {}}, "", "a file this user may read"};
  }
  return text.str();
}

}  // namespace dryout::documents
