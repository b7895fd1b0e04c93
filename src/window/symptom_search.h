// Finding a symptom by what an owner says: how many of the typed words occur in a text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "casework/case_view.h"
#include "casework/catalogue.h"

namespace dryout::window {

/// The number of words of `asked` that begin a word of `text`, case aside (ASCII); an empty
/// question matches everything once.
[[nodiscard]] int words_matched(std::string_view asked, std::string_view text);

/// Places in `symptoms` that fit the words, best first; all of them in their own order when
/// nothing is asked.
[[nodiscard]] std::vector<std::size_t> find_symptoms(
    const std::vector<casework::SymptomView>& symptoms, std::string_view asked);

/// The same for the symptoms of a case, as the complaint reader ranks them; then what else has one
/// of the words. Without a reader by the words alone.
[[nodiscard]] std::vector<std::size_t> find_symptoms(const casework::CaseView& view,
                                                     std::string_view asked,
                                                     const casework::Catalogue& catalogue);

}  // namespace dryout::window
