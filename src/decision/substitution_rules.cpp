// Reading the rules of substitution.
#include <algorithm>
#include <filesystem>

#include "decision/substitution.h"
#include "documents/reader.h"

namespace dryout::decision {
namespace {

namespace fs = std::filesystem;
using documents::Reader;

SubstitutionRule read_rule(const Reader& entry) {
  entry.accept_only({"id",
                     "title",
                     "because",
                     "source",
                     "roles",
                     "technologies",
                     "rails",
                     "except_roles",
                     "except_technologies",
                     "on_the_mains",
                     "behind_a_transformer",
                     "live_chassis",
                     "behind_valve_rectifier",
                     "earthed",
                     "unearthed",
                     "capacitance_min",
                     "capacitance_max",
                     "as_marked",
                     "volts_min",
                     "rail_volts_min",
                     "unloaded_peak_min",
                     "rail_ac_volts_min",
                     "mains_volts_min",
                     "pulse_rated",
                     "temperature_min_C",
                     "life_hours_min",
                     "fit",
                     "esr",
                     "certified",
                     "safety_class",
                     "touch_current_max_mA",
                     "advice"});
  SubstitutionRule rule;
  rule.id = entry.id("id");
  rule.title = entry.text("title");
  rule.because = entry.text("because");
  rule.source = entry.text("source");
  rule.roles = entry.condition_words("roles");
  rule.technologies = entry.condition_words("technologies");
  rule.rails = entry.condition_words("rails");
  rule.except_roles = entry.condition_words("except_roles");
  rule.except_technologies = entry.condition_words("except_technologies");
  rule.on_the_mains = entry.optional_boolean("on_the_mains", false);
  rule.behind_a_transformer = entry.optional_boolean("behind_a_transformer", false);
  rule.live_chassis = entry.optional_boolean("live_chassis", false);
  rule.behind_valve_rectifier = entry.optional_boolean("behind_valve_rectifier", false);
  rule.earthed = entry.optional_boolean("earthed", false);
  rule.unearthed = entry.optional_boolean("unearthed", false);
  constexpr documents::Range factor{.min = 0.1, .max = 10.0};
  constexpr documents::Range rail_factor{.min = 0.1, .max = 20.0};  // pulses stand far above it
  rule.capacitance_min = entry.optional_number("capacitance_min", factor);
  rule.capacitance_max = entry.optional_number("capacitance_max", factor);
  rule.volts_min = entry.optional_number("volts_min", factor).value_or(1.0);
  rule.as_marked = entry.optional_boolean("as_marked", false);
  rule.rail_volts_min = entry.optional_number("rail_volts_min", rail_factor);
  rule.unloaded_peak_min = entry.optional_number("unloaded_peak_min", factor);
  rule.rail_ac_volts_min = entry.optional_number("rail_ac_volts_min", factor);
  rule.mains_volts_min = entry.optional_number("mains_volts_min", factor);
  rule.pulse_rated = entry.optional_boolean("pulse_rated", false);
  rule.temperature_min = entry.optional_number("temperature_min_C", {.min = 40, .max = 200});
  rule.life_hours_min = entry.optional_number("life_hours_min", documents::positive);
  rule.fit = entry.optional_text("fit").value_or("");
  rule.esr = entry.has("esr")
                 ? entry.one_of("esr", {"low", "as-original"}) == 0 ? "low" : "as-original"
                 : "";
  rule.certified = entry.optional_boolean("certified", false);
  if (entry.has("safety_class")) {
    constexpr const char* classes[] = {"X1", "X2", "Y1", "Y2"};
    rule.safety_class = classes[entry.one_of("safety_class", {"X1", "X2", "Y1", "Y2"})];
  }
  if (const auto limit =
          entry.optional_number("touch_current_max_mA", {.min = 0.01, .max = 10.0})) {
    rule.touch_current_max = quantities::Ampere(*limit / 1000.0);
  }
  rule.place = entry.place();
  rule.advice = entry.optional_text("advice").value_or("");
  return rule;
}

void read_file(const std::string& path, SubstitutionRules& rules, quantities::Problems& problems) {
  const auto document = documents::read_file(path);
  if (!document) {
    problems.insert(problems.end(), document.problems().begin(), document.problems().end());
    return;
  }
  const Reader root(*document, problems);
  root.accept_only({"schema", "substitution"});
  root.for_each("substitution", [&](const Reader& entry) {
    SubstitutionRule rule = read_rule(entry);
    const auto same = std::find_if(rules.rules.begin(), rules.rules.end(),
                                   [&](const auto& other) { return other.id == rule.id; });
    if (same != rules.rules.end()) {
      *same = std::move(rule);  // a technician's own rule takes the shipped one's place
    } else {
      rules.rules.push_back(std::move(rule));
    }
  });
}

}  // namespace

quantities::Result<SubstitutionRules> load_substitution_rules(
    const std::vector<std::string>& directories) {
  SubstitutionRules rules;
  quantities::Problems problems;
  for (const std::string& directory : directories) {
    std::error_code error;
    std::vector<std::string> files;
    for (const auto& entry :
         fs::directory_iterator(fs::path(directory) / "rules/substitution", error)) {
      const std::string name = entry.path().filename().string();
      if (entry.path().extension() == ".json" && name.find(".schema.") == std::string::npos) {
        files.push_back(entry.path().string());
      }
    }
    std::sort(files.begin(), files.end());
    for (const std::string& file : files) {
      read_file(file, rules, problems);
    }
  }
  if (!problems.empty()) {
    return problems;
  }
  return rules;
}

}  // namespace dryout::decision
