// The answer of `dryout reading` as JSON. Infinite or unknown figures are null.
#include "readings/assess_reading.h"

namespace dryout::readings {

using documents::Value;

namespace {

Value or_null(const std::optional<double>& number) { return number ? Value(*number) : Value(); }

Value numbers(const std::vector<double>& values) {
  Value list = Value::array();
  for (const double value : values) {
    list.append(value);
  }
  return list;
}

Value by_state(const std::vector<std::string>& states, const std::vector<double>& shares) {
  Value json = Value::object();
  for (std::size_t s = 0; s < states.size(); ++s) {
    json.set(states[s], shares[s]);
  }
  return json;
}

Value limit_json(const Limit& limit, const BelievedLimit& believed) {
  return Value::object({{"value", limit.value},
                        {"kind", word_of(limit.kind)},
                        {"source", rung_of(limit.source).word},
                        {"document", limit.document},
                        {"frequency_Hz", limit.frequency.si()},
                        {"temperature_C", limit.temperature.degrees()},
                        {"own_limit_median", believed.median},
                        {"own_limit_log_spread", believed.log_spread}});
}

Value cohort_json(const CohortAssessment& cohort, const std::vector<std::string>& states) {
  Value brothers = Value::array();
  for (const Brother& brother : cohort.brothers) {
    brothers.append(Value::object({{"value", brother.value},
                                   {"states", by_state(states, brother.posterior)},
                                   {"times_median", brother.times_median},
                                   {"outlier", brother.outlier},
                                   {"weight_on_first_dB", brother.weight_on_first}}));
  }
  return Value::object({{"brothers", std::move(brothers)},
                        {"levels", numbers(cohort.levels)},
                        {"typical_factor", cohort.typical_factor},
                        {"typical_log_spread", cohort.typical_log_spread}});
}

Value figures_json(const Assessment& assessment) {
  return Value::object({{"corrected_value", assessment.corrected_value},
                        {"over_probability", assessment.over_probability},
                        {"masking_probability", assessment.masking},
                        {"reading_at_limit", or_null(assessment.reading_at_limit)},
                        {"reading_if_open", or_null(assessment.reading_if_open)},
                        {"ceiling", or_null(assessment.ceiling)},
                        {"esr_behind", numbers(assessment.esr_behind)}});
}

}  // namespace

Value to_json(const Assessment& assessment, Kind kind) {
  Value json = Value::object({{"verdict", word_of(assessment.verdict)},
                              {"kind", word_of(kind)},
                              {"sentence", assessment.sentence}});
  json.set("limit", assessment.limit
                        ? limit_json(*assessment.limit,
                                     assessment.believed.value_or(believe(*assessment.limit)))
                        : Value());
  json.set("limit_told", assessment.limit_told);
  json.set("limit_refusal", assessment.limit_refusal);
  json.set("states", by_state(assessment.states, assessment.after));
  json.set("states_before", by_state(assessment.states, assessment.before));
  json.set("numbers", figures_json(assessment));
  Value rows = Value::array();
  for (const std::vector<double>& row : assessment.likelihood) {
    rows.append(numbers(row));
  }
  json.set("likelihood", std::move(rows));
  if (assessment.cohort) {
    json.set("cohort", cohort_json(*assessment.cohort, assessment.states));
  }
  Value advice = Value::array();
  for (const std::string& line : assessment.advice) {
    advice.append(line);
  }
  json.set("advice", std::move(advice));
  Value caveats = Value::array();
  for (const FiredCaveat& caveat : assessment.caveats) {
    caveats.append(Value::object({{"id", caveat.id},
                                  {"title", caveat.title},
                                  {"effect", caveat.effect},
                                  {"because", caveat.because}}));
  }
  json.set("caveats", std::move(caveats));
  return json;
}

}  // namespace dryout::readings
