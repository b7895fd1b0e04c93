// What an owner is handed with the set, on one or two pages: the complaint, what was found and how
// sure that is, readings before and after, what was replaced and why, what was left and its risk,
// what to look out for. In plain language; every word of the trade that occurs is explained at the
// end. Long lists are shortened and say so: the bench record has everything.
#pragma once

#include <cstdint>
#include <string>

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/page.h"

namespace dryout::report {

/// Who hands it over, and when.
struct Imprint {
  std::string shop;          ///< "" = not known
  std::int64_t made_at = 0;  ///< seconds since the epoch
};

[[nodiscard]] Imprint imprint_now(std::string shop);

/// `mending` may be empty: then the report rests on the case alone.
[[nodiscard]] Document owner_report(const casework::CaseView& view,
                                    const casework::MendingView& mending, const Imprint& imprint);

/// "2026-03-04", local time.
[[nodiscard]] std::string date_of(const Imprint& imprint);
/// The set's name, or what kind of equipment it is where nobody said a name.
[[nodiscard]] std::string set_title(const casework::CaseView& view);
/// Shop, case, date and set on one line, for the foot of every page.
[[nodiscard]] std::string running_line(const casework::CaseView& view, const Imprint& imprint);

}  // namespace dryout::report
