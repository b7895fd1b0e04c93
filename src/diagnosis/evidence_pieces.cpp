#include <map>

#include "diagnosis/inference.h"

namespace dryout::diagnosis {

std::vector<std::string> piece_labels(const Network& network, const Evidence& evidence) {
  std::vector<std::string> labels;
  for (const std::size_t finding : evidence.present) {
    labels.push_back(network.findings[finding].id + " present");
  }
  for (const std::size_t finding : evidence.absent) {
    labels.push_back(network.findings[finding].id + " absent");
  }
  for (const SoftFinding& soft : evidence.soft) {
    labels.push_back(network.findings[soft.finding].id + " observed");
  }
  for (const ItemReading& reading : evidence.readings) {
    labels.push_back("reading of " + network.items[reading.item].id);
  }
  std::map<std::string, int> seen;
  for (std::string& label : labels) {
    const int count = ++seen[label];
    if (count > 1) {
      label += " (" + std::to_string(count) + ")";
    }
  }
  return labels;
}

Evidence selection(const Evidence& evidence, const std::vector<bool>& keep) {
  Evidence kept;
  std::size_t piece = 0;
  const auto select = [&keep, &piece](const auto& from, auto& to) {
    for (const auto& element : from) {
      if (keep[piece++]) {
        to.push_back(element);
      }
    }
  };
  select(evidence.present, kept.present);
  select(evidence.absent, kept.absent);
  select(evidence.soft, kept.soft);
  select(evidence.readings, kept.readings);
  return kept;
}

}  // namespace dryout::diagnosis
