#include "documents/write_whole.h"

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace dryout::documents {

quantities::Result<quantities::Done> write_whole(const std::string& path, const std::string& text) {
  namespace fs = std::filesystem;
  const std::string beside = path + ".part";
  std::error_code error;
  {
    std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
    fs::permissions(beside, fs::perms::owner_read | fs::perms::owner_write, error);
    stream << text;
    stream.flush();
    if (!stream) {
      (void)fs::remove(beside, error);
      return quantities::Problem{
          "cannot be written", {path, 0, {}}, "", "a folder this user may write, with room in it"};
    }
  }
  fs::rename(beside, path, error);
  if (error) {
    const std::string reason = error.message();
    (void)fs::remove(beside, error);
    return quantities::Problem{
        "cannot be written: " + reason, {path, 0, {}}, "", "a writable place"};
  }
  return quantities::Done{};
}

}  // namespace dryout::documents
