// The door through which faces reach the cases: opens the store, knows the knowledge, applies
// commands, shows views. Everything changes here or nowhere.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "casework/case_view.h"
#include "casework/command.h"
#include "casework/plan_ahead.h"
#include "knowledge/knowledge_base.h"
#include "planning/simulation.h"
#include "quantities/result.h"
#include "readings/assess_reading.h"

namespace dryout::casework {

/// Seconds since the epoch; a parameter, so that replay is exact.
using Clock = std::function<std::int64_t()>;

/// In place of a store path: cases live in memory and go with the workshop.
inline constexpr std::string_view in_memory = ":memory:";

struct CaseSummary {
  std::int64_t number = 0;
  std::string set_name, equipment_title, complaint;
  std::string opened;  ///< local time, "2026-03-04 10:22"
  std::string state;   ///< open, closed
  std::string owner, changed;
  std::string cause;  ///< item id of a closed case, or ""
};

class Workshop {
 public:
  /// Opens (or makes) the case store and takes the loaded knowledge. Without `readings` (limits of
  /// data sheets, caveats) a reading is held only against the limit typed with it.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Workshop>> open(
      const std::string& store_path, knowledge::KnowledgeBase knowledge, Clock clock,
      readings::ReadingKnowledge readings = {});
  struct Inside;
  explicit Workshop(std::unique_ptr<Inside> inside);  ///< for open() alone: Inside is its secret
  ~Workshop();

  [[nodiscard]] const knowledge::KnowledgeBase& knowledge() const;
  /// Last changed first.
  [[nodiscard]] quantities::Result<std::vector<CaseSummary>> cases() const;
  /// Cases in which every word begins a word of set, owner, complaint, parts, notes, repairs.
  [[nodiscard]] quantities::Result<std::vector<CaseSummary>> search(const std::string& words) const;

  /// A new case; its number. Written before this returns.
  [[nodiscard]] quantities::Result<std::int64_t> start(const TakeIn& intake);
  /// Applies one command, writes it, and shows the case as it then is. A refused command changes
  /// nothing. What another program wrote in the meantime is read first.
  [[nodiscard]] quantities::Result<CaseView> apply(std::int64_t number, const Command& command);
  /// Takes the newest step back, or brings back the one taken back last. Refused, with the case
  /// read anew, if another program has changed it since this one last looked.
  [[nodiscard]] quantities::Result<CaseView> undo(std::int64_t number);
  [[nodiscard]] quantities::Result<CaseView> redo(std::int64_t number);
  /// Takes back any one step of the log (LogLine::event). Refused where a later step rests on it.
  [[nodiscard]] quantities::Result<CaseView> take_back(std::int64_t number, int event);
  [[nodiscard]] quantities::Result<CaseView> view(std::int64_t number) const;

  /// The contingency tree from where the case stands, `depth` checks deep (1 to 6).
  [[nodiscard]] quantities::Result<PlanStep> plan_ahead(std::int64_t number, int depth) const;

  /// Hidden faults of one kind of equipment against a way of working (planning/simulation.h).
  [[nodiscard]] quantities::Result<planning::SimulationReport> simulate(
      const std::string& equipment, planning::Habit habit,
      const planning::SimulationSettings& settings) const;

  /// One JSON text with everything in the journal; reading it back gives the same case.
  [[nodiscard]] quantities::Result<std::string> export_case(std::int64_t number) const;
  [[nodiscard]] quantities::Result<std::int64_t> import_case(const std::string& text,
                                                             const std::string& file);

  /// A consistent copy of the whole store in one new file.
  [[nodiscard]] quantities::Result<quantities::Done> backup(const std::string& destination) const;
  /// Reads every page of the store; the problems found, or Done.
  [[nodiscard]] quantities::Result<quantities::Done> check_integrity() const;

 private:
  std::unique_ptr<Inside> inside_;
};

}  // namespace dryout::casework
