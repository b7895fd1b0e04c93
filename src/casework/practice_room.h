// A practice set on the bench of a face: the set answers for itself, everything done is counted,
// and once it is over the same set is played by the program's advice, step by step, and laid beside
// it. Cases of practice live in memory and go with the room.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "casework/practice.h"
#include "casework/workshop.h"
#include "quantities/result.h"

namespace dryout::casework {

/// One way through the set.
struct PracticeWay {
  PracticeTally tally;
  std::vector<PracticeStep> steps;
};

/// All that a face may read of a practice beside the case itself.
struct PracticeView {
  std::uint64_t seed = 0;
  std::string equipment, equipment_title;
  std::vector<std::string> complaint;  ///< what the owner tells
  PracticeWay yours;
  std::string word;  ///< what the last step showed, "" at first
  bool over = false, gave_up = false;
  // Told once it is over:
  std::vector<std::string> faults;  ///< what was wrong with the set when it came in
  PracticeWay expert;
  bool compared = false;                ///< the advice, too, has come to its end
  std::vector<std::string> comparison;  ///< the two ways held against each other, in sentences
};

class PracticeRoom {
 public:
  /// Draws a set of that equipment; the same seed draws the same set.
  [[nodiscard]] static quantities::Result<std::unique_ptr<PracticeRoom>> open(
      const Workshop& like, const std::string& equipment, std::uint64_t seed);

  /// For open() alone: a practice begun in that workshop.
  PracticeRoom(std::unique_ptr<Workshop> workshop, Practice yours)
      : workshop_(std::move(workshop)), yours_(std::move(yours)) {}

  /// The case as the novice may see it: checks stand in the order of their titles, not of their
  /// worth, for choosing is what is to be learned.
  [[nodiscard]] CaseView view() const;
  [[nodiscard]] const PracticeView& told() const { return told_; }
  /// The check we would make now; null where none would pay.
  [[nodiscard]] const CheckView* hint() const;
  [[nodiscard]] Workshop& workshop() { return *workshop_; }

  /// RecordOutcome makes the check, and the set answers, whatever outcome the command names;
  /// RecordRepair mends and tries the set. Notes, cautions, judgements and checks set aside are
  /// taken; what a set in practice tells or counts by itself is refused.
  [[nodiscard]] quantities::Result<quantities::Done> apply(const Command& command);
  [[nodiscard]] quantities::Result<quantities::Done> give_up();
  /// Once it is over: one step of the advice on the same set, for a whole way can take long. The
  /// last one holds the two ways against each other.
  [[nodiscard]] quantities::Result<quantities::Done> advise();

 private:
  [[nodiscard]] quantities::Result<quantities::Done> probe(const RecordOutcome& wish);
  [[nodiscard]] quantities::Result<quantities::Done> mend(const RecordRepair& wish);
  [[nodiscard]] quantities::Result<quantities::Done> finish();
  void tell();

  std::unique_ptr<Workshop> workshop_;
  Practice yours_;
  std::optional<Practice> expert_;
  PracticeView told_;
};

}  // namespace dryout::casework
