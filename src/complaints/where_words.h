// Place and condition as a person reads them.
#pragma once

#include <string>

#include "complaints/vocabulary.h"

namespace dryout::complaints {

/// "left channel, when warm"; "" for none.
[[nodiscard]] std::string told(const Where& where);

}  // namespace dryout::complaints
