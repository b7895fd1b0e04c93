// The records in the pages of an SQLite file, read past SQLite: page by page, whatever hangs
// together or not, so that a torn tree costs the pages that are torn. After "Database File Format"
// (https://sqlite.org/fileformat2.html), sections 1.3 (header), 1.6 (b-tree pages), 2.1 (records)
// and 4 (write-ahead log). Seen only inside this room.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace dryout::casestore {

struct Null {};
struct Blob {
  std::string bytes;
};
using Column = std::variant<Null, std::int64_t, double, std::string, Blob>;

struct Record {
  std::int64_t rowid = 0;  ///< of a table with rowids; 0 in others
  bool in_table = false;   ///< of a table with rowids
  std::vector<Column> columns;
};

class PageReader {
 public:
  /// `file` as it lies on the disk, and the log beside it; either may be cut short or foreign.
  PageReader(std::string file, std::string log);

  /// Calls visit() with every record of the pages as they were last written, then with those of
  /// pages that later ones took the place of.
  using Visit = std::function<void(const Record&)>;
  void visit_records(const Visit& visit) const;

 private:
  using Pages = std::map<std::uint32_t, std::string_view>;
  void read_header();
  void read_log();
  [[nodiscard]] std::string_view page(std::uint32_t number) const;
  [[nodiscard]] std::set<std::uint32_t> free_pages(std::uint32_t last) const;
  void visit_page(std::uint32_t number, std::string_view bytes, const Visit& visit) const;
  [[nodiscard]] bool read_payload(std::string_view bytes, std::size_t at, std::uint64_t size,
                                  bool table, std::string& payload) const;

  std::string file_, log_;
  std::size_t page_size_ = 4096;
  std::size_t usable_ = 4096;
  Pages newest_;                                                   ///< from the log
  std::vector<std::pair<std::uint32_t, std::string_view>> older_;  ///< from the log, overtaken
};

}  // namespace dryout::casestore
