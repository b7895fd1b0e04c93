// The door through which faces reach the cases: opens the store, knows the knowledge, applies
// commands, shows views. Everything changes here or nowhere.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "casework/case_exchange.h"
#include "casework/case_view.h"
#include "casework/catalogue.h"
#include "casework/command.h"
#include "casework/drawn_set.h"
#include "casework/mending_knowledge.h"
#include "casework/mending_view.h"
#include "casework/own_files.h"
#include "casework/own_set.h"
#include "casework/plan_ahead.h"
#include "casework/what_if.h"
#include "complaints/vocabulary.h"
#include "knowledge/knowledge_base.h"
#include "planning/simulation.h"
#include "quantities/result.h"
#include "readings/assess_reading.h"

namespace dryout::casework {

/// Seconds since the epoch; a parameter, so that replay is exact.
using Clock = std::function<std::int64_t()>;

/// In place of a store path: cases live in memory and go with the workshop.
inline constexpr std::string_view in_memory = ":memory:";

/// All that a workshop reasons with.
struct LoadedKnowledge {
  knowledge::KnowledgeBase base;
  readings::ReadingKnowledge readings;
  MendingKnowledge mending;
  complaints::Vocabulary vocabulary = {};
};
/// The knowledge read anew where it was edited since it was last looked at; nothing where not.
using LookForEdits = std::function<std::optional<quantities::Result<LoadedKnowledge>>()>;

struct CaseSummary {
  std::int64_t number = 0;
  std::string set_name, equipment_title, complaint;
  std::string opened;  ///< local time, "2026-03-04 10:22"
  std::string state;   ///< open, closed
  std::string owner, changed;
  std::string cause;  ///< item id of a closed case, or ""
};

class ShopMemory;
/// A case as a workshop has it, by value: for one beside it, which may be another thread's.
struct CaseCopy;

/// Whether this refusal passes by itself: another program holds the store just now.
[[nodiscard]] bool store_is_in_use(const quantities::Problems& problems);

class Workshop {
 public:
  /// Opens (or makes) the case store and takes the loaded knowledge. Without `readings` (limits of
  /// data sheets, caveats) a reading is held only against the limit typed with it; without
  /// `mending` (the shop's figures, rules of substitution) nothing of it can be weighed.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Workshop>> open(
      const std::string& store_path, knowledge::KnowledgeBase knowledge, Clock clock,
      readings::ReadingKnowledge readings = {}, MendingKnowledge mending = {});
  struct Inside;
  explicit Workshop(std::unique_ptr<Inside> inside);  ///< for open() alone: Inside is its secret
  ~Workshop();

  [[nodiscard]] const knowledge::KnowledgeBase& knowledge() const;

  /// How edits of the knowledge are noticed while the workshop is open. Until then none are.
  void watch_knowledge(LookForEdits look);
  /// Takes an edit up where there is one; whether there was. A broken edit is refused whole, file
  /// and line first: the last good knowledge stays in use.
  [[nodiscard]] quantities::Result<bool> take_up_edits();

  /// The words of complaints. Until then an owner is understood by the words of the symptoms alone.
  void know_words(complaints::Vocabulary vocabulary);
  /// Good, at this address, for as long as the workshop.
  [[nodiscard]] const complaints::ComplaintReader& complaint_reader() const;

  /// How the technician's own files are reached. Until then whatever needs them is refused.
  void give_files(OwnFiles files);
  [[nodiscard]] const OwnFiles& files() const;
  /// Reads the parts list, keeps the equipment made of it in the own folder, and knows it from then
  /// on. Refused input changes nothing.
  [[nodiscard]] quantities::Result<OwnSet> keep_own_set(const OwnSetWish& wish);
  /// The same without writing anything: what would come of it.
  [[nodiscard]] quantities::Result<OwnSet> look_at_own_set(const OwnSetWish& wish) const;

  /// What can be picked and looked up, as of now.
  [[nodiscard]] Catalogue catalogue() const;

  /// Last changed first; `most` of them, or all where it is 0.
  [[nodiscard]] quantities::Result<std::vector<CaseSummary>> cases(int most = 0) const;
  /// The 200 best cases in which every word begins a word of set, owner, complaint, symptoms,
  /// parts, causes, notes, repairs.
  [[nodiscard]] quantities::Result<std::vector<CaseSummary>> search(const std::string& words) const;

