// A disk that fails when it is told to: while a FailingDisk lives, all files that SQLite opens go
// through it. Everything not told to fail reaches the real disk.
//
// It stands in for SQLite's default "VFS" (https://sqlite.org/vfs.html), below everything the
// program does itself, so that what is tested is the program and SQLite together.
#pragma once

#include <string_view>

namespace dryout::casestore {

enum class Trouble { read, write, full, sync, open, truncate, remove };
[[nodiscard]] std::string_view word_of(Trouble trouble);

class FailingDisk {
 public:
  FailingDisk();
  ~FailingDisk();  ///< the real disk is back; no store may be open any more
  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;

  /// The `nth` call of that kind from now on fails (1 = the next one); `for_good`: and every later
  /// one. A write that fails for want of room, or otherwise, has put its first half on the disk.
  void fail(Trouble trouble, int nth, bool for_good);
  /// From now on everything works.
  void heal();
  /// Whether anything has failed since fail().
  [[nodiscard]] bool has_failed() const;
};

}  // namespace dryout::casestore
