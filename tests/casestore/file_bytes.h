// A file as the bytes it holds, read and written past the store.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace dryout::casestore {

inline std::string read_file(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

inline void write_file(const std::string& path, const std::string& content) {
  std::ofstream(path, std::ios::binary) << content;
}

/// Files in a folder that somebody has begun and not finished.
inline int unfinished_in(const std::filesystem::path& folder) {
  int found = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    found += entry.path().filename().string().find(".unfinished") != std::string::npos ? 1 : 0;
  }
  return found;
}

}  // namespace dryout::casestore
