// The sections of the bench record, each adding its blocks. Internal to the room.
#pragma once

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/page.h"

namespace dryout::report {

using Blocks = std::vector<Block>;

void add_bench_symptoms(Blocks& blocks, const casework::CaseView& view);
void add_bench_readings(Blocks& blocks, const casework::CaseView& view,
                        const casework::MendingView& mending);
void add_bench_suspects(Blocks& blocks, const casework::CaseView& view);
void add_bench_checks(Blocks& blocks, const casework::CaseView& view);
void add_bench_access(Blocks& blocks, const casework::CaseView& view);
void add_bench_mending(Blocks& blocks, const casework::MendingView& mending);
void add_bench_proof(Blocks& blocks, const casework::MendingView& mending);
void add_bench_log(Blocks& blocks, const casework::CaseView& view);

/// What to buy, as one table; also the body of the parts sheet.
[[nodiscard]] Table shopping_table(const std::vector<casework::ShoppingRow>& shopping);

/// One thing a line.
[[nodiscard]] std::string one_a_line(const std::vector<std::string>& things);

}  // namespace dryout::report
