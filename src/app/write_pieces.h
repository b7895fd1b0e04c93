// An answer too large to be held: written piece by piece to a file that is there whole or not at
// all, to a device or a pipe as it is, or to standard output.
#pragma once

#include <cstdio>
#include <functional>
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>

#include "documents/scratch_file.h"
#include "quantities/result.h"

namespace dryout::app {

class Pieces {
 public:
  /// `path` "" or "-": `out`.
  [[nodiscard]] static quantities::Result<Pieces> to(const std::string& path, std::ostream& out);

  [[nodiscard]] quantities::Result<quantities::Done> write(std::string_view bytes);
  /// Brings it to its place. Of a file `read_back` says first whether what lies on the disk is what
  /// was meant; where not, nothing takes the name.
  using ReadBack = std::function<quantities::Result<quantities::Done>(const std::string& path)>;
  [[nodiscard]] quantities::Result<quantities::Done> finish(const ReadBack& read_back);

 private:
  struct CloseFile {
    void operator()(std::FILE* file) const {
      (void)std::fclose(file);  // NOLINT(cppcoreguidelines-owning-memory): this is the owner
    }
  };
  Pieces(std::string path, std::ostream& out) : path_(std::move(path)), out_(&out) {}
  [[nodiscard]] quantities::Problem problem(int error) const;

  std::string path_;
  std::ostream* out_;
  std::unique_ptr<std::FILE, CloseFile> device_;
  std::optional<documents::ScratchFile> file_;
};

}  // namespace dryout::app
