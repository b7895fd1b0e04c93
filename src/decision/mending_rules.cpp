#include "decision/mending_rules.h"

#include <algorithm>
#include <filesystem>

#include "documents/reader.h"

namespace dryout::decision {
namespace {

using documents::Reader;
using quantities::Problems;

bool among(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

/// Laid over: an entry of the same name takes the place of the earlier one.
template <class Entry, class Name>
void lay_over(std::vector<Entry>& list, Entry entry, Name name) {
  const auto same = std::find_if(list.begin(), list.end(),
                                 [&](const Entry& other) { return name(other) == name(entry); });
  if (same != list.end()) {
    *same = std::move(entry);
  } else {
    list.push_back(std::move(entry));
  }
}

void read_remedy(const Reader& entry, MendingRules& rules) {
  entry.accept_only({"cause", "buy", "price", "look_at", "because", "source"});
  Remedy remedy;
  remedy.cause = entry.id("cause");
  remedy.buy = entry.optional_text("buy").value_or("");
  remedy.price = entry.optional_number("price", documents::non_negative).value_or(0.0);
  remedy.look_at = entry.optional_text("look_at").value_or("");
  remedy.because = entry.text("because");
  remedy.source = entry.text("source");
  remedy.place = entry.place();
  lay_over(rules.remedies, std::move(remedy), [](const Remedy& r) { return r.cause; });
}

void read_on_sight(const Reader& entry, MendingRules& rules) {
  entry.accept_only({"id", "title", "roles", "technologies", "age_years_min", "once_convicted",
                     "because", "source"});
  OnSight rule;
  rule.id = entry.id("id");
  rule.title = entry.text("title");
  rule.roles = entry.texts("roles");
  rule.technologies =
      entry.has("technologies") ? entry.texts("technologies") : std::vector<std::string>{};
  rule.age_years_min =
      entry.optional_number("age_years_min", documents::non_negative).value_or(0.0);
  rule.once_convicted = entry.optional_boolean("once_convicted", false);
  rule.because = entry.text("because");
  rule.source = entry.text("source");
  rule.place = entry.place();
  lay_over(rules.on_sight, std::move(rule), [](const OnSight& r) { return r.id; });
}

const OnSight* rule_of(const std::vector<OnSight>& rules, bool once_convicted,
                       const std::string& role, const std::string& technology, double age_years) {
  const auto found = std::find_if(rules.begin(), rules.end(), [&](const OnSight& rule) {
    return rule.once_convicted == once_convicted && among(rule.roles, role) &&
           (rule.technologies.empty() || among(rule.technologies, technology)) &&
           age_years >= rule.age_years_min;
  });
  return found == rules.end() ? nullptr : &*found;
}

template <class Read>
void read_list(const std::string& directory, const char* name, MendingRules& rules,
               Problems& problems, Read read) {
  const auto file =
      std::filesystem::path(directory) / "rules/decision" / (std::string(name) + ".json");
  std::error_code error;
  if (!std::filesystem::exists(file, error)) {
    return;
  }
  const auto document = documents::read_file(file.string());
  if (!document) {
    problems.insert(problems.end(), document.problems().begin(), document.problems().end());
    return;
  }
  const Reader root(*document, problems);
  root.accept_only({"schema", name});
  (void)root.whole_number("schema", {.min = 1, .max = 1});
  root.for_each(name, [&](const Reader& entry) { read(entry, rules); });
}

}  // namespace

const Remedy* MendingRules::remedy_for(const std::string& cause) const {
  const auto found = std::find_if(remedies.begin(), remedies.end(),
                                  [&](const Remedy& each) { return each.cause == cause; });
  return found == remedies.end() ? nullptr : &*found;
}

const OnSight* MendingRules::first_to_go(const std::string& role, const std::string& technology,
                                         double age_years) const {
  return rule_of(on_sight, false, role, technology, age_years);
}

const OnSight* MendingRules::once_convicted(const std::string& role, const std::string& technology,
                                            double age_years) const {
  return rule_of(on_sight, true, role, technology, age_years);
}

quantities::Result<MendingRules> load_mending_rules(const std::vector<std::string>& directories) {
  MendingRules rules;
  Problems problems;
  for (const std::string& directory : directories) {
    read_list(directory, "remedies", rules, problems, read_remedy);
    read_list(directory, "on_sight", rules, problems, read_on_sight);
  }
  if (!problems.empty()) {
    return problems;
  }
  return rules;
}

}  // namespace dryout::decision
