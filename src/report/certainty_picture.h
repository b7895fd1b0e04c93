// How likely each of a few explanations is, as bars of length 0 to 100 %. Each stands for itself:
// two things can be wrong at once, so the bars need not add up.
#pragma once

#include <string>
#include <vector>

#include "quantities/probability.h"
#include "report/picture.h"

namespace dryout::report {

struct CertaintyRow {
  std::string title;
  quantities::Probability probability;
};

[[nodiscard]] Picture certainty_picture(const std::vector<CertaintyRow>& rows);

}  // namespace dryout::report
