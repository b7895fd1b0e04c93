// What an import came to, counted and in words.
#include <utility>

#include "casework/case_exchange.h"

namespace dryout::casework {

std::string_view word_of(Arrival arrival) {
  switch (arrival) {
    case Arrival::added:
      return "added";
    case Arrival::known:
      return "known";
    case Arrival::extended:
      return "extended";
    case Arrival::merged:
      return "merged";
    case Arrival::kept_both:
      break;
  }
  return "kept-both";
}

void ImportReport::add(ArrivedCase arrived) {
  constexpr std::size_t told_most = 10'000;
  ++counts.at(static_cast<std::size_t>(arrived.arrival));
  unchained += arrived.chained ? 0 : 1;
  if (cases.size() < told_most) {
    cases.push_back(std::move(arrived));
  }
}

std::string told_of_chains(const ImportReport& report) {
  if (report.unchained == 0) {
    return {};
  }
  const bool one = report.unchained == 1;
  return (one ? "One case" : std::to_string(report.unchained) + " cases") +
         " came without a chain, as from earlier versions: whether the steps are as they were "
         "written cannot be told.";
}

std::string told(const ImportReport& report) {
  const std::string chains = told_of_chains(report);
  const std::string behind = chains.empty() ? "" : ' ' + chains;
  if (report.cases.size() == 1) {
    return report.cases.front().sentence + '.' + behind;
  }
  std::string words;
  for (const auto& kind :
       {std::pair{Arrival::added, " new"}, std::pair{Arrival::extended, " gone on elsewhere"},
        std::pair{Arrival::merged, " brought together"}, std::pair{Arrival::known, " here already"},
        std::pair{Arrival::kept_both, " in conflict and both kept"}}) {
    const std::size_t count = report.counts.at(static_cast<std::size_t>(kind.first));
    if (count > 0) {
      words += (words.empty() ? "" : ", ") + std::to_string(count) + kind.second;
    }
  }
  return (words.empty() ? "No case." : words + '.') + behind;
}

}  // namespace dryout::casework
