#include "casestore/failing_disk.h"

#include <sqlite3.h>

namespace dryout::casestore {
namespace {

/// What is to fail. SQLite knows one default disk in a process, so there is one of these.
struct Orders {
  sqlite3_vfs* real = nullptr;
  Trouble trouble = Trouble::read;
  int left = 0;  ///< calls until the one that fails; 0 = none will
  bool for_good = false;
  bool failed = false;
};
Orders orders;

bool strikes(Trouble trouble) {
  if (orders.left == 0 || orders.trouble != trouble) {
    return false;
  }
  if (orders.left > 1) {
    --orders.left;
    return false;
  }
  orders.left = orders.for_good ? 1 : 0;
  orders.failed = true;
  return true;
}

/// Ours in front, the real one behind it in the same block of memory (as sqlite3_vfs::szOsFile
/// asks for).
struct File {
  sqlite3_file base;
};
constexpr int real_offset = 16;
static_assert(sizeof(File) <= real_offset);

sqlite3_file* real(sqlite3_file* file) {
  return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(file) + real_offset);
}

int close(sqlite3_file* file) { return real(file)->pMethods->xClose(real(file)); }

int read(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
  return strikes(Trouble::read) ? SQLITE_IOERR_READ
                                : real(file)->pMethods->xRead(real(file), to, size, at);
}

int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
  const bool full = strikes(Trouble::full);
  if (full || strikes(Trouble::write)) {
    (void)real(file)->pMethods->xWrite(real(file), from, size / 2, at);
    return full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
  }
  return real(file)->pMethods->xWrite(real(file), from, size, at);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  return strikes(Trouble::truncate) ? SQLITE_IOERR_TRUNCATE
                                    : real(file)->pMethods->xTruncate(real(file), size);
}

/// Nobody pulls a plug here, so what works need not wait for the disk.
int sync(sqlite3_file* /*file*/, int /*flags*/) {
  return strikes(Trouble::sync) ? SQLITE_IOERR_FSYNC : SQLITE_OK;
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
  return real(file)->pMethods->xFileSize(real(file), size);
}
int lock(sqlite3_file* file, int level) { return real(file)->pMethods->xLock(real(file), level); }
int unlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int check_lock(sqlite3_file* file, int* held) {
  return real(file)->pMethods->xCheckReservedLock(real(file), held);
}
int control(sqlite3_file* file, int what, void* with) {
  return real(file)->pMethods->xFileControl(real(file), what, with);
}
int sector_size(sqlite3_file* file) { return real(file)->pMethods->xSectorSize(real(file)); }
int characteristics(sqlite3_file* file) {
  return real(file)->pMethods->xDeviceCharacteristics(real(file));
}
int map_shared(sqlite3_file* file, int page, int size, int extend, void volatile** memory) {
  return real(file)->pMethods->xShmMap(real(file), page, size, extend, memory);
}
int lock_shared(sqlite3_file* file, int first, int count, int flags) {
  return real(file)->pMethods->xShmLock(real(file), first, count, flags);
}
void order_shared(sqlite3_file* file) { real(file)->pMethods->xShmBarrier(real(file)); }
int unmap_shared(sqlite3_file* file, int remove) {
  return real(file)->pMethods->xShmUnmap(real(file), remove);
}

constexpr sqlite3_io_methods methods{2,
                                     close,
                                     read,
                                     write,
                                     truncate,
                                     sync,
                                     file_size,
                                     lock,
                                     unlock,
                                     check_lock,
                                     control,
                                     sector_size,
                                     characteristics,
                                     map_shared,
                                     lock_shared,
                                     order_shared,
                                     unmap_shared,
                                     nullptr,
                                     nullptr};

int open_file(sqlite3_vfs* /*disk*/, const char* name, sqlite3_file* file, int flags, int* got) {
  file->pMethods = nullptr;  // nothing to close where opening fails
  if (strikes(Trouble::open)) {
    return SQLITE_CANTOPEN;
  }
  const int code = orders.real->xOpen(orders.real, name, real(file), flags, got);
  if (code == SQLITE_OK) {
    file->pMethods = &methods;
  }
  return code;
}

int remove_file(sqlite3_vfs* /*disk*/, const char* name, int /*sync_folder*/) {
  return strikes(Trouble::remove) ? SQLITE_IOERR_DELETE
                                  : orders.real->xDelete(orders.real, name, 0);
}

/// All but the two above is the real disk's own.
sqlite3_vfs* failing_vfs() {
  static sqlite3_vfs vfs = [] {
    sqlite3_vfs made = *orders.real;
    made.zName = "failing";
    made.pNext = nullptr;
    made.szOsFile = real_offset + orders.real->szOsFile;
    made.xOpen = open_file;
    made.xDelete = remove_file;
    return made;
  }();
  return &vfs;
}

}  // namespace

std::string_view word_of(Trouble trouble) {
  constexpr std::string_view words[] = {"read", "write",    "full",  "sync",
                                        "open", "truncate", "remove"};
  return words[static_cast<std::size_t>(trouble)];
}

FailingDisk::FailingDisk() {
  orders = {};
  orders.real = sqlite3_vfs_find(nullptr);
  sqlite3_vfs_register(failing_vfs(), 1);
}

FailingDisk::~FailingDisk() {
  sqlite3_vfs_unregister(failing_vfs());
  sqlite3_vfs_register(orders.real, 1);
}

void FailingDisk::fail(Trouble trouble, int nth, bool for_good) {
  orders.trouble = trouble;
  orders.left = nth;
  orders.for_good = for_good;
  orders.failed = false;
}

void FailingDisk::heal() { orders.left = 0; }

bool FailingDisk::has_failed() const { return orders.failed; }

}  // namespace dryout::casestore
