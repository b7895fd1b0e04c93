#include "decision/substitution.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include "documents/reader.h"
#include "quantities/preferred_value.h"

namespace dryout::decision {
namespace {

namespace fs = std::filesystem;
using documents::Reader;
using quantities::Farad;
using quantities::Volt;

SubstitutionRule read_rule(const Reader& entry) {
  entry.accept_only({"id", "title", "because", "source", "roles", "technologies", "capacitance_min",
                     "capacitance_max", "volts_min", "temperature_min_C", "life_hours_min", "fit",
                     "esr", "certified", "advice"});
  SubstitutionRule rule;
  rule.id = entry.id("id");
  rule.title = entry.text("title");
  rule.because = entry.text("because");
  rule.source = entry.text("source");
  rule.roles = entry.optional_texts("roles");
  rule.technologies = entry.optional_texts("technologies");
  constexpr documents::Range factor{.min = 0.1, .max = 10.0};
  rule.capacitance_min = entry.optional_number("capacitance_min", factor).value_or(1.0);
  rule.capacitance_max = entry.optional_number("capacitance_max", factor).value_or(1.0);
  rule.volts_min = entry.optional_number("volts_min", factor).value_or(1.0);
  rule.temperature_min = entry.optional_number("temperature_min_C", {.min = 40, .max = 200});
  rule.life_hours_min = entry.optional_number("life_hours_min", documents::positive);
  rule.fit = entry.optional_text("fit").value_or("");
  rule.esr = entry.has("esr")
                 ? entry.one_of("esr", {"low", "as-original"}) == 0 ? "low" : "as-original"
                 : "";
  rule.certified = entry.optional_boolean("certified", false);
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

bool names(const std::vector<std::string>& list, const std::string& word) {
  return list.empty() || std::find(list.begin(), list.end(), word) != list.end();
}

/// Allowed band of capacitance and volts after all rules that apply.
struct Band {
  double capacitance_min = 0.0;
  double capacitance_max = 10.0;
  double volts_min = 1.0;
};

void narrow(Band& band, Substitute& fit, const SubstitutionRule& rule) {
  band.capacitance_min = std::max(band.capacitance_min, rule.capacitance_min);
  band.capacitance_max = std::min(band.capacitance_max, rule.capacitance_max);
  band.volts_min = std::max(band.volts_min, rule.volts_min);
  if (rule.temperature_min) {
    const double known = fit.temperature_min ? fit.temperature_min->degrees() : 0.0;
    fit.temperature_min = quantities::Celsius(std::max(known, *rule.temperature_min));
  }
  if (rule.life_hours_min) {
    fit.life_hours_min = std::max(fit.life_hours_min.value_or(0.0), *rule.life_hours_min);
  }
  // "As original" is the careful choice: a lower ESR than a circuit expects can make it oscillate.
  if (!rule.esr.empty() && fit.esr != "as-original") {
    fit.esr = rule.esr;
  }
  if (!rule.fit.empty()) {
    fit.technology = rule.fit;
  }
  fit.certified = fit.certified || rule.certified;
  if (!rule.advice.empty()) {
    fit.advice.push_back(rule.advice);
  }
  fit.rules.push_back(rule.id);
}

/// The preferred value nearest the old one that the band allows; else the old value itself.
Farad preferred_within(Farad old, const Band& band) {
  const double tolerance = 1.0 + 1e-9;
  const auto allowed = [&](Farad value) {
    return value >= old * band.capacitance_min * (1.0 / tolerance) &&
           value <= old * std::max(1.0, band.capacitance_max) * tolerance;
  };
  for (const auto series : {quantities::Series::e6, quantities::Series::e12}) {
    for (const Farad value : {quantities::nearest_preferred(old, series),
                              quantities::preferred_not_below(old, series)}) {
      if (allowed(value)) {
        return value;
      }
    }
  }
  return old;
}

template <std::size_t Count>
Volt first_not_below(const std::array<double, Count>& ratings, Volt needed) {
  for (const double rating : ratings) {
    if (Volt(rating) >= needed * (1.0 - 1e-9)) {
      return Volt(rating);
    }
  }
  return needed;
}

}  // namespace

Volt standard_rating(Volt needed) {
  constexpr std::array<double, 18> ratings{6.3, 10,  16,  25,  35,  50,  63,  80,  100,
                                           160, 200, 250, 350, 400, 450, 500, 630, 1000};
  return first_not_below(ratings, needed);
}

Volt mains_rating(Volt needed) {
  constexpr std::array<double, 9> ratings{250, 275, 300, 305, 310, 330, 400, 440, 500};
  return first_not_below(ratings, needed);
}

Substitute substitute_for(const PartNeed& need, const SubstitutionRules& rules) {
  Substitute fit;
  fit.technology = need.technology;
  Band band;
  for (const SubstitutionRule& rule : rules.rules) {
    if (names(rule.roles, need.role) && names(rule.technologies, need.technology)) {
      narrow(band, fit, rule);
    }
  }
  if (need.capacitance > Farad(0)) {
    fit.capacitance = preferred_within(need.capacitance, band);
  }
  if (need.rated > Volt(0)) {
    const Volt needed = need.rated * band.volts_min;
    fit.rated = fit.certified ? mains_rating(needed) : standard_rating(needed);
  }
  return fit;
}

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
