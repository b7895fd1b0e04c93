// The shopping list of a repair: what to buy, merged by value, with spares, and as CSV that a
// spreadsheet opens clean.
#pragma once

#include <string>
#include <vector>

#include "decision/substitution.h"

namespace dryout::decision {

struct ShoppingLine {
  Substitute part;
  int needed = 0;
  int spares = 0;
  std::vector<std::string> for_parts;  ///< "C12 on the supply board"
  /// What to look at when fitting; named by its parts where it does not go for all of them.
  std::vector<std::string> look_at;
};

/// "10000 µF", never "10 mF": that sign has meant microfarads on parts of this age.
/// " d.c. and at least 560 V a.c.", to follow the rating; "" where direct current is all.
[[nodiscard]] std::string ac_text(const Substitute& part);
[[nodiscard]] std::string buyers_value(quantities::Farad capacitance);

/// Lines that ask for the same part become one, whatever each wants looked at when it is fitted; a
/// value or a rating that nobody knows is the same as no other. One spare for every five, at least
/// one.
[[nodiscard]] std::vector<ShoppingLine> shopping_list(const std::vector<PartNeed>& needs,
                                                      const SubstitutionRules& rules);

/// CSV by RFC 4180 with a heading line. A field that a spreadsheet would take for a formula (it
/// begins with = + - @ or a control character) gets an apostrophe in front.
[[nodiscard]] std::string to_csv(const std::vector<ShoppingLine>& lines);

/// One field, quoted where it must be.
[[nodiscard]] std::string csv_field(const std::string& text);

}  // namespace dryout::decision
