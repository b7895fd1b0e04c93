// The evidence of a case on its fault network.
//
// The network is that of the set as it came in. Once something has been mended, what is seen speaks
// of what is left: such evidence goes to a twin of the finding, without the causes that were
// mended. So a symptom that is gone after the repair speaks against everything else, and one that
// stayed speaks for it, and neither contradicts what was seen before. What follows from the rest is
// left out: a symptom that is still there after ten repairs is one piece of evidence, not eleven.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "casework/case_ground.h"
#include "casework/case_network.h"
#include "casework/case_state.h"
#include "casework/reading_evidence.h"
#include "diagnosis/network.h"

namespace dryout::casework {

struct Piece {
  int event = 0;
  std::string text;  ///< "Hum with the volume down: reported"
};

struct CaseEvidence {
  CaseNetwork network;
  diagnosis::Evidence evidence;  ///< in the values of the network's CaseFinding
  /// One for each part of `evidence`, in its order: present, absent, readings.
  std::vector<Piece> present, absent, readings;
  std::vector<CaseFinding> symptoms_present;  ///< findings of reported symptoms
  /// Those of them that no repair has done away with; where some were tried again since the newest
  /// repair and are still there, those alone.
  std::vector<CaseFinding> symptoms_left;
  std::vector<std::size_t> mended;  ///< items, in the order of repair
  int last_repair = 0;              ///< step of the newest repair; 0 before the first
  /// Parallel to CaseState::readings; nothing for what the network does not know.
  std::vector<WeighedReading> weighed;
  std::vector<std::string> notices;  ///< what was told and can't be used, in words

  [[nodiscard]] std::vector<Piece> pieces() const;
  /// evidence.present, as what it is.
  [[nodiscard]] std::vector<CaseFinding> findings_present() const;
  /// The finding a check made now would look for: its twin, where there is one.
  [[nodiscard]] CaseFinding now(KnownFinding finding) const;
};

[[nodiscard]] CaseEvidence evidence_of(const Ground& ground, const CaseState& state);

/// The finding a check made now would look for; a twin is added where something that it sees has
/// been mended.
[[nodiscard]] CaseFinding add_finding_now(CaseEvidence& evidence, KnownFinding finding);

/// Takes the given pieces (indices into pieces()) out of the evidence.
void remove_pieces(CaseEvidence& evidence, const std::vector<std::size_t>& pieces);

/// "Ripple, +38 V rail", "Hum with the volume down".
[[nodiscard]] std::string title_of_finding(const Ground& ground, KnownFinding finding);

}  // namespace dryout::casework
