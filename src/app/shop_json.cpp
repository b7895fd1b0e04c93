#include "app/shop_json.h"

#include "app/json_list.h"

namespace dryout::app {
namespace {

using documents::Value;

Value count(std::int64_t number) { return {static_cast<double>(number)}; }

Value share_json(const casework::CauseShareView& cause) {
  return Value::object({{"subject", cause.subject},
                        {"title", cause.title},
                        {"cases", count(cause.cases)},
                        {"share", cause.share.value()},
                        {"least", cause.least.value()},
                        {"most", cause.most.value()}});
}

}  // namespace

Value to_json(const casework::ShopSearchView& view) {
  const auto one = [](const casework::CaseSummary& each) {
    return Value::object({{"case", count(each.number)},
                          {"set_name", each.set_name},
                          {"equipment", each.equipment_title},
                          {"complaint", each.complaint},
                          {"opened", each.opened},
                          {"state", each.state},
                          {"cause", each.cause}});
  };
  return Value::object({{"cases", list_json(view.cases, one)}, {"more", view.more}});
}

Value to_json(const std::vector<casework::CausesView>& views) {
  const auto one = [](const casework::CausesView& view) {
    return Value::object({{"family", view.family},
                          {"title", view.title},
                          {"closed", count(view.closed)},
                          {"without_cause", count(view.without_cause)},
                          {"causes", list_json(view.causes, share_json)}});
  };
  return Value::object({{"families", list_json(views, one)}});
}

Value to_json(const casework::ReadingsView& view) {
  const auto one = [](const casework::AgeReadings& age) {
    return Value::object({{"age", age.age},
                          {"standing", age.standing},
                          {"readings", count(age.readings)},
                          {"p10", age.p10},
                          {"p25", age.p25},
                          {"p50", age.p50},
                          {"p75", age.p75},
                          {"p90", age.p90},
                          {"shown", age.shown}});
  };
  return Value::object(
      {{"title", view.title}, {"kind", view.kind}, {"ages", list_json(view.ages, one)}});
}

Value to_json(const casework::LastTimeView& view) {
  const auto one = [](const casework::LastTimeCase& each) {
    return Value::object({{"case", count(each.number)},
                          {"set_name", each.set_name},
                          {"equipment", each.equipment_title},
                          {"opened", each.opened},
                          {"complaint", each.complaint},
                          {"symptoms", texts_json(each.symptoms)},
                          {"cause", each.cause},
                          {"summary", each.summary},
                          {"repairs", texts_json(each.repairs)},
                          {"minutes_at_bench", quantities::in_minutes(each.at_bench)}});
  };
  return Value::object({{"asked", view.asked},
                        {"cases", list_json(view.cases, one)},
                        {"more", view.more},
                        {"causes", list_json(view.causes, share_json)}});
}

Value to_json(const casework::LearnedView& view) {
  const auto cause = [](const casework::LearnedCauseView& each) {
    return Value::object({{"subject", each.share.subject},
                          {"title", each.title},
                          {"share_before", each.share.before},
                          {"prior_count", each.share.prior_count},
                          {"cases", count(each.share.cases)},
                          {"counted", each.share.counted},
                          {"share_after", each.share.after},
                          {"odds_factor", each.share.factor}});
  };
  const auto type = [](const casework::LearnedTypicalView& each) {
    return Value::object({{"title", each.title},
                          {"readings", count(each.readings)},
                          {"counted", each.counted},
                          {"known_to_library", each.known_to_library},
                          {"before", each.before},
                          {"after", each.after},
                          {"spread_before", each.spread_before},
                          {"spread_after", each.spread_after}});
  };
  return Value::object({{"in_the_figures", view.on},
                        {"equipment", view.equipment_title},
                        {"family", view.family},
                        {"causes", list_json(view.causes, cause)},
                        {"typical", list_json(view.typical, type)},
                        {"bound", view.bound}});
}

}  // namespace dryout::app
