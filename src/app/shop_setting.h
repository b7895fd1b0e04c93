// Whether closed cases may enter the figures: the technician's own choice, kept beside the own
// folder (that one holds knowledge only) as shop_history.json,
// {"schema": 1, "in_the_figures": true}. Without the file: no.
#pragma once

#include "app/surroundings.h"
#include "quantities/result.h"

namespace dryout::app {

/// Its path; "" where nobody knows where the own folder is.
[[nodiscard]] std::string shop_setting_file(const Surroundings& surroundings);
[[nodiscard]] quantities::Result<bool> shop_history_wanted(const Surroundings& surroundings);
[[nodiscard]] quantities::Result<quantities::Done> want_shop_history(
    const Surroundings& surroundings, bool wanted);

}  // namespace dryout::app
