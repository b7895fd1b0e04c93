// The fault network of one case: the one compiled from the knowledge, and behind its findings the
// twins that repairs make necessary. The items are the compiled ones, always.
//
// Two kinds of index count findings, and only this class makes one of the other: a KnownFinding
// belongs to what was compiled, a CaseFinding to this very network.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "diagnosis/compile_network.h"
#include "diagnosis/network.h"
#include "quantities/index.h"

namespace dryout::casework {

using diagnosis::KnownFinding;
using CaseFinding = quantities::Index<struct FindingsOfACase>;

class CaseNetwork {
 public:
  CaseNetwork() = default;  ///< of nothing
  explicit CaseNetwork(const diagnosis::CompiledNetwork& compiled)
      : network_(compiled.network), known_(compiled.network.findings.size()) {}

  /// For inference and planning: they work within one network and count in plain numbers, which
  /// are the values of CaseFinding.
  [[nodiscard]] const diagnosis::Network& plain() const { return network_; }

  /// The finding of the set as it came in.
  [[nodiscard]] CaseFinding of(KnownFinding finding) const;
  /// What this one is, or is a twin of.
  [[nodiscard]] KnownFinding known(CaseFinding finding) const;
  [[nodiscard]] const diagnosis::Finding& at(CaseFinding finding) const;
  [[nodiscard]] std::optional<CaseFinding> find(std::string_view id) const;

  /// Adds a finding that stands for a known one, with an id that no other has.
  CaseFinding add_twin(KnownFinding of, diagnosis::Finding twin);

 private:
  diagnosis::Network network_;
  std::size_t known_ = 0;                ///< compiled findings; the twins stand behind them
  std::vector<KnownFinding> originals_;  ///< [twin]
};

}  // namespace dryout::casework
