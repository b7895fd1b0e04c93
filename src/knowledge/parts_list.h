// A parts list as a technician types it or a layout program exports it: which column is which, and
// what each row says of a capacitor. Rows of other parts are counted. Nothing is placed here;
// describe_set.h does that.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "documents/table.h"
#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::knowledge {

/// One row that speaks of capacitors. Words about board, block and role stay as they were written.
struct PartsRow {
  int line = 0;
  std::vector<std::string> references;  ///< "C3-C6" is four of them
  int count = 1;
  std::string value_text;
  std::optional<quantities::Farad> capacitance;
  std::optional<quantities::Volt> rated;
  std::string technology;  ///< an id, "" = not said
  std::string board, block, role;

  /// "C12, C13", or the value where the row has no reference.
  [[nodiscard]] std::string name() const;
};

struct PartsList {
  std::string file;
  std::vector<PartsRow> capacitors;
  std::map<std::string, int> others;  ///< parts of other kinds by the letters of their reference
  int not_fitted = 0;                 ///< capacitors marked as not fitted
  std::map<std::string, std::string> columns;  ///< what we call it -> the heading it stood under
  std::vector<std::string> unread;             ///< headings that say nothing to us

  [[nodiscard]] int capacitor_count() const;
};

/// References that the rows of one list may name together, ranges written out.
inline constexpr std::size_t list_references_max = 20'000;
/// References that one range ("C1-C500") may stand for.
inline constexpr int range_references_max = 500;

/// All problems of all rows (the first hundred), each with file, line and column. Refused: a table
/// without a column of references (or of roles with quantities), values that cannot be read or
/// could mean two things, a reference that stands twice, a quantity that is not the number of
/// references; before it is written out, a range or a list beyond the bounds above.
[[nodiscard]] quantities::Result<PartsList> read_parts_list(const documents::Table& table,
                                                            const KnowledgeBase& knowledge);

}  // namespace dryout::knowledge