  /// A new case; its number. Written before this returns.
  [[nodiscard]] quantities::Result<std::int64_t> start(const TakeIn& intake);
  /// Applies one command, writes it, and shows the case as it then is. A refused command changes
  /// nothing. What another program wrote in the meantime is read first.
  [[nodiscard]] quantities::Result<CaseView> apply(std::int64_t number, const Command& command);
  /// The same without the showing, which may take long: what is written is written.
  [[nodiscard]] quantities::Result<quantities::Done> enter(std::int64_t number,
                                                           const Command& command);
  [[nodiscard]] quantities::Result<quantities::Done> enter_undo(std::int64_t number);
  [[nodiscard]] quantities::Result<quantities::Done> enter_redo(std::int64_t number);
  [[nodiscard]] quantities::Result<quantities::Done> enter_take_back(std::int64_t number,
                                                                     int event);
  /// Several in a row, and only then the case is thought about anew. Up to the first that is
  /// refused they are written.
  [[nodiscard]] quantities::Result<CaseView> apply_all(std::int64_t number,
                                                       const std::vector<Command>& commands);
  /// Takes the newest step back, or brings back the one taken back last. Refused, with the case
  /// read anew, if another program has changed it since this one last looked.
  [[nodiscard]] quantities::Result<CaseView> undo(std::int64_t number);
  [[nodiscard]] quantities::Result<CaseView> redo(std::int64_t number);
  /// Takes back any one step of the log (LogLine::event). Refused where a later step rests on it.
  [[nodiscard]] quantities::Result<CaseView> take_back(std::int64_t number, int event);
  [[nodiscard]] quantities::Result<CaseView> view(std::int64_t number) const;
  /// Which steps of a case are damaged or missing, in one sentence; "" = none. A view has it among
  /// its notices.
  [[nodiscard]] quantities::Result<std::string> damage(std::int64_t number) const;

  /// What these words heed, before they are said: the cautions in full where they are new, and
  /// whether all of it was heeded before. Refused where they name neither a check nor a part.
  [[nodiscard]] quantities::Result<MeasuringView> cautions_at(
      std::int64_t number, const AcknowledgeCautions& heeding) const;

  /// The contingency tree from where the case stands, `depth` checks deep (1 to 6).
  [[nodiscard]] quantities::Result<PlanStep> plan_ahead(std::int64_t number, int depth) const;

  /// Repair or recap, what to buy, how to prove it, for a horizon of 0.1 to 30 years.
  [[nodiscard]] quantities::Result<MendingView> mending(std::int64_t number,
                                                        double horizon_years) const;

  /// The shop's figures with their ranges; none where there are none. `shipped`: as they would be
  /// without the shop's own.
  struct ShopFigures {
    std::vector<decision::ShopFigure> now, shipped;
  };
  [[nodiscard]] ShopFigures shop_figures() const;
  /// Sets one figure in the shop's own file, or (nothing) takes it back to what is shipped, and
  /// goes by it from then on. Refused input changes nothing.
  [[nodiscard]] quantities::Result<quantities::Done> set_shop_figure(const std::string& key,
                                                                     std::optional<double> value);

  /// Hidden faults of one kind of equipment against a way of working (planning/simulation.h).
  [[nodiscard]] quantities::Result<planning::SimulationReport> simulate(
      const std::string& equipment, planning::Habit habit,
      const planning::SimulationSettings& settings) const;

  /// What would change if these were done, without doing them (what_if.h).
  [[nodiscard]] quantities::Result<WhatIfView> what_if(std::int64_t number,
                                                       const std::vector<Command>& commands) const;

  /// Another workshop with the same knowledge, its cases in memory: for play.
  [[nodiscard]] quantities::Result<std::unique_ptr<Workshop>> beside() const;

