#include "app/typed_volts.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <numbers>
#include <string_view>

namespace dryout::app {

TypedVolts read_kind_of_volts(const std::string& text) {
  std::string bare;  // without blanks and points of abbreviation: "275 V a.c." is "275vac"
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool abbreviates = c == '.' && i > 0 && std::isalpha(text[i - 1]) != 0;
    if (c != ' ' && !abbreviates) {
      bare += static_cast<char>(std::tolower(c));
    }
  }
  constexpr std::array<std::pair<std::string_view, bool>, 6> signs{
      {{"vac", true}, {"v~", true}, {"~", true}, {"vdc", false}, {"v=", false}, {"=", false}}};
  const auto* found = std::find_if(signs.begin(), signs.end(), [&](const auto& sign) {
    return bare.size() > sign.first.size() && bare.ends_with(sign.first);
  });
  if (found == signs.end()) {
    return {text, false, false};
  }
  return {bare.substr(0, bare.size() - found->first.size()), found->second, !found->second};
}

quantities::Volt peak_of(quantities::Volt alternating) { return alternating * std::numbers::sqrt2; }

}  // namespace dryout::app
