#include "casework/case_facts.h"

namespace dryout::casework {
namespace {

void add(std::string& notes, const std::string& text) {
  if (!text.empty()) {
    notes += (notes.empty() ? "" : "\n") + text;
  }
}

}  // namespace

casestore::CaseFacts facts_of(const CaseState& state, const knowledge::KnowledgeBase& knowledge) {
  casestore::CaseFacts facts;
  facts.equipment = state.intake.equipment;
  facts.set_name = state.intake.set_name;
  facts.year_built = state.intake.year_built;
  facts.owner = state.intake.owner;
  facts.complaint = state.intake.complaint;
  facts.closed = state.closed.has_value();
  if (const auto* equipment = knowledge::find(knowledge.equipment, facts.equipment)) {
    add(facts.notes, equipment->title);
  }
  for (const auto& told : state.symptoms) {
    const auto* symptom = knowledge::find(knowledge.symptoms, told.what.symptom);
    if (told.what.seen == Seen::yes && symptom != nullptr) {
      add(facts.notes, symptom->title);
    }
  }
  for (const NamePart& part : state.parts) {
    add(facts.notes, part.reference + ' ' + part.make);
  }
  for (const auto& told : state.outcomes) {
    add(facts.notes, told.what.remark);
  }
  for (const auto& told : state.readings) {
    add(facts.notes, told.what.remark);
  }
  for (const auto& told : state.repairs) {
    add(facts.notes, told.what.item + ' ' + told.what.action + ' ' + told.what.fitted);
  }
  for (const auto& told : state.notes) {
    add(facts.notes, told.what.text);
  }
  if (state.closed) {
    facts.cause = state.closed->what.cause;
    add(facts.notes, facts.cause);
    add(facts.notes, state.closed->what.summary);
  }
  return facts;
}

}  // namespace dryout::casework
