#include "app/typed_place.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace dryout::app {

quantities::Result<casework::SymptomPlace> typed_place(const std::vector<std::string>& words) {
  casework::SymptomPlace place;
  const std::vector<std::pair<std::string_view, std::string*>> axes{{"channel", &place.channel},
                                                                    {"band", &place.band},
                                                                    {"path", &place.path},
                                                                    {"source", &place.source}};
  for (const std::string& word : words) {
    const std::size_t sign = word.find('=');
    const auto axis = std::find_if(axes.begin(), axes.end(), [&](const auto& each) {
      return each.first == std::string_view(word).substr(0, sign);
    });
    if (sign == std::string::npos || sign + 1 == word.size() || axis == axes.end()) {
      return quantities::Problem{
          "not a place", {}, word, "channel=ID, band=ID, path=receive, source=ID"};
    }
    if (!axis->second->empty()) {
      return quantities::Problem{
          "two places on one line", {}, word, "one of each; tell them one by one"};
    }
    *axis->second = word.substr(sign + 1);
  }
  return place;
}

}  // namespace dryout::app
