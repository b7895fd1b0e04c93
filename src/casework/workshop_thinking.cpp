// What a workshop makes of a case, whether it has read it from its store or was handed a copy.
#include "casework/plain_view.h"
#include "casework/weigh_mending.h"
#include "casework/workshop_inside.h"

namespace dryout::casework {
namespace {

using quantities::Problem;
using quantities::Result;

/// Where the evidence could not be weighed, nothing can be built on it.
Problem no_figures(const Reasoning& reasoning) {
  return {"there are no figures to go by: " + reasoning.refused,
          {},
          "",
          "fewer observations, or a step taken back"};
}

}  // namespace

Result<MendingView> Workshop::Inside::mending(std::int64_t number, double horizon_years) {
  return reasoned(number, [&](const CaseInHand& hand) -> Result<MendingView> {
    if (!hand.reasoning.refused.empty()) {
      return no_figures(hand.reasoning);
    }
    auto weighed = weigh_mending(hand, mending_knowledge, horizon_years);
    const std::string damage = words_for_damage(cases.at(number));
    if (weighed && !damage.empty()) {
      weighed->notices.push_back(damage);
    }
    return weighed;
  });
}

Result<PlanStep> Workshop::Inside::plan_ahead(std::int64_t number, int depth) {
  return reasoned(number, [&](const CaseInHand& hand) -> Result<PlanStep> {
    if (!hand.reasoning.refused.empty()) {
      return no_figures(hand.reasoning);
    }
    return casework::plan_ahead(hand.ground, hand.reasoning, depth);
  });
}

Result<WhatIfView> Workshop::Inside::what_if(std::int64_t number,
                                             const std::vector<Command>& commands) {
  const auto now = view(number);
  if (!now) {
    return now.problems();
  }
  Journal longer = cases.at(number).journal;
  for (const Command& command : commands) {
    const auto entry = apply_command(longer, command, clock(), grounds);
    if (!entry) {
      return entry.problems();
    }
    longer.push_back(*entry);
  }
  const auto then = view(number, longer);
  return then ? Result<WhatIfView>(compare(*now, *then)) : then.problems();
}

Result<std::unique_ptr<Workshop>> Workshop::beside_to_think() const {
  auto other = beside();
  if (other && inside_->history) {
    Inside& inside = *(*other)->inside_;
    inside.history = inside_->history;
    inside.grounds.learn_from(&*inside.history);
  }
  return other;
}

int Workshop::edition() const { return inside_->grounds.edition() + inside_->figures_edition; }

Result<std::unique_ptr<const CaseCopy>> Workshop::copy_of(std::int64_t number) const {
  const auto journal = inside_->refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  KnownCase& known = inside_->cases[number];
  known.parted = false;  // whoever shows the copy tells it
  auto copy = std::make_unique<const CaseCopy>(CaseCopy{number, known, inside_->words});
  known.told.clear();
  return copy;
}

Result<CaseView> Workshop::view(const CaseCopy& copy) const {
  inside_->take(copy);
  return inside_->shown(copy.number);
}

Result<MendingView> Workshop::mending(const CaseCopy& copy, double horizon_years) const {
  inside_->take(copy);
  return inside_->mending(copy.number, horizon_years);
}

Result<PlanStep> Workshop::plan_ahead(const CaseCopy& copy, int depth) const {
  inside_->take(copy);
  return inside_->plan_ahead(copy.number, depth);
}

Result<WhatIfView> Workshop::what_if(const CaseCopy& copy,
                                     const std::vector<Command>& commands) const {
  inside_->take(copy);
  return inside_->what_if(copy.number, commands);
}

Result<CaseView> Workshop::view_without_figures(const CaseCopy& copy,
                                                const std::string& why) const {
  inside_->take(copy);
  const KnownCase& known = inside_->cases.at(copy.number);
  const CaseState state = state_of(known.journal);
  const auto ground = inside_->grounds.of(state);
  CaseView view = ground ? build_view(copy.number, known.journal,
                                      {**ground, state, without_figures(**ground, state, why)})
                         : plain_view(copy.number, known, ground.problems());
  add_notices(known, inside_->words, view);
  return view;
}

}  // namespace dryout::casework
