#include "app/mending_json.h"

#include <type_traits>

#include "app/json_list.h"

namespace dryout::app {
namespace {

using casework::MendingView;
using documents::Value;

Value row_json(const casework::OptionView& option);
Value row_json(const casework::HorizonPoint& point);
Value row_json(const casework::CohortSample& sample);
Value row_json(const casework::ProofStep& step);
Value row_json(const casework::BeforeAfter& pair);
Value row_json(const casework::Fitted& fitted);

/// Texts and numbers as they are, views by their row_json.
template <class List>
Value array_of(const List& list) {
  return list_json(list, [](const auto& each) -> Value {
    if constexpr (std::is_constructible_v<Value, decltype(each)>) {
      return each;
    } else {
      return row_json(each);
    }
  });
}

Value row_json(const casework::OptionView& option) {
  return Value::object({{"scope", option.scope},
                        {"title", option.title},
                        {"replaced", array_of(option.replaced)},
                        {"parts", option.parts},
                        {"cost_now", option.cost_now},
                        {"damage_cost", option.damage_cost},
                        {"come_back_cost", option.come_back_cost},
                        {"seep_cost", option.seep_cost},
                        {"unmended_cost", option.unmended_cost},
                        {"expected_cost", option.expected_cost},
                        {"spread", option.spread},
                        {"come_back", option.come_back.value()},
                        {"complaint_stays", option.complaint_stays.value()}});
}

Value row_json(const casework::HorizonPoint& point) {
  return Value::object(
      {{"years", point.years}, {"expected_costs", array_of(point.expected_costs)}});
}

Value row_json(const casework::CohortSample& sample) {
  return Value::object({{"cohort", sample.cohort},
                        {"title", sample.title},
                        {"items", array_of(sample.items)},
                        {"parts", sample.parts},
                        {"measured", sample.measured},
                        {"out_of_limit", sample.out_of_limit},
                        {"advice", sample.advice},
                        {"sentence", sample.sentence},
                        {"good_to_clear", sample.good_to_clear},
                        {"bad_to_recap", sample.bad_to_recap},
                        {"mean_if_sound", sample.mean_if_sound},
                        {"mean_if_gone", sample.mean_if_gone},
                        {"spent", sample.spent.value()},
                        {"gives_up", sample.gives_up.value()}});
}

Value row_json(const casework::ProofStep& step) {
  return Value::object({{"step", step.id},
                        {"title", step.title},
                        {"wording", step.wording},
                        {"because", step.because},
                        {"caution", step.caution},
                        {"danger", step.danger},
                        {"done", step.done},
                        {"failed", step.failed},
                        {"skipped", step.skipped},
                        {"remark", step.remark},
                        {"symptom", step.symptom}});
}

Value row_json(const casework::BeforeAfter& pair) {
  Value value = Value::object({{"item", pair.item},
                               {"title", pair.item_title},
                               {"kind", pair.kind},
                               {"before", pair.before},
                               {"after", pair.after},
                               {"before_shown", pair.before_shown},
                               {"after_shown", pair.after_shown},
                               {"limit_source", pair.limit_source}});
  if (pair.limit) {
    value.set("limit", *pair.limit);
  }
  return value;
}

Value row_json(const casework::Fitted& fitted) {
  return Value::object({{"item", fitted.item},
                        {"title", fitted.item_title},
                        {"action", fitted.action},
                        {"fitted", fitted.fitted}});
}

}  // namespace

Value to_json(const casework::ShoppingRow& row) {
  return Value::object({{"part", row.part},
                        {"needed", row.needed},
                        {"spares", row.spares},
                        {"for", array_of(row.for_parts)},
                        {"why", array_of(row.why)},
                        {"look_at", array_of(row.look_at)}});
}

Value to_json(const MendingView& mending) {
  return Value::object(
      {{"currency", mending.currency},
       {"horizon_years", mending.horizon_years},
       {"preventive", mending.preventive},
       {"settled", mending.settled},
       {"options", array_of(mending.options)},
       {"sentence", mending.sentence},
       {"dangers", array_of(mending.dangers)},
       {"reasons", array_of(mending.reasons)},
       {"flips", mending.flips},
       {"over_horizon", array_of(mending.over_horizon)},
       {"shopping", list_json(mending.shopping, [](const auto& row) { return to_json(row); })},
       {"proof", array_of(mending.proof)},
       {"compared", array_of(mending.compared)},
       {"fitted", array_of(mending.fitted)},
       {"left", array_of(mending.left)},
       {"sampling", array_of(mending.sampling)},
       {"sampling_rule", mending.sampling_rule},
       {"notices", array_of(mending.notices)}});
}

}  // namespace dryout::app
