#include "readings/limits_library.h"

#include <algorithm>
#include <cmath>

#include "quantities/measure.h"
#include "quantities/spelling.h"
#include "readings/impossible_limits.h"
#include "readings/rule_files.h"

namespace dryout::readings {

using documents::Reader;
using documents::Value;
using quantities::Problems;
using quantities::Result;

namespace {

/// Of any row, what the measure can be on a bench (quantities/measure.h).
documents::Range ohms_of(quantities::Measure measure) {
  return {.max = quantities::range_of_limit(measure).most, .above = 0.0};
}

std::optional<LeakageRule> read_leakage(const Reader& row) {
  const auto member = row.optional_member("leakage");
  if (!member) {
    return std::nullopt;
  }
  member->accept_only({"per_CV", "least_A", "plus_A", "minutes", "most_A", "per_root_CV"});
  const auto number = [&](std::string_view key) {
    return member->optional_number(key, documents::non_negative).value_or(0.0);
  };
  return LeakageRule{number("per_CV"),  number("least_A"), number("plus_A"),
                     number("minutes"), number("most_A"),  number("per_root_CV")};
}

std::optional<InsulationRule> read_insulation(const Reader& row) {
  const auto member = row.optional_member("insulation");
  if (!member) {
    return std::nullopt;
  }
  member->accept_only({"least_ohm", "ohm_farad", "test_V", "minutes"});
  const auto number = [&](std::string_view key) {
    return member->optional_number(key, documents::non_negative).value_or(0.0);
  };
  const InsulationRule rule{number("least_ohm"), number("ohm_farad"), number("test_V"),
                            number("minutes")};
  if (rule.least_ohm == 0.0 && rule.ohm_farad == 0.0) {
    member->complain("a rule of insulation states a resistance", "least_ohm or ohm_farad");
  }
  return rule;
}

template <class Quantity>
std::optional<Quantity> optional_quantity(const Reader& row, std::string_view key,
                                          const documents::Range& range) {
  const auto number = row.optional_number(key, range);
  return number ? std::optional(Quantity(*number)) : std::nullopt;
}

void read_electrical(const Reader& reader, LimitRow& row) {
  row.capacitance =
      optional_quantity<quantities::Farad>(reader, "capacitance_F", {.max = 1e4, .above = 0.0});
  row.rated = quantities::volts(reader.number("rated_V", {.max = 1e5, .above = 0.0}));
  row.impedance_max = optional_quantity<quantities::Ohm>(reader, "impedance_ohm",
                                                         ohms_of(quantities::Measure::impedance));
  row.esr_max =
      optional_quantity<quantities::Ohm>(reader, "esr_ohm", ohms_of(quantities::Measure::esr));
  const documents::Range hertz{.max = 1e9, .above = 0.0};
  row.frequency = quantities::hertz(reader.optional_number("frequency_Hz", hertz).value_or(100e3));
  row.temperature = quantities::Celsius(
      reader.optional_number("temperature_C", {.min = -60.0, .max = 200.0}).value_or(20.0));
  row.tan_delta_max = reader.optional_number("tan_delta", {.max = 10.0, .above = 0.0});
  row.tan_delta_frequency =
      quantities::hertz(reader.optional_number("tan_delta_frequency_Hz", hertz).value_or(120.0));
  row.tan_delta_per_1000uF =
      reader.optional_number("tan_delta_per_1000uF", {.max = 1.0, .above = 0.0}).value_or(0.0);
  row.leakage = read_leakage(reader);
  row.insulation = read_insulation(reader);
  row.dc_esr_max =
      optional_quantity<quantities::Ohm>(reader, "dc_esr_ohm", ohms_of(quantities::Measure::esr));
  if (!row.impedance_max && !row.esr_max && !row.tan_delta_max && !row.leakage && !row.insulation &&
      !row.dc_esr_max) {
    reader.complain("a row of limits states at least one limit",
                    "impedance_ohm, esr_ohm, tan_delta, leakage, insulation or dc_esr_ohm");
  }
}

/// One of a closed list of words; "" where absent, or no such word.
std::string optional_word(const Reader& reader, std::string_view key,
                          const std::vector<std::string_view>& words) {
  std::string word = reader.optional_text(key).value_or("");
  if (word.empty() || std::find(words.begin(), words.end(), word) != words.end()) {
    return word;
  }
  refuse_word(reader, key, word, words);
  return "";
}

LimitRow read_row(const Reader& reader) {
  reader.accept_only({"id",
                      "maker",
                      "series",
                      "technology",
                      "body",
                      "grade",
                      "capacitance_F",
                      "rated_V",
                      "size",
                      "impedance_ohm",
                      "esr_ohm",
                      "frequency_Hz",
                      "temperature_C",
                      "tan_delta",
                      "tan_delta_frequency_Hz",
                      "tan_delta_per_1000uF",
                      "leakage",
                      "insulation",
                      "dc_esr_ohm",
                      "endurance",
                      "document",
                      "mark",
                      "remark"});
  LimitRow row;
  row.id = reader.id("id");
  row.place = reader.place();
  row.maker = reader.text("maker");
  row.series = reader.text("series");
  row.technology = reader.text("technology");
  row.body = body_of(optional_word(reader, "body", body_words())).value_or(Body::unknown);
  row.grade = optional_word(reader, "grade", grade_words());
  read_electrical(reader, row);
  row.size = reader.optional_text("size").value_or("");
  row.endurance = quantities::with_unit_signs(reader.optional_text("endurance").value_or(""));
  row.document = quantities::with_unit_signs(reader.text("document"));
  row.mark = static_cast<Mark>(reader.one_of("mark", {"read", "second-hand", "memory"}));
  row.remark = quantities::with_unit_signs(reader.optional_text("remark").value_or(""));
  return row;
}

}  // namespace

const std::vector<std::string_view>& grade_words() {
  static const std::vector<std::string_view> words{"general",     "low-impedance",
                                                   "long-life",   "low-leakage",
                                                   "computer",    "pre-1965",
                                                   "hybrid",      "polymer",
                                                   "polyester",   "polypropylene",
                                                   "paper",       "X1",
                                                   "X2",          "Y1",
                                                   "Y2",          "X7R",
                                                   "C0G",         "back-up",
                                                   "long-back-up"};
  return words;
}

namespace {

void set_if(Value& json, const char* key, const std::string& text) {
  if (!text.empty()) {
    json.set(key, text);
  }
}

Value to_json(const LeakageRule& rule) {
  Value json = Value::object({{"per_CV", rule.per_cv},
                              {"least_A", rule.least},
                              {"plus_A", rule.plus},
                              {"minutes", rule.minutes}});
  if (rule.most > 0.0) {
    json.set("most_A", rule.most);
  }
  if (rule.per_root_cv > 0.0) {
    json.set("per_root_CV", rule.per_root_cv);
  }
  return json;
}

Value to_json(const InsulationRule& rule) {
  return Value::object({{"least_ohm", rule.least_ohm},
                        {"ohm_farad", rule.ohm_farad},
                        {"test_V", rule.test_volts},
                        {"minutes", rule.minutes}});
}

}  // namespace

Result<LimitsLibrary> load_limits(const std::vector<std::string>& directories) {
  Problems problems;
  Overlay<LimitRow> rows;
  for_each_rule(
      directories, "limits", "limits", problems,
      [&](const Reader& reader, std::size_t tree) { rows.add(read_row(reader), tree, reader); });
  if (!problems.empty()) {
    return problems;
  }
  LimitsLibrary library{rows.take()};
  problems = impossible_limits(library);
  return problems.empty() ? Result<LimitsLibrary>(std::move(library)) : problems;
}

Result<LimitsLibrary> parse_limits(const std::string& text, const std::string& file) {
  const auto document = documents::parse(text, file);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  Overlay<LimitRow> rows;
  read_rules(*document, "limits", problems,
             [&](const Reader& reader) { rows.add(read_row(reader), 0, reader); });
  return problems.empty() ? Result<LimitsLibrary>(LimitsLibrary{rows.take()}) : problems;
}

Value to_json(const LimitRow& row) {
  constexpr std::string_view marks[]{"read", "second-hand", "memory"};
  Value json = Value::object({{"id", row.id}, {"maker", row.maker}, {"series", row.series}});
  json.set("technology", row.technology);
  json.set("body", word_of(row.body));
  set_if(json, "grade", row.grade);
  if (row.capacitance) {
    json.set("capacitance_F", row.capacitance->si());
  }
  json.set("rated_V", row.rated.si());
  set_if(json, "size", row.size);
  if (row.impedance_max) {
    json.set("impedance_ohm", row.impedance_max->si());
  }
  if (row.esr_max) {
    json.set("esr_ohm", row.esr_max->si());
  }
  json.set("frequency_Hz", row.frequency.si());
  json.set("temperature_C", row.temperature.degrees());
  if (row.tan_delta_max) {
    json.set("tan_delta", *row.tan_delta_max);
    json.set("tan_delta_frequency_Hz", row.tan_delta_frequency.si());
  }
  if (row.tan_delta_per_1000uF > 0.0) {
    json.set("tan_delta_per_1000uF", row.tan_delta_per_1000uF);
  }
  if (row.leakage) {
    json.set("leakage", to_json(*row.leakage));
  }
  if (row.insulation) {
    json.set("insulation", to_json(*row.insulation));
  }
  if (row.dc_esr_max) {
    json.set("dc_esr_ohm", row.dc_esr_max->si());
  }
  set_if(json, "endurance", row.endurance);
  json.set("document", row.document);
  json.set("mark", marks[static_cast<std::size_t>(row.mark)]);
  set_if(json, "remark", row.remark);
  return json;
}

Value to_json(const std::vector<LimitRow>& rows) {
  Value list = Value::array();
  for (const LimitRow& row : rows) {
    list.append(to_json(row));
  }
  return Value::object({{"schema", 1}, {"limits", std::move(list)}});
}

double leakage_allowed(const LeakageRule& rule, quantities::Farad capacitance,
                       quantities::Volt rated) {
  const double cv = capacitance.si() * rated.si();
  const double allowed =
      std::max(rule.per_cv * cv, rule.least) + rule.plus + rule.per_root_cv * std::sqrt(cv);
  return rule.most > 0.0 ? std::min(allowed, rule.most) : allowed;
}

std::optional<double> tan_delta_allowed(const LimitRow& row, quantities::Farad capacitance) {
  if (!row.tan_delta_max) {
    return std::nullopt;
  }
  constexpr double step = 1e-3;  // farad
  const double steps = std::max(0.0, (capacitance.si() - step) / step);
  return *row.tan_delta_max + row.tan_delta_per_1000uF * steps;
}

std::optional<quantities::Ohm> insulation_floor(const LimitRow& row,
                                                quantities::Farad capacitance) {
  if (!row.insulation) {
    return std::nullopt;
  }
  const InsulationRule& rule = *row.insulation;
  const double c = capacitance.si();
  if (rule.ohm_farad == 0.0 || (c <= 0.0 && rule.least_ohm > 0.0)) {
    return quantities::ohms(rule.least_ohm);
  }
  if (c <= 0.0) {
    return std::nullopt;
  }
  const double by_time = rule.ohm_farad / c;
  return quantities::ohms(rule.least_ohm == 0.0 ? by_time : std::min(rule.least_ohm, by_time));
}

std::string told(const LimitRow& row) {
  // A series may bear its maker's name: "JAN-C-62".
  std::string text = row.series.starts_with(row.maker) ? row.series : row.maker + " " + row.series;
  if (row.capacitance) {
    text += " " + format(*row.capacitance);
  }
  text += " " + format(row.rated) + ": " + row.document;
  if (row.mark == Mark::second_hand) {
    text += " (second-hand)";
  } else if (row.mark == Mark::memory) {
    text += " (from memory)";
  }
  return text;
}

}  // namespace dryout::readings
