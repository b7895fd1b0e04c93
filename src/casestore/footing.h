// Whether an open store still lies where it was opened. Unix lets a file be moved or deleted while
// programs have it open: they go on writing to what nobody opens again. Seen only inside this room.
#pragma once

#include <sys/types.h>

#include <string>
#include <utility>
#include <vector>

namespace dryout::casestore {

enum class Footing {
  stands,
  replaced,  ///< another file is there
  gone       ///< none is
};

/// The store's file and what SQLite keeps beside it, as they were at one moment. Without any, all
/// stands: a store in memory, or one that is only being opened.
class FilesInPlace {
 public:
  [[nodiscard]] static FilesInPlace of(const std::string& path);
  [[nodiscard]] Footing footing() const;

 private:
  using Mark = std::pair<dev_t, ino_t>;
  std::vector<std::pair<std::string, Mark>> marks_;
};

}  // namespace dryout::casestore
