#include "app/write_pieces.h"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <utility>

namespace dryout::app {

using quantities::Done;
using quantities::Result;

quantities::Problem Pieces::problem(int error) const {
  return {"cannot be written", {path_, 0, {}}, std::strerror(error), "a writable place with room"};
}

Result<Pieces> Pieces::to(const std::string& path, std::ostream& out) {
  Pieces pieces(path, out);
  std::error_code error;
  if (path.empty() || path == "-") {
    pieces.path_.clear();
  } else if (std::filesystem::is_other(path, error)) {
    pieces.device_.reset(std::fopen(path.c_str(), "we"));  // NOLINT: the pointer is its owner
    if (pieces.device_ == nullptr) {
      return pieces.problem(errno);
    }
  } else {
    auto file = documents::ScratchFile::beside(path);
    if (!file) {
      return file.problems();
    }
    pieces.file_.emplace(std::move(*file));
  }
  return pieces;
}

Result<Done> Pieces::write(std::string_view bytes) {
  if (file_) {
    return file_->write(bytes);
  }
  if (device_ != nullptr) {
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), device_.get()) == bytes.size();
    return written ? Result<Done>(Done{}) : problem(errno);
  }
  *out_ << bytes;  // whether it arrived is asked at the end of the program
  return Done{};
}

Result<Done> Pieces::finish(const ReadBack& read_back) {
  if (file_) {
    if (auto same = read_back(file_->path()); !same) {
      return same;
    }
    return file_->replace_target();
  }
  if (device_ != nullptr && std::fclose(device_.release()) != 0) {
    return problem(errno);
  }
  return Done{};
}

}  // namespace dryout::app
