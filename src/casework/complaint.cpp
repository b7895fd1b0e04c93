#include "casework/complaint.h"

#include "quantities/spelling.h"

namespace dryout::casework {

quantities::Problem unknown(std::string_view what, std::string_view id,
                            const std::vector<std::string_view>& accepted) {
  constexpr std::size_t listed_max = 12;
  std::string hint;
  if (const auto nearest = quantities::nearest_spelling(id, accepted)) {
    hint = "did you mean \"" + *nearest + "\"?";
  } else if (!accepted.empty() && accepted.size() <= listed_max) {
    for (const std::string_view word : accepted) {
      hint += (hint.empty() ? "" : ", ") + std::string(word);
    }
  }
  return {"unknown " + std::string(what), {}, '"' + quantities::excerpt(id) + '"', hint};
}

}  // namespace dryout::casework
