// The parts of a sentence and what they do to one another: what a denial denies, which function a
// "gone" has taken, what a "fine" takes out of the complaint.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "complaints/vocabulary.h"

namespace dryout::complaints {

struct Understood;

struct SaidPart {
  const WordGroup* group;  ///< null: a word of no group
  std::string sign;        ///< id of the group, or the stem
  int clause = 0;
  bool missing = false;   ///< a function that is not there
  bool fine = false;      ///< said to be well
  bool spent = false;     ///< it has done its work on another part
  bool excluded = false;  ///< a trouble that was denied

  [[nodiscard]] bool is(WordKind kind) const { return group != nullptr && group->kind == kind; }
};

/// "no sound": the function is missing. "no hum": the trouble is excluded.
void settle_denials(std::vector<SaidPart>& parts, std::set<std::string>& excluded);
/// "picture gone": no picture; a "gone" with no function beside it is said of the whole.
void settle_what_is_gone(std::vector<SaidPart>& parts);
/// "sound is fine", "fine when quiet": those are well.
void settle_what_is_fine(std::vector<SaidPart>& parts);
/// Places and conditions of the parts that are not fine; a channel only where one alone was named.
void settle_places(const std::vector<SaidPart>& parts, Where& where);
void add_part(const SaidPart& part, Understood& understood);

}  // namespace dryout::complaints
