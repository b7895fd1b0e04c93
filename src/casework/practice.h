// Practice: a set with hidden faults, probed and mended as a case of its own, with the minutes and
// the needless repairs counted; and the same set once more, played by the program's own advice, to
// see where an expert would have gone.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/drawn_set.h"
#include "casework/workshop.h"
#include "quantities/result.h"

namespace dryout::casework {

struct PracticeTally {
  quantities::Second spent;
  int checks = 0, dangerous_checks = 0;
  int mended = 0, needless = 0;  ///< needless: it was sound
  bool cured = false;            ///< nothing of the complaint is left
};

struct PracticeStep {
  std::string text;          ///< "Ripple on the +38 V rail: looked bad"
  quantities::Second spent;  ///< on this step
};

class Practice {
 public:
  /// Takes a drawn set into the workshop as a new case with its complaint reported. Use a workshop
  /// in memory where the case is not to be kept. The workshop must outlive the practice.
  [[nodiscard]] static quantities::Result<Practice> begin(Workshop& workshop,
                                                          const std::string& equipment,
                                                          std::uint64_t seed);

  [[nodiscard]] const CaseView& view() const { return view_; }
  [[nodiscard]] const PracticeTally& tally() const { return tally_; }
  [[nodiscard]] const std::vector<PracticeStep>& steps() const { return steps_; }
  /// What was wrong with the set when it came in.
  [[nodiscard]] const std::vector<std::string>& faults() const { return faults_; }

  /// Makes one of view().next; true where it looks bad. The face has shown its cautions.
  [[nodiscard]] quantities::Result<bool> check(const CheckView& check);
  /// Mends one of view().suspects and tries the set; true where the complaint is gone.
  [[nodiscard]] quantities::Result<bool> mend(const SuspectView& suspect);
  /// What the person does beside probing and mending: cautions heeded, checks set aside, notes.
  [[nodiscard]] quantities::Result<quantities::Done> note_down(const Command& command) {
    return apply({command});
  }

 private:
  Practice(Workshop& workshop, DrawnSet set) : workshop_(&workshop), set_(std::move(set)) {}
  [[nodiscard]] quantities::Result<quantities::Done> apply(const std::vector<Command>& commands);
  void note(std::string text, quantities::Second spent);

  Workshop* workshop_;
  DrawnSet set_;
  CaseView view_;
  PracticeTally tally_;
  std::vector<PracticeStep> steps_;
  std::vector<std::string> faults_;
};

/// One step on, as the program advises (CaseView::advice). False where nothing is left to do: the
/// complaint is gone, or what could still be done is not worth its time.
[[nodiscard]] quantities::Result<bool> advised_step(Practice& practice);

/// All such steps, one after the other.
[[nodiscard]] quantities::Result<quantities::Done> follow_advice(Practice& practice);

}  // namespace dryout::casework
