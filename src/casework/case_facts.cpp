#include "casework/case_facts.h"

#include "casework/apply_command.h"
#include "casework/case_statistics.h"
#include "casework/journal.h"
#include "casework/subject.h"

namespace dryout::casework {
namespace {

void add(std::string& lines, const std::string& text) {
  if (!text.empty()) {
    lines += (lines.empty() ? "" : "\n") + text;
  }
}

void add_symptoms(casestore::CaseFacts& facts, const CaseState& state,
                  const knowledge::KnowledgeBase& knowledge) {
  for (const auto& told : state.symptoms) {
    const auto* symptom = knowledge::find(knowledge.symptoms, told.what.symptom);
    if (told.what.seen == Seen::yes && symptom != nullptr) {
      add(facts.symptoms, symptom->title + ' ' + symptom->id);
    }
  }
}

void add_parts(casestore::CaseFacts& facts, const CaseState& state, const Subjects& subjects) {
  for (const NamePart& part : state.parts) {
    add(facts.parts, part.reference + ' ' + part.make);
  }
  for (const auto& told : state.readings) {
    add(facts.parts, subjects.title_of_item(told.what.item));
  }
  for (const auto& told : state.repairs) {
    add(facts.parts, subjects.title_of_item(told.what.item) + ' ' + told.what.fitted);
  }
}

void add_notes(casestore::CaseFacts& facts, const CaseState& state) {
  for (const auto& told : state.outcomes) {
    add(facts.notes, told.what.remark);
  }
  for (const auto& told : state.readings) {
    add(facts.notes, told.what.remark);
  }
  for (const auto& told : state.repairs) {
    add(facts.notes, told.what.action);
  }
  for (const auto& told : state.notes) {
    add(facts.notes, told.what.text);
  }
}

}  // namespace

casestore::CaseFacts facts_of(const CaseState& state, const knowledge::KnowledgeBase& knowledge) {
  const Subjects subjects(knowledge, state);
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
  add_symptoms(facts, state, knowledge);
  add_parts(facts, state, subjects);
  add_notes(facts, state);
  if (state.closed) {
    facts.cause = state.closed->what.cause;
    add(facts.causes, facts.cause);
    if (!facts.cause.empty()) {
      add(facts.causes, subjects.title_of_item(facts.cause));
      add(facts.causes, subjects.title_of(subjects.of_item(facts.cause)));
    }
    add(facts.notes, state.closed->what.summary);
  }
  facts.statistics = statistics_of(state, knowledge);
  return facts;
}

std::optional<casestore::CaseFacts> facts_of_events(const std::vector<casestore::EventRow>& events,
                                                    const knowledge::KnowledgeBase& knowledge) {
  const auto journal = journal_of(events, "");
  if (!journal || journal->empty()) {
    return std::nullopt;
  }
  return facts_of(state_of(*journal), knowledge);
}

}  // namespace dryout::casework
