// Text that somebody typed, made safe to set into a page: nothing typed is ever read as markup.
// That nothing is invisible or turns the order of what stands beside it is quantities/shown_text.h.
#pragma once

#include <string>
#include <string_view>

namespace dryout::report {

/// quantities::shown_text(), with the five characters that mean something in HTML and XML written
/// as entities.
[[nodiscard]] std::string escape_html(std::string_view text);

/// At most `characters_max` characters, cut at a word's end where there is one, with an ellipsis.
[[nodiscard]] std::string cut_to(const std::string& text, std::size_t characters_max);

}  // namespace dryout::report
