#include "app/terminal.h"

#include <cmath>
#include <ostream>

#include "documents/parse.h"
#include "quantities/printed_number.h"

namespace dryout::app {

Exit refuse(const Terminal& terminal, const quantities::Problems& problems, Exit exit) {
  terminal.err << quantities::describe(problems);
  return exit;
}

Exit answer(const Terminal& terminal, const documents::Value& document) {
  terminal.data << documents::to_text(document);
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
  return quantities::fixed_point(value, fine ? 1 : 0) + " %";
}

}  // namespace dryout::app
