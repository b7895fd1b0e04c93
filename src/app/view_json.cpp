#include "app/view_json.h"

#include <cmath>

#include "app/json_list.h"

namespace dryout::app {
namespace {

using casework::CaseView;
using documents::Value;

/// An infinite weight (a probability of exactly 0 or 1) has no JSON number: it is null.
Value decibans(quantities::Decibans weight) {
  return std::isfinite(weight.value) ? Value(weight.value) : Value();
}

Value optional(const std::optional<int>& number) { return number ? Value(*number) : Value(); }
Value optional(const std::optional<double>& number) { return number ? Value(*number) : Value(); }

Value caution_json(const casework::CautionView& view) {
  return Value::object({{"id", view.id},
                        {"title", view.title},
                        {"wording", view.wording},
                        {"danger", view.danger},
                        {"read", view.read}});
}

Value block(const casework::BlockView& view) {
  return Value::object({{"id", view.id},
                        {"title", view.title},
                        {"kind", view.kind},
                        {"board", view.board},
                        {"probability", view.suspicion.value()},
                        {"signal_to", texts_json(view.signal_to)},
                        {"fed_by", texts_json(view.fed_by)},
                        {"makes", texts_json(view.makes)},
                        {"suspects", texts_json(view.items)}});
}

Value board(const casework::BoardView& view) {
  return Value::object({{"id", view.id},
                        {"title", view.title},
                        {"probability", view.suspicion.value()},
                        {"access_minutes", quantities::in_minutes(view.access_effort)},
                        {"opens", texts_json(view.opens_titles)}});
}

Value reading(const casework::ReadingView& view) {
  return Value::object({{"event", view.event},
                        {"item", view.item},
                        {"kind", view.kind},
                        {"value", view.value},
                        {"shown", view.shown},
                        {"limit", optional(view.limit)},
                        {"limit_source", view.limit_source},
                        {"verdict", view.verdict},
                        {"sentence", view.sentence},
                        {"caveats", texts_json(view.caveats)}});
}

Value leading(const casework::Leading& view) {
  return Value::object({{"sentence", view.sentence},
                        {"settled", view.settled},
                        {"capacitor", view.capacitor.value()},
                        {"other", view.other.value()},
                        {"unlisted", view.unlisted.value()}});
}

Value figures(const casework::Figures& view) {
  return Value::object({{"exact", view.draws == 0 && view.refused.empty()},
                        {"refused", view.refused},
                        {"draws", static_cast<double>(view.draws)},
                        {"set_aside", static_cast<double>(view.set_aside)},
                        {"within", view.within},
                        {"sentence", view.sentence}});
}

Value placed_json(const casework::SymptomView::Answer& answer) {
  Value where = Value::object();
  const auto set = [&where](const char* key, const std::string& word) {
    if (!word.empty()) where.set(key, word);
  };
  set("channel", answer.where.channel);
  set("band", answer.where.band);
  set("path", answer.where.path);
  set("source", answer.where.source);
  Value value = Value::object({{"seen", answer.seen}, {"where", std::move(where)}});
  const auto also = [&value](const char* key, const std::string& word) {
    if (!word.empty()) value.set(key, word);
  };
  also("follows", answer.where.follows);
  also("rate", answer.where.rate);
  also("when", answer.where.when);
  value.set("words", answer.words);
  return value;
}

Value symptom_json(const casework::SymptomView& symptom) {
  Value value =
      Value::object({{"id", symptom.id}, {"title", symptom.title}, {"seen", symptom.seen}});
  if (!symptom.placed.empty()) value.set("placed", list_json(symptom.placed, placed_json));
  return value;
}

Value case_head(const CaseView& view) {
  return Value::object({{"case", static_cast<double>(view.number)},
                        {"equipment", view.equipment},
                        {"set_name", view.set_name},
                        {"leading", leading(view.leading)},
                        {"notices", texts_json(view.notices)},
                        {"figures", figures(view.figures)},
                        {"contradiction", view.contradiction}});
}

}  // namespace

Value to_json(const casework::SuspectView& view) {
  return Value::object(
      {{"id", view.item},
       {"title", view.title},
       {"kind", view.kind},
       {"block", view.block},
       {"board", view.board},
       {"capacitor", view.capacitor},
       {"probability", view.suspicion.value()},
       {"before", view.before.value()},
       {"blame", view.blame.value()},
       {"convicted", view.convicted},
       {"decibans", decibans(view.weight)},
       {"judged", view.judged},
       {"states", list_json(view.states,
                            [](const casework::StateShare& share) {
                              return Value::object({{"state", share.state},
                                                    {"title", share.title},
                                                    {"probability", share.probability.value()}});
                            })},
       {"evidence", list_json(view.evidence,
                              [](const casework::EvidenceLine& line) {
                                return Value::object({{"event", line.event},
                                                      {"text", line.text},
                                                      {"decibans", decibans(line.weight)}});
                              })},
       {"paths", texts_json(view.paths)}});
}

Value to_json(const casework::CheckView& view) {
  return Value::object({{"check", view.check},
                        {"place", view.place},
                        {"title", view.title},
                        {"place_title", view.place_title},
                        {"state", view.state},
                        {"instrument", view.instrument},
                        {"probes", view.probes},
                        {"good", view.good},
                        {"bad", view.bad},
                        {"quantity", view.quantity},
                        {"gain_bits", view.gain_bits},
                        {"saves_minutes", quantities::in_minutes(view.saving)},
                        {"minutes", quantities::in_minutes(view.effort)},
                        {"access_minutes", quantities::in_minutes(view.access_effort)},
                        {"opens", texts_json(view.opens)},
                        {"looks_bad", view.looks_bad.value()},
                        {"cautions", list_json(view.cautions, caution_json)},
                        {"dangerous", view.dangerous},
                        {"acknowledged", view.acknowledged},
                        {"reminder", view.reminder},
                        {"reason", view.reason},
                        {"because", view.because},
                        {"source", view.source}});
}

Value to_json(const casework::MeasuringView& view) {
  return Value::object({{"item", view.item},
                        {"kinds", texts_json(view.kinds)},
                        {"cautions", list_json(view.cautions, caution_json)},
                        {"acknowledged", view.acknowledged},
                        {"reminder", view.reminder}});
}

Value to_json(const casework::PlanStep& step) {
  Value value = Value::object({{"reached", step.reached.value()},
                               {"suspect", step.suspect},
                               {"suspicion", step.suspicion.value()}});
  if (!step.leaf) {
    value.set("check", step.check);
    value.set("place", step.place);
    value.set("title", step.title);
    value.set("then", Value::object(
                          {{"bad", to_json(step.then.at(0))}, {"good", to_json(step.then.at(1))}}));
  }
  return value;
}

Value suspects_json(const CaseView& view) {
  Value document = case_head(view);
  document.set("boards", list_json(view.boards, board));
  document.set("suspects", list_json(view.suspects, [](const auto& s) { return to_json(s); }));
  return document;
}

Value next_json(const CaseView& view) {
  Value document = case_head(view);
  document.set("next", list_json(view.next, [](const auto& c) { return to_json(c); }));
  document.set("declined", list_json(view.declined, [](const auto& c) { return to_json(c); }));
  return document;
}

Value case_json(const CaseView& view) {
  Value document = suspects_json(view);
  document.set("owner", view.owner);
  document.set("complaint", view.complaint);
  document.set("year_built", optional(view.year_built));
  document.set("closed", view.closed);
  document.set("cause", view.cause);
  document.set("blocks", list_json(view.blocks, block));
  document.set("readings", list_json(view.readings, reading));
  document.set("symptoms", list_json(view.symptoms, [](const casework::SymptomView& symptom) {
                 return symptom_json(symptom);
               }));
  document.set("log", list_json(view.log, [](const casework::LogLine& line) {
                 return Value::object({{"event", line.event},
                                       {"when", line.when},
                                       {"text", line.text},
                                       {"undone", line.undone}});
               }));
  return document;
}

}  // namespace dryout::app
