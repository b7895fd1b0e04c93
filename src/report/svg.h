// A picture as one SVG element to stand inside an HTML page (SVG 1.1, W3C).
#pragma once

#include <string>

#include "report/picture.h"

namespace dryout::report {

/// Scales with the width it is given; read aloud as Picture::told.
[[nodiscard]] std::string svg_of(const Picture& picture);

}  // namespace dryout::report
