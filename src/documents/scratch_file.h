// A file that is not finished: under a name nobody can guess, beside the one it is to become, for
// its owner alone, held as long as it is being made. It takes its name only when it is whole and on
// the disk; otherwise it goes with its maker. What a maker that was killed left behind nobody holds
// any more: sweep_scratch_files() takes it away.
#pragma once

#include <string>
#include <string_view>

#include "quantities/result.h"

namespace dryout::documents {

class ScratchFile {
 public:
  /// A new empty one in the folder of `target`; problems name the target.
  [[nodiscard]] static quantities::Result<ScratchFile> beside(const std::string& target);
  ScratchFile(ScratchFile&& other) noexcept;
  ScratchFile& operator=(ScratchFile&&) = delete;
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;
  ~ScratchFile();

  /// Its name while it is not finished; others (SQLite) may write it by that.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Appends bytes.
  [[nodiscard]] quantities::Result<quantities::Done> write(std::string_view bytes) const;

  /// Makes sure of the disk, then takes the name of the target, in the place of what is there.
  [[nodiscard]] quantities::Result<quantities::Done> replace_target();
  /// The same under a name that must be new: false where it is taken by then.
  [[nodiscard]] quantities::Result<bool> claim(const std::string& name);

 private:
  ScratchFile(std::string target, std::string path, int file);
  [[nodiscard]] quantities::Result<quantities::Done> reach_the_disk() const;
  [[nodiscard]] quantities::Problem problem(int error) const;
  void let_go();

  std::string target_, path_;
  int file_ = -1;
};

/// Removes the scratch files of a folder whose makers are gone; those still held stay. How many.
int sweep_scratch_files(const std::string& folder);

}  // namespace dryout::documents
