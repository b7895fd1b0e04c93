#include "casework/beside_figures.h"

#include "casework/check_command.h"
#include "quantities/measure.h"
#include "readings/limit.h"

namespace dryout::casework {
namespace {

using quantities::Problem;
using quantities::Result;

constexpr std::size_t figures_max = 8;

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  return first == std::string_view::npos
             ? std::string_view()
             : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

Problem refusal(std::string message, std::string_view found) {
  return {std::move(message),
          {},
          '"' + quantities::excerpt(std::string(found)) + '"',
          "a source and a value each, as \"general-table 2.75; fresh-part 0.367\""};
}

}  // namespace

Result<std::vector<BesideFigure>> read_beside_figures(std::string_view line, ReadingKind kind) {
  std::vector<BesideFigure> figures;
  while (!trimmed(line).empty()) {
    const std::size_t end = line.find(';');
    const std::string_view one = trimmed(line.substr(0, end));
    line = end == std::string_view::npos ? std::string_view() : line.substr(end + 1);
    const std::size_t gap = one.find(' ');
    if (gap == std::string_view::npos) {
      return refusal("a figure to compare with lacks its source or its value", one);
    }
    const std::string_view source = one.substr(0, gap);
    if (!readings::limit_source_of(source)) {
      return refusal("unknown source of a figure to compare with", source);
    }
    const auto value = quantities::parse_measure(trimmed(one.substr(gap)), measure_of(kind));
    if (!value) {
      return value.problems();
    }
    if (figures.size() == figures_max) {
      return refusal("more than eight figures to compare with", one);
    }
    figures.push_back({std::string(source), *value});
  }
  return figures;
}

}  // namespace dryout::casework
