// The sections of the owner's report, each adding its blocks. Internal to the room.
#pragma once

#include "casework/case_view.h"
#include "casework/mending_view.h"
#include "report/page.h"

namespace dryout::report {

/// How far the work has come, which decides what may honestly be said.
enum class Stage { in_work, mended, closed_with_cause, closed_without_cause };

struct OwnerCase {
  const casework::CaseView& view;
  const casework::MendingView& mending;
  Stage stage = Stage::in_work;
  /// The cause on record, or what was mended, or what is suspected most; null where nothing is.
  const casework::SuspectView* main = nullptr;
};

[[nodiscard]] OwnerCase owner_case(const casework::CaseView& view,
                                   const casework::MendingView& mending);

using Blocks = std::vector<Block>;

void add_summary(Blocks& blocks, const OwnerCase& of);
void add_complaint(Blocks& blocks, const OwnerCase& of);
void add_findings(Blocks& blocks, const OwnerCase& of);
void add_replaced(Blocks& blocks, const OwnerCase& of);
void add_readings(Blocks& blocks, const OwnerCase& of);
void add_proposal(Blocks& blocks, const OwnerCase& of);
void add_left(Blocks& blocks, const OwnerCase& of);
void add_proof(Blocks& blocks, const OwnerCase& of);
void add_look_out(Blocks& blocks, const OwnerCase& of);
void add_owner_cautions(Blocks& blocks, const OwnerCase& of);
void add_words(Blocks& blocks);

/// Whether mains or a dangerous voltage is inside.
[[nodiscard]] bool has_mains(const casework::CaseView& view);

/// The first `count_max` of a list, and a last one that says how many more there are.
[[nodiscard]] std::vector<std::string> shortened(std::vector<std::string> list,
                                                 std::size_t count_max);

}  // namespace dryout::report
