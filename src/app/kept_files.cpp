#include "app/kept_files.h"

#include <array>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "app/shop_setting.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// Where writing to `path` would end: links followed, also one whose file is not there yet.
fs::path end_of(fs::path path) {
  constexpr int links_max = 40;  // a ring of links has no end
  std::error_code error;
  for (int links = 0; links < links_max && fs::is_symlink(path, error); ++links) {
    const fs::path to = fs::read_symlink(path, error);
    path = to.is_absolute() ? to : path.parent_path() / to;
  }
  fs::path whole = fs::weakly_canonical(fs::absolute(path, error), error);
  return error ? path.lexically_normal() : whole;
}

bool same_file(const fs::path& a, const fs::path& b) {
  std::error_code error;
  return end_of(a) == end_of(b) || fs::equivalent(a, b, error);
}

bool lies_in(const fs::path& path, const fs::path& folder) {
  std::error_code error;
  for (fs::path up = end_of(path);; up = up.parent_path()) {
    if (up == end_of(folder) || fs::equivalent(up, folder, error)) {
      return true;
    }
    if (!up.has_relative_path()) {
      return false;
    }
  }
}

/// The first bytes of every SQLite file (the published file format, "The Database Header").
bool is_a_store(const fs::path& path) {
  constexpr std::string_view begin("SQLite format 3\0", 16);
  std::error_code error;
  if (!fs::is_regular_file(path, error)) {
    return false;
  }
  std::array<char, begin.size()> bytes{};
  std::ifstream stream(path, std::ios::binary);
  return stream.read(bytes.data(), bytes.size()) && std::string_view(bytes.data(), 16) == begin;
}

/// What the path is; "" = nothing that is kept.
std::string kept_as(const Surroundings& surroundings, const std::string& path) {
  if (!surroundings.store.empty()) {
    if (same_file(path, surroundings.store)) {
      return "the case store";
    }
    for (const char* companion : {"-wal", "-shm", "-journal"}) {
      if (same_file(path, surroundings.store + companion)) {
        return "a file of the case store";
      }
    }
  }
  if (const std::string setting = shop_setting_file(surroundings);
      !setting.empty() && same_file(path, setting)) {
    return "the setting whether closed cases enter the figures";
  }
  if (!surroundings.own_knowledge.empty() && lies_in(path, surroundings.own_knowledge)) {
    return "in the folder of this bench's own equipment, limits and meters";
  }
  for (const std::string& tree : surroundings.knowledge) {
    for (const char* part : {"rules", "symptoms"}) {
      if (lies_in(path, fs::path(tree) / part)) {
        return "in a knowledge tree";
      }
    }
  }
  return is_a_store(path) ? "a case store or a backup of one" : "";
}

}  // namespace

Result<Done> may_be_written(const Surroundings& surroundings, const std::string& path) {
  const std::string what = path.empty() || path == "-" ? "" : kept_as(surroundings, path);
  if (what.empty()) {
    return Done{};
  }
  return Problem{"this would write over what the program keeps; nothing was written",
                 {path, 0, {}},
                 what,
                 "a path that is neither the case store, a file beside it or a backup, nor in the "
                 "folder of own files"};
}

}  // namespace dryout::app
