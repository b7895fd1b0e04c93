// Putting a backup in the place of a store. The backup is read from a copy of its bytes, so that it
// stays as it is; the store takes its content in one step, so that there is either the old one or
// the whole new one, whoever else has it open.
#include <filesystem>
#include <fstream>

#include "casestore/case_store.h"
#include "casestore/chain.h"
#include "casestore/database.h"
#include "casestore/migrations.h"
#include "documents/scratch_file.h"

namespace dryout::casestore {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// With what SQLite may have laid beside it.
void remove_store(const std::string& path) {
  std::error_code error;
  for (const char* suffix : {"", "-wal", "-shm", "-journal"}) {
    fs::remove(path + suffix, error);
  }
}

Problem with_file(Problem problem, const std::string& file) {
  problem.place.file = file;
  return problem;
}

Result<Done> copy_bytes(const std::string& from, const documents::ScratchFile& to) {
  std::error_code error;
  if (!fs::is_regular_file(from, error)) {
    return Problem{"there is no backup of that name", {from, 0, {}}, "", "the path of a backup"};
  }
  if (fs::exists(from + "-wal", error) && fs::file_size(from + "-wal", error) > 0) {
    return Problem{"this store is in use; it is no backup",
                   {from, 0, {}},
                   "changes that stand beside it, in " + from + "-wal",
                   "a file made by `dryout case backup`"};
  }
  std::ifstream source(from, std::ios::binary);
  constexpr std::size_t piece = 1 << 20;
  std::string bytes(piece, '\0');
  while (source) {
    source.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    const auto read = static_cast<std::size_t>(source.gcount());
    if (auto written = to.write(std::string_view(bytes).substr(0, read)); !written) {
      return written;
    }
  }
  if (source.bad() || !source.eof()) {
    return Problem{"the backup cannot be read", {from, 0, {}}, "", "a file this user may read"};
  }
  return Done{};
}

Problem damaged(const std::string& backup, const std::string& found) {
  return {"the backup is damaged, perhaps cut short",
          {backup, 0, {}},
          found,
          "another backup; nothing was changed"};
}

bool is_damage(int code) {
  return (code & 0xff) == SQLITE_CORRUPT || (code & 0xff) == SQLITE_NOTADB;
}

/// What is wrong with the pages, "" = nothing; a problem where they could not be looked at.
Result<std::string> damage_in(const Database& database) {
  auto check = Statement::prepare(database, "PRAGMA integrity_check(1)");
  const auto row = check ? check->step() : Result<bool>(check.problems());
  if (!row) {
    return is_damage(sqlite3_errcode(database.handle())) ? Result(row.problems().front().found)
                                                         : row.problems();
  }
  const std::string said = *row ? check->text(0) : "no answer";
  return said == "ok" ? std::string() : said;
}

/// Refuses a copy that is damaged, of a newer version, or no store; in the name of the original.
Result<std::unique_ptr<Database>> open_sound(const std::string& copy, const std::string& original) {
  auto database = Database::open(copy);
  if (!database) {
    return with_file(database.problems().front(), original);
  }
  if (const auto known = recognise(**database); !known) {
    const bool torn = (sqlite3_errcode((*database)->handle()) & 0xff) == SQLITE_CORRUPT;
    return torn ? damaged(original, known.problems().front().found)
                : with_file(known.problems().front(), original);
  }
  const auto version = (*database)->number("PRAGMA user_version");
  if (!version || *version == 0) {
    return Problem{"there is nothing in this backup",
                   {original, 0, {}},
                   "an empty file",
                   "a file made by `dryout case backup`"};
  }
  const auto damage = damage_in(**database);
  if (!damage) {
    return with_file(damage.problems().front(), original);
  }
  if (!damage->empty()) {
    return damaged(original, *damage);
  }
  return database;
}

/// Whether it is the file that is bad. Where the disk or somebody else is in the way, a store may
/// be sound and must stay where it is.
bool is_ruin(const Database& database, const Result<Done>& known) {
  if (!known) {
    const int code = sqlite3_errcode(database.handle());
    return code == SQLITE_OK || code == SQLITE_DONE || is_damage(code);
  }
  const auto damage = damage_in(database);
  return damage && !damage->empty();
}

Result<Done> move_store(const std::string& from, const std::string& to) {
  std::error_code error;
  for (const char* suffix : {"", "-wal", "-shm"}) {
    if (fs::exists(from + suffix, error)) {
      fs::rename(from + suffix, to + suffix, error);
    }
    if (error) {
      return Problem{"what is in the place of the store cannot be put aside",
                     {from, 0, {}},
                     error.message(),
                     "a folder this user may write"};
    }
  }
  return Done{};
}

/// Brings the copy of a backup to the newest version and makes a generation of its own of it, so
/// that whoever has the store open sees that it is another.
Result<Done> renew(const Database& incoming, const std::string& bench) {
  if (auto offered = offer_functions(incoming); !offered) {
    return offered;
  }
  if (auto stepped = run_missing_steps(incoming); !stepped) {
    return stepped;
  }
  return begin_generation(incoming, "restored", bench);
}

/// Of the store that is there; "" where nobody can say.
std::string bench_at(const std::string& path) {
  std::error_code error;
  const auto present =
      fs::exists(path, error) ? Database::open(path) : Result<std::unique_ptr<Database>>(Problem{});
  const auto mark = present ? mark_of_store(**present) : Result<StoreMark>(Problem{});
  return mark ? mark->bench : "";
}

/// Where no store is.
Result<Done> put_in_free_place(const Database& incoming, const std::string& path) {
  if (auto made = make_private_file(path); !made) {
    return made;
  }
  const auto store = Database::open(path);
  return store ? copy_content(incoming, **store) : store.problems();
}

/// What became of a store that was to be replaced where it lies.
struct Replaced {
  std::string kept;   ///< the copy of what was there
  bool ruin = false;  ///< it was too damaged to be copied; nothing was done
};

/// The copy is made while nobody else can write, so that a step is in it or was never acknowledged.
Result<Replaced> replace(const Database& incoming, const std::string& path) {
  constexpr int busy_timeout_ms = 20'000;
  const auto store = Database::open(path);
  if (!store) {
    return store.problems();
  }
  sqlite3_busy_timeout((*store)->handle(), busy_timeout_ms);
  auto known = recognise(**store);
  if (known) {
    known = use_write_ahead_log(**store);  // in which one may read while another writes
  }
  if (!known) {
    return is_ruin(**store, known) ? Result<Replaced>(Replaced{"", true}) : known.problems();
  }
  Replaced replaced;
  const auto placed = copy_content(incoming, **store, [&]() -> Result<Done> {
    const auto reader = Database::open(path);
    if (!reader) {
      return reader.problems();
    }
    const auto kept = copy_to_free_name(**reader, path + ".before-restore");
    if (!kept) {
      replaced.ruin = is_ruin(**reader, Done{});
      return kept.problems();
    }
    replaced.kept = *kept;
    return Done{};
  });
  if (placed || replaced.ruin) {
    return replaced;
  }
  if (!replaced.kept.empty()) {
    remove_store(replaced.kept);  // nothing was replaced, so nothing is to be kept
  }
  return placed.problems();
}

/// Moves a ruin aside; its new name.
Result<std::string> put_aside(const std::string& path) {
  std::string name = free_name(path + ".before-restore");
  const auto moved = move_store(path, name);
  return moved ? Result<std::string>(std::move(name)) : moved.problems();
}

}  // namespace

Result<std::string> CaseStore::restore(const std::string& backup, const std::string& path) {
  const auto scratch = documents::ScratchFile::beside(path);
  if (!scratch) {
    return scratch.problems();
  }
  if (const auto copied = copy_bytes(backup, *scratch); !copied) {
    return copied.problems();
  }
  const auto incoming = open_sound(scratch->path(), backup);
  if (!incoming) {
    return incoming.problems();
  }
  if (const auto renewed = renew(**incoming, bench_at(path)); !renewed) {
    return with_file(renewed.problems().front(), backup);
  }
  std::error_code error;
  std::string aside;
  if (fs::exists(path, error)) {
    const auto replaced = replace(**incoming, path);
    if (!replaced || !replaced->ruin) {
      return replaced ? Result<std::string>(replaced->kept) : replaced.problems();
    }
    auto moved = put_aside(path);
    if (!moved) {
      return moved;
    }
    aside = *moved;
  }
  const auto placed = put_in_free_place(**incoming, path);
  if (placed) {
    return aside;
  }
  remove_store(path);
  if (!aside.empty()) {
    (void)move_store(aside, path);  // what went wrong first is what is told
  }
  return placed.problems();
}

}  // namespace dryout::casestore
