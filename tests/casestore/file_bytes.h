// A file as the bytes it holds, read and written past the store.
#pragma once

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

}  // namespace dryout::casestore
