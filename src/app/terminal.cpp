#include "app/terminal.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <ostream>

#include "documents/parse.h"

namespace dryout::app {

Exit refuse(const Terminal& terminal, const quantities::Problems& problems, Exit exit) {
  terminal.err << quantities::describe(problems);
  return exit;
}

Exit answer(const Terminal& terminal, const documents::Value& document) {
  terminal.out << documents::to_text(document);
  return Exit::done;
}

std::string percent(double share) {
  const double value = share * 100.0;
  if (value > 0.0 && value < 0.1) {
    return "below 0.1 %";
  }
  if (value < 100.0 && value > 99.9) {
    return "above 99.9 %";
  }
  const bool fine = value < 1.0 || value > 99.0;
  std::array<char, 32> text{};
  const int length = std::snprintf(text.data(), text.size(), fine ? "%.1f %%" : "%.0f %%", value);
  return {text.data(), static_cast<std::size_t>(length)};
}

}  // namespace dryout::app
