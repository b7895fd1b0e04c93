// Whether a command makes sense: every id known, every number within what a bench can meet, every
// text readable, dangerous checks heeded first, and the case open.
#pragma once

#include <array>
#include <string_view>

#include "casework/case_ground.h"
#include "casework/case_state.h"
#include "casework/command.h"
#include "knowledge/knowledge_base.h"
#include "quantities/measure.h"
#include "quantities/problem.h"

namespace dryout::casework {

/// Whether cautions must have been heeded: before something is done, but not when it is read again
/// in a journal. What is done is done, and a program that asks for more today must not lose it.
enum class Heeding { required, done };

/// What can be done to a part at the bench; to what is no part, "mended" as well.
inline constexpr std::array<std::string_view, 4> repair_actions{"replaced", "resoldered", "cleaned",
                                                                "adjusted"};

/// The message of the problem that cautions must be heeded first: a face adds how that is done.
inline constexpr const char* heed_first =
    "this check can hurt: its cautions must be read and heeded first";

/// All that stands against the command; empty = it may be applied. Places are left empty: the
/// caller knows where the command stood.
[[nodiscard]] quantities::Problems check_command(const Command& command, const CaseState& state,
                                                 const Ground& ground,
                                                 Heeding heeding = Heeding::required);

/// The same for the first command of a case; `year_now` bounds the year of building.
[[nodiscard]] quantities::Problems check_intake(const TakeIn& intake,
                                                const knowledge::KnowledgeBase& knowledge,
                                                int year_now);

/// Texts of a command: UTF-8, no control characters but line break and tab, of bounded length.
[[nodiscard]] quantities::Problems check_texts(const Command& command);
/// The measure (quantities/measure.h) that a kind of reading takes.
[[nodiscard]] quantities::Measure measure_of(ReadingKind kind);
/// The numbers of a reading that lie outside of what they can be. Journals of earlier versions may
/// hold such: they are shown, and not counted.
[[nodiscard]] quantities::Problems out_of_range(const RecordReading& reading);
/// A reading's numbers against what a bench can meet.
[[nodiscard]] quantities::Problems check_numbers(const RecordReading& reading);

}  // namespace dryout::casework
