// All that the program knows, one entry after the other, for looking up: what it says, where it
// comes from, and which other entries touch it.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "knowledge/knowledge_base.h"
#include "readings/assess_reading.h"

namespace dryout::casework {

/// The shelves of the library, in the order a bench asks for them.
enum class Shelf {
  equipment,
  symptoms,
  checks,
  roles,
  causes,
  limits,
  caveats,
  cautions,
  rules,
  technologies,
  modes,
  phenomena,
  meters
};
/// "equipment", "symptoms", ...: the words of `dryout list`.
[[nodiscard]] const std::vector<std::string_view>& shelf_words();

using SourceKind = knowledge::Source::Kind;
/// "published", "from memory", "common practice", "judgement".
[[nodiscard]] std::string_view word_of_source(SourceKind kind);

struct LibraryEntry {
  Shelf shelf = Shelf::equipment;
  std::string id, title, because;
  SourceKind kind = SourceKind::judgement;
  std::string source;                                      ///< "", or the document and its place
  std::vector<std::pair<std::string, std::string>> facts;  ///< "Good": "below 0.2 V"
  std::vector<std::string> touched_by;  ///< "check esr-in-circuit: Series resistance in circuit"
};

[[nodiscard]] std::vector<LibraryEntry> library_of(const knowledge::KnowledgeBase& knowledge,
                                                   const readings::ReadingKnowledge& readings);

/// Every word stands somewhere in the entry, whatever the case.
[[nodiscard]] bool matches(const LibraryEntry& entry, std::string_view words);

/// Entries of each kind of source.
struct SourceCount {
  int published = 0, memory = 0, common_practice = 0, judgement = 0;
  [[nodiscard]] int all() const { return published + memory + common_practice + judgement; }
};
[[nodiscard]] SourceCount count_sources(const std::vector<LibraryEntry>& entries, Shelf shelf);
/// A line for each shelf that has entries and one for all, as a table in Markdown.
[[nodiscard]] std::string source_table(const std::vector<LibraryEntry>& entries);

}  // namespace dryout::casework
