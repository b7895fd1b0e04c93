// The members of each command, listed once: writing, reading and checking of texts all visit this
// list, so that they cannot drift apart. A visitor offers
//   required(key, text)           a text that may not be empty
//   optional(key, text or std::optional)   left out of the JSON where empty
//   always(key, value)            a number, flag or choice
#pragma once

#include "casework/command.h"

namespace dryout::casework {

template <class C, class T>
concept Is = std::same_as<std::remove_const_t<C>, T>;

template <class Visitor>
void visit_members(Is<TakeIn> auto& c, Visitor&& v) {
  v.optional("equipment", c.equipment);
  v.optional("set", c.set_name);
  v.optional("year_built", c.year_built);
  v.optional("owner", c.owner);
  v.optional("complaint", c.complaint);
}

template <class Visitor>
void visit_members(Is<ReportSymptom> auto& c, Visitor&& v) {
  v.required("symptom", c.symptom);
  v.always("seen", c.seen);
  v.optional("channel", c.where.channel);
  v.optional("band", c.where.band);
  v.optional("path", c.where.path);
  v.optional("source", c.where.source);
  v.optional("follows", c.where.follows);
  v.optional("rate", c.where.rate);
  v.optional("when", c.where.when);
}

template <class Visitor>
void visit_members(Is<RecordOutcome> auto& c, Visitor&& v) {
  v.required("check", c.check);
  v.optional("place", c.place);
  v.always("bad", c.bad);
  v.optional("remark", c.remark);
}

template <class Visitor>
void visit_members(Is<RecordReading> auto& c, Visitor&& v) {
  v.required("item", c.item);
  v.always("kind", c.kind);
  v.always("value", c.value);
  v.always("frequency_Hz", c.frequency);
  v.always("temperature_C", c.temperature);
  v.always("in_circuit", c.in_circuit);
  v.always("across", c.across);
  v.optional("limit", c.limit);
  v.optional("limit_source", c.limit_source);
  v.optional("lead_zero_ohm", c.lead_zero);
  v.optional("meter", c.meter);
  v.optional("remark", c.remark);
  v.optional("beside", c.beside);
  v.only_if("over_range", c.over_range);
  v.optional("test_V", c.test_volts);
}

template <class Visitor>
void visit_members(Is<NamePart> auto& c, Visitor&& v) {
  v.required("reference", c.reference);
  v.required("group", c.group);
  v.optional("capacitance_F", c.capacitance);
  v.optional("rated_V", c.rated);
  v.optional("technology", c.technology);
  v.optional("make", c.make);
  v.optional("body", c.body);
}

template <class C, class Visitor>
requires Is<C, AcknowledgeCautions> || Is<C, ReconsiderCheck>
void visit_members(C& c, Visitor&& v) {
  v.required("check", c.check);
  v.optional("place", c.place);
}

template <class Visitor>
void visit_members(Is<DeclineCheck> auto& c, Visitor&& v) {
  v.required("check", c.check);
  v.optional("place", c.place);
  v.optional("reason", c.reason);
}

template <class C, class Visitor>
requires Is<C, OpenAccess> || Is<C, CloseAccess>
void visit_members(C& c, Visitor&& v) { v.required("access", c.access); }

template <class Visitor>
void visit_members(Is<JudgeSuspect> auto& c, Visitor&& v) {
  v.required("item", c.item);
  v.always("verdict", c.verdict);
}

template <class Visitor>
void visit_members(Is<RecordRepair> auto& c, Visitor&& v) {
  v.required("item", c.item);
  v.required("action", c.action);
  v.optional("fitted", c.fitted);
}

template <class Visitor>
void visit_members(Is<RetestSymptom> auto& c, Visitor&& v) {
  v.required("symptom", c.symptom);
  v.always("still_there", c.still_there);
}

template <class Visitor>
void visit_members(Is<RecordProof> auto& c, Visitor&& v) {
  v.required("step", c.step);
  v.always("outcome", c.outcome);
  v.optional("remark", c.remark);
}

template <class Visitor>
void visit_members(Is<AddNote> auto& c, Visitor&& v) {
  v.required("text", c.text);
}

template <class Visitor>
void visit_members(Is<CloseCase> auto& c, Visitor&& v) {
  v.optional("cause", c.cause);
  v.optional("summary", c.summary);
}

template <class Visitor>
void visit_members(Is<ReopenCase> auto& c, Visitor&& v) {
  v.optional("reason", c.reason);
}

}  // namespace dryout::casework
