#include "casework/caution_views.h"

#include <map>

#include "casework/wording.h"

namespace dryout::casework {
namespace {

/// Where the last sentence begins; 0 where there is only one.
std::size_t closing_of(const std::string& wording) {
  const std::size_t end = wording.rfind(". ");
  return end == std::string::npos ? 0 : end + 2;
}

}  // namespace

std::vector<CautionView> views_of(const std::vector<const knowledge::Caution*>& cautions) {
  std::vector<CautionView> views;
  std::map<std::string, std::size_t> last_with;
  for (const knowledge::Caution* caution : cautions) {
    views.push_back(view_of(*caution));
    const std::string& wording = views.back().wording;
    last_with[wording.substr(closing_of(wording))] = views.size() - 1;
  }
  for (std::size_t i = 0; i < views.size(); ++i) {
    std::string& wording = views[i].wording;
    const std::size_t closing = closing_of(wording);
    if (closing > 0 && last_with[wording.substr(closing)] != i) {
      wording.resize(closing - 1);
    }
  }
  return views;
}

}  // namespace dryout::casework
