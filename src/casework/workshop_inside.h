// What a workshop keeps, and the one way its journals are read and written. For workshop*.cpp
// alone.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "casestore/case_store.h"
#include "casework/apply_command.h"
#include "casework/build_view.h"
#include "casework/case_exchange.h"
#include "casework/journal.h"
#include "casework/known_case.h"
#include "casework/reasoning.h"
#include "casework/shop_history.h"
#include "casework/workshop.h"
#include "complaints/complaint_reader.h"

namespace dryout::casework {

struct CaseCopy {
  std::int64_t number = 0;
  KnownCase known;
  std::vector<std::string> words;
};

struct Workshop::Inside {
  Inside(casestore::CaseStore opened, std::string store_path, knowledge::KnowledgeBase loaded,
         readings::ReadingKnowledge limits, MendingKnowledge figures, Clock ticking)
      : store(std::move(opened)),
        path(std::move(store_path)),
        knowledge(std::move(loaded)),
        reading_knowledge(std::move(limits)),
        mending_knowledge(std::move(figures)),
        clock(std::move(ticking)),
        grounds(knowledge, reading_knowledge) {}

  /// Makes the next entry from the journal as it stands.
  using MakeEntry = std::function<quantities::Result<Entry>(const Journal&)>;

  /// After an edit; one that nobody asked for yet is left unmade.
  void renew_complaint_reader() {
    if (complaint_reader) {
      complaint_reader.emplace(knowledge, vocabulary);
    }
  }
  CaseExchange exchange() { return {store, path, knowledge, grounds}; }
  quantities::Result<quantities::Done> rebuild_facts();

  /// The store that lies where this one was opened, also where another file was put there since.
  quantities::Result<quantities::Done> find_store() {
    return casework::find_store(store, path, place);
  }
  /// The journal of a case with everything that anyone has written to it by now.
  quantities::Result<const Journal*> refreshed(std::int64_t number);
  /// Makes an entry and writes it. Where another writer was quicker the entry is made anew from the
  /// longer journal, or (`careful`) refused.
  quantities::Result<quantities::Done> append(std::int64_t number, const MakeEntry& make,
                                              bool careful);
  /// What was written, shown; or why it was not.
  quantities::Result<CaseView> show_written(std::int64_t number,
                                            const quantities::Result<quantities::Done>& written);
  /// The case as it is in the store, with a word on what became of it since it was last shown.
  quantities::Result<CaseView> show(std::int64_t number);
  /// The same as refreshed() last found it, or as a copy has it.
  quantities::Result<CaseView> shown(std::int64_t number);
  quantities::Result<CaseView> view(std::int64_t number);
  quantities::Result<MendingView> mending(std::int64_t number, double horizon_years);
  quantities::Result<PlanStep> plan_ahead(std::int64_t number, int depth);
  quantities::Result<WhatIfView> what_if(std::int64_t number, const std::vector<Command>& commands);
  /// Has this copy in place of what was known of the case.
  void take(const CaseCopy& copy);
  /// The case as it would be with this journal.
  quantities::Result<CaseView> view(std::int64_t number, const Journal& journal);
  /// What `use` makes of the case as refreshed() last found it.
  template <class Use>
  auto reasoned(std::int64_t number, Use use) -> decltype(use(std::declval<CaseInHand>()));
  const Reasoning& thought_of(std::int64_t number, const Ground& ground, const CaseState& state);

  casestore::CaseStore store;
  std::string path;
  knowledge::KnowledgeBase knowledge;
  readings::ReadingKnowledge reading_knowledge;
  MendingKnowledge mending_knowledge;
  complaints::Vocabulary vocabulary;
  std::optional<complaints::ComplaintReader> complaint_reader;  ///< made when first asked for
  Clock clock;
  GroundCache grounds;
  int figures_edition = 0;             ///< of the shop's figures
  std::optional<ShopHistory> history;  ///< while the figures may use it
  OwnFiles files;
  LookForEdits look_for_edits;
  std::map<std::int64_t, KnownCase> cases;  ///< as far as they have been read
  std::vector<std::string> words;           ///< left for every view
  StorePlace place;
  std::int64_t data_version = 0;  ///< of the store, when others_wrote() last looked

  /// What was made of one case, up to the step where it stands: its pages ask one after the other.
  struct Thought {
    std::int64_t number = 0;
    casestore::Seen seen;
    std::size_t sound_steps = 0;
    int edition = 0;  ///< of the grounds
    Reasoning reasoning;
  };
  std::optional<Thought> thought;  ///< the last one
};

template <class Use>
auto Workshop::Inside::reasoned(std::int64_t number, Use use)
    -> decltype(use(std::declval<CaseInHand>())) {
  const CaseState state = state_of(cases.at(number).journal);
  const auto ground = grounds.of(state);
  if (!ground) {
    return ground.problems();
  }
  return use({**ground, state, thought_of(number, **ground, state)});
}

}  // namespace dryout::casework