  /// The same with the shop's history, if figures use it: to think about copies of cases, here or
  /// on one other thread. It knows as much as this one as long as edition() is the same.
  [[nodiscard]] quantities::Result<std::unique_ptr<Workshop>> beside_to_think() const;
  /// Moves on whenever what is reasoned with may have changed.
  [[nodiscard]] int edition() const;
  /// The case as it is in the store, to be thought about by a workshop beside.
  [[nodiscard]] quantities::Result<std::unique_ptr<const CaseCopy>> copy_of(
      std::int64_t number) const;
  /// What the workshop it was copied from would say.
  [[nodiscard]] quantities::Result<CaseView> view(const CaseCopy& copy) const;
  [[nodiscard]] quantities::Result<MendingView> mending(const CaseCopy& copy,
                                                        double horizon_years) const;
  [[nodiscard]] quantities::Result<PlanStep> plan_ahead(const CaseCopy& copy, int depth) const;
  [[nodiscard]] quantities::Result<WhatIfView> what_if(const CaseCopy& copy,
                                                       const std::vector<Command>& commands) const;
  /// The case without figures, and why there are none.
  [[nodiscard]] quantities::Result<CaseView> view_without_figures(const CaseCopy& copy,
                                                                  const std::string& why) const;

  /// A set of one kind of equipment with hidden faults, for practice (practice.h).
  [[nodiscard]] quantities::Result<DrawnSet> draw_set(const std::string& equipment,
                                                      std::uint64_t seed) const;
  /// What all cases together say (shop_memory.h). Good for as long as the workshop.
  [[nodiscard]] ShopMemory shop() const;
  /// Lets closed cases into the figures, or keeps them out (shop_history.h): off until the
  /// technician says otherwise. The history is read in this moment.
  [[nodiscard]] quantities::Result<quantities::Done> use_shop_history(bool on);

  /// One JSON text with everything in the journal; reading it back gives the same case. Damaged
  /// steps are left out and put on that list; without one they are a problem.
  [[nodiscard]] quantities::Result<std::string> export_case(std::int64_t number,
                                                            LeftOut* left_out = nullptr) const;
  /// Case by case (CaseExchange::each_text), and back from a file of many (take_in_file).
  [[nodiscard]] quantities::Result<quantities::Done> export_each(
      const CaseExchange::VisitText& visit, LeftOut* left_out = nullptr) const;
  [[nodiscard]] quantities::Result<ImportReport> import_many(const std::string& path);
  /// All cases in one text.
  [[nodiscard]] quantities::Result<std::string> export_all(LeftOut* left_out = nullptr) const;
  /// The store is not this user's to write: every change is refused.
  [[nodiscard]] bool reads_only() const;
  /// How long a step waits for another program that writes to the store, before it is refused. A
  /// window waits by itself, and goes on drawing.
  void wait_for_store_at_most(std::chrono::milliseconds longest);
  /// Whether another program has written to the store since this was last asked.
  [[nodiscard]] bool others_wrote();
  /// A sentence that stands among the notices of every case from now on.
  void leave_word(const std::string& word);
  /// Whose store this is, in the names of exported files: 8 hexadecimal digits.
  [[nodiscard]] quantities::Result<std::string> bench() const;
  /// Takes a text of one case or many in, without making doubles (case_exchange.h).
  [[nodiscard]] quantities::Result<ImportReport> import_cases(const std::string& text,
                                                              const std::string& file);
  /// The same from a file, by the way the technician's own files are read.
  [[nodiscard]] quantities::Result<ImportReport> import_file(const std::string& path);
  /// The same for a text of one case; its number here.
  [[nodiscard]] quantities::Result<std::int64_t> import_case(const std::string& text,
                                                             const std::string& file);

  /// A consistent copy of the whole store in one new file.
  [[nodiscard]] quantities::Result<quantities::Done> backup(const std::string& destination) const;
  /// Reads every page of the store; the problems found, or Done.
  [[nodiscard]] quantities::Result<quantities::Done> check_integrity() const;
  /// Works out anew, from every journal, what lists, searches and statistics go by.
  [[nodiscard]] quantities::Result<quantities::Done> rebuild_facts();
  /// Puts a backup in the place of a store that no workshop has open; what was there is kept beside
  /// it. Its name, "" where nothing was there.
  [[nodiscard]] static quantities::Result<std::string> restore(const std::string& backup,
                                                               const std::string& store_path);

 private:
  std::unique_ptr<Inside> inside_;
};

}  // namespace dryout::casework
