#include "casework/case_network.h"

#include <algorithm>
#include <utility>

#include "quantities/check.h"

namespace dryout::casework {

CaseFinding CaseNetwork::of(KnownFinding finding) const {
  CHECK(finding.value() < known_);
  return CaseFinding(finding.value());
}

KnownFinding CaseNetwork::known(CaseFinding finding) const {
  CHECK(finding.value() < network_.findings.size());
  return finding.value() < known_ ? KnownFinding(finding.value())
                                  : originals_[finding.value() - known_];
}

const diagnosis::Finding& CaseNetwork::at(CaseFinding finding) const {
  CHECK(finding.value() < network_.findings.size());
  return network_.findings[finding.value()];
}

std::optional<CaseFinding> CaseNetwork::find(std::string_view id) const {
  const auto& findings = network_.findings;
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&](const diagnosis::Finding& each) { return each.id == id; });
  if (found == findings.end()) {
    return {};
  }
  return CaseFinding(static_cast<std::size_t>(found - findings.begin()));
}

CaseFinding CaseNetwork::add_twin(KnownFinding of, diagnosis::Finding twin) {
  CHECK(of.value() < known_);
  CHECK(!find(twin.id));
  network_.findings.push_back(std::move(twin));
  originals_.push_back(of);
  return CaseFinding(network_.findings.size() - 1);
}

}  // namespace dryout::casework
