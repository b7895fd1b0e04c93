#include "casework/complaint.h"

#include "quantities/spelling.h"

namespace dryout::casework {

namespace {

/// Too many to print: where they are found.
std::string how_to_list(std::string_view what) {
  if (what == "equipment") return "an id printed by `dryout list equipment`";
  if (what == "symptom") return "an id printed by `dryout list symptoms --find WORD`";
  if (what == "technology") return "an id printed by `dryout list technologies`";
  if (what == "check") return "a check printed by `dryout next CASE`";
  if (what == "suspect" || what.starts_with("part")) {
    return "an id printed by `dryout suspects CASE --most 100`";
  }
  return {};
}

}  // namespace

quantities::Problem unknown(std::string_view what, std::string_view id,
                            const std::vector<std::string_view>& accepted) {
  constexpr std::size_t listed_max = 12;
  std::string hint;
  std::vector<std::string_view> typed = accepted;  // with and without the kind before a colon
  for (const std::string_view each : accepted) {
    typed.push_back(each.substr(each.find(':') + 1));
  }
  if (const auto nearest = quantities::nearest_spelling(id, typed)) {
    hint = "did you mean \"" + *nearest + "\"?";
  } else if (!accepted.empty() && accepted.size() <= listed_max) {
    for (const std::string_view word : accepted) {
      hint += (hint.empty() ? "" : ", ") + std::string(word);
    }
  } else {
    hint = how_to_list(what);
  }
  return {"unknown " + std::string(what), {}, '"' + quantities::excerpt(id) + '"', hint};
}

}  // namespace dryout::casework
