#include "casework/library_entries.h"

#include <algorithm>

#include "casework/word_list.h"
#include "casework/wording.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"

namespace dryout::casework {
namespace {

using knowledge::KnowledgeBase;

LibraryEntry plain(Shelf shelf, const knowledge::Entry& entry) {
  LibraryEntry plain;
  plain.shelf = shelf;
  plain.id = entry.id;
  plain.title = entry.title.empty() ? entry.because : entry.title;
  plain.because = entry.title.empty() ? "" : entry.because;
  plain.kind = entry.source.kind;
  plain.source = entry.source.text;
  return plain;
}

void add_fact(LibraryEntry& entry, const char* name, std::string fact) {
  if (!fact.empty()) entry.facts.emplace_back(name, std::move(fact));
}

void speak_of(ShelvedEntry& shelved, Shelf shelf, const std::string& id) {
  const std::string key = key_of(shelf, id);
  const bool known =
      id.empty() || id == "*" ||
      std::find(shelved.speaks_of.begin(), shelved.speaks_of.end(), key) != shelved.speaks_of.end();
  if (!known) shelved.speaks_of.push_back(key);
}

void speak_of_all(ShelvedEntry& shelved, Shelf shelf, const std::vector<std::string>& ids) {
  for (const std::string& id : ids) speak_of(shelved, shelf, id);
}

std::string years(int from, int to) { return std::to_string(from) + " to " + std::to_string(to); }

/// Could something looked for at these kinds of places be brought about at those?
bool meet(const std::vector<std::string>& wanted, const std::vector<std::string>& given) {
  return wanted.empty() || given.empty() ||
         std::any_of(wanted.begin(), wanted.end(), [&](const std::string& kind) {
           return std::find(given.begin(), given.end(), kind) != given.end();
         });
}

std::string limit_title(const readings::LimitRow& row) {
  std::string title = row.series.starts_with(row.maker) ? row.series : row.maker + ' ' + row.series;
  if (row.capacitance) title += ", " + quantities::format(*row.capacitance);
  return title + ", " + quantities::format(row.rated);
}

std::string after(double minutes) {
  return minutes > 0.0 ? " after " + quantities::significant_figures(minutes, 3) + " min" : "";
}

/// "0.01 CV, at least 3 µA", as sheets write it: C in µF and V in volt give microamperes, and so
/// does the product in farad give amperes.
std::string leakage_text(const readings::LimitRow& row) {
  const readings::LeakageRule& rule = *row.leakage;
  const auto amperes = [](double a) { return quantities::format(quantities::Ampere(a)); };
  std::string text;
  const auto add = [&text](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
  if (rule.per_cv > 0.0) add(quantities::significant_figures(rule.per_cv, 3) + " CV");
  if (rule.per_root_cv > 0.0) {
    constexpr double in_microamperes = 1e3;  // root(C V) with C in µF
    add(quantities::significant_figures(rule.per_root_cv * in_microamperes, 3) +
        " root(CV) \u00b5A, C in \u00b5F");
  }
  if (rule.least > 0.0) add((text.empty() ? "" : "at least ") + amperes(rule.least));
  if (rule.plus > 0.0) add("and " + amperes(rule.plus) + " more");
  if (rule.most > 0.0) add("never above " + amperes(rule.most));
  const bool by_rule = rule.per_cv > 0.0 || rule.per_root_cv > 0.0 || rule.plus > 0.0;
  if (row.capacitance && by_rule) {
    text =
        amperes(readings::leakage_allowed(rule, *row.capacitance, row.rated)) + " (" + text + ')';
  }
  return text + " at " + quantities::format(row.rated) + after(rule.minutes);
}

std::string insulation_text(const readings::InsulationRule& rule) {
  std::string text;
  if (rule.least_ohm > 0.0) text = quantities::format(quantities::Ohm(rule.least_ohm));
  if (rule.ohm_farad > 0.0) {
    text += (text.empty() ? "" : ", or ") + quantities::significant_figures(rule.ohm_farad, 4) +
            " s / C" + (text.empty() ? "" : " where that is less");
  }
  if (rule.test_volts > 0.0) text += " at " + quantities::format(quantities::Volt(rule.test_volts));
  return text + after(rule.minutes);
}

/// What the row states of direct current.
void add_direct_current(LibraryEntry& entry, const readings::LimitRow& row) {
  if (row.leakage) add_fact(entry, "Leakage at most", leakage_text(row));
  if (row.insulation) add_fact(entry, "Insulation at least", insulation_text(*row.insulation));
  if (row.dc_esr_max) {
    add_fact(entry, "D.c. resistance at most",
             quantities::format(*row.dc_esr_max) + " by a step of current");
  }
}

std::string state_of_set(knowledge::CheckRule::State state) {
  switch (state) {
    case knowledge::CheckRule::State::unpowered:
      return "set off";
    case knowledge::CheckRule::State::powered:
      return "set on";
    case knowledge::CheckRule::State::lifted:
      break;
  }
  return "a leg lifted";
}

std::string reached(knowledge::CheckRule::Access access) {
  switch (access) {
    case knowledge::CheckRule::Access::outside:
      return "from outside, nothing is opened";
    case knowledge::CheckRule::Access::solder_side:
      return "at the solder side of the board";
    case knowledge::CheckRule::Access::board:
      break;
  }
  return "at the parts, with the set open";
}

}  // namespace

std::string key_of(Shelf shelf, const std::string& id) {
  return std::string(shelf_words()[static_cast<std::size_t>(shelf)]) + '/' + id;
}

ShelvedEntry shelved(const knowledge::Equipment& equipment, const KnowledgeBase& knowledge) {
  ShelvedEntry shelved{plain(Shelf::equipment, equipment), {}};
  add_fact(shelved.entry, "Built", years(equipment.year_from, equipment.year_to));
  std::string boards, groups;
  for (const auto& board : equipment.boards) boards += (boards.empty() ? "" : ", ") + board.title;
  for (const knowledge::PartGroup& group : equipment.groups) {
    groups += (groups.empty() ? "" : "; ") + std::to_string(group.count) + " x " + group.title;
    speak_of(shelved, Shelf::roles, group.role);
    speak_of(shelved, Shelf::technologies, technology_of(knowledge, group));
  }
  add_fact(shelved.entry, "Boards", boards);
  add_fact(shelved.entry, "Capacitors", groups);
  speak_of_all(shelved, Shelf::cautions, equipment.hazards);
  speak_of_all(shelved, Shelf::symptoms, equipment.symptoms);
  return shelved;
}

ShelvedEntry shelved(const knowledge::Symptom& symptom) {
  ShelvedEntry shelved{plain(Shelf::symptoms, symptom), {}};
  add_fact(shelved.entry, "Owners say", in_a_row(symptom.owner_words));
  add_fact(shelved.entry, "Quick test", symptom.quick_test);
  add_fact(shelved.entry, "Told apart by", symptom.discriminates);
  for (const auto& shown : symptom.shows) speak_of(shelved, Shelf::phenomena, shown.phenomenon);
  speak_of_all(shelved, Shelf::cautions, symptom.cautions);
  return shelved;
}

ShelvedEntry shelved(const knowledge::CheckRule& check) {
  ShelvedEntry shelved{plain(Shelf::checks, check), {}};
  add_fact(shelved.entry, "With",
           check.instrument + ", " + state_of_set(check.state) + ", " +
               quantities::format_duration(check.effort));
  if (check.per != knowledge::CheckRule::Per::set) {
    add_fact(shelved.entry, "Done", reached(check.access));
  }
  add_fact(shelved.entry, "Probes", check.probes);
  add_fact(shelved.entry, "Good", check.good);
  add_fact(shelved.entry, "Bad", check.bad);
  add_fact(shelved.entry, "False alarm", percent(check.false_alarm));
  for (const auto& [phenomenon, sensitivity] : check.sees) {
    speak_of(shelved, Shelf::phenomena, phenomenon);
  }
  for (const auto& [mode, sensitivity] : check.detects) speak_of(shelved, Shelf::modes, mode);
  if (check.per == knowledge::CheckRule::Per::group) {
    speak_of_all(shelved, Shelf::roles, check.kinds);
  }
  speak_of_all(shelved, Shelf::technologies, check.technologies);
  speak_of_all(shelved, Shelf::cautions, check.cautions);
  return shelved;
}

ShelvedEntry shelved(const knowledge::Role& role) {
  ShelvedEntry shelved{plain(Shelf::roles, role), {}};
  add_fact(shelved.entry, "Usually", role.technology);
  add_fact(shelved.entry, "Measure", role.measure);
  speak_of(shelved, Shelf::technologies, role.technology);
  for (const auto& [mode, factor] : role.stress) speak_of(shelved, Shelf::modes, mode);
  return shelved;
}

ShelvedEntry shelved(const knowledge::OtherCause& cause) {
  ShelvedEntry shelved{plain(Shelf::causes, cause), {}};
  add_fact(shelved.entry, "How to tell", cause.how_to_tell);
  add_fact(shelved.entry, "To mend", quantities::format_duration(cause.remedy));
  return shelved;
}

ShelvedEntry shelved(const readings::LimitRow& row) {
  ShelvedEntry shelved;
  LibraryEntry& entry = shelved.entry;
  entry.shelf = Shelf::limits;
  entry.id = row.id;
  entry.title = limit_title(row);
  entry.because = row.remark;
  // A row quoted second-hand was read, if not in its own sheet.
  const bool memory = row.mark == readings::Mark::memory;
  entry.kind = memory ? SourceKind::memory : SourceKind::published;
  entry.source = (row.mark == readings::Mark::second_hand ? "second-hand: " : "") + row.document;
  const std::string where =
      " at " + quantities::format(row.frequency) + ", " + quantities::format(row.temperature);
  if (row.impedance_max) {
    add_fact(entry, "|Z| at most", quantities::format(*row.impedance_max) + where);
  }
  if (row.esr_max) add_fact(entry, "ESR at most", quantities::format(*row.esr_max) + where);
  if (row.tan_delta_max) {
    add_fact(entry, "Tan delta at most",
             quantities::format_engineering(*row.tan_delta_max, quantities::Unit::none) + " at " +
                 quantities::format(row.tan_delta_frequency));
  }
  add_direct_current(entry, row);
  add_fact(entry, "Endurance", row.endurance);
  speak_of(shelved, Shelf::technologies, row.technology);
  return shelved;
}

ShelvedEntry shelved(const readings::Caveat& caveat) {
  ShelvedEntry shelved{plain(Shelf::caveats, caveat), {}};
  add_fact(shelved.entry, "Effect", caveat.effect);
  speak_of_all(shelved, Shelf::technologies, caveat.when.technologies);
  return shelved;
}

ShelvedEntry shelved(const knowledge::Caution& caution) {
  ShelvedEntry shelved{plain(Shelf::cautions, caution), {}};
  add_fact(shelved.entry, "Told", caution.wording);
  add_fact(shelved.entry, "Danger", caution.danger == "none" ? "" : caution.danger);
  return shelved;
}

ShelvedEntry shelved(const knowledge::Link& link, const KnowledgeBase& knowledge) {
  ShelvedEntry shelved{plain(Shelf::rules, link), {}};
  add_fact(shelved.entry, "Strength", percent(link.strength));
  add_fact(shelved.entry, "Only in", in_a_row(link.from_kinds));
  add_fact(shelved.entry, "Only at", in_a_row(link.to_kinds));
  speak_of_all(shelved, Shelf::roles, link.roles);
  speak_of(shelved, Shelf::modes, link.mode);
  speak_of(shelved, Shelf::causes, link.cause);
  speak_of(shelved, Shelf::phenomena, link.from_phenomenon);
  speak_of(shelved, Shelf::phenomena, link.phenomenon);
  // A rule also touches whatever looks for what it brings about.
  for (const knowledge::Symptom& symptom : knowledge.symptoms) {
    for (const auto& shown : symptom.shows) {
      const bool told = shown.phenomenon == link.phenomenon && meet(shown.kinds, link.to_kinds);
      if (told) speak_of(shelved, Shelf::symptoms, symptom.id);
    }
  }
  for (const knowledge::CheckRule& check : knowledge.checks) {
    for (const auto& [phenomenon, sensitivity] : check.sees) {
      const bool seen = phenomenon == link.phenomenon && meet(check.kinds, link.to_kinds);
      if (seen) speak_of(shelved, Shelf::checks, check.id);
    }
  }
  return shelved;
}

ShelvedEntry shelved(const knowledge::Technology& technology) {
  ShelvedEntry shelved{plain(Shelf::technologies, technology), {}};
  add_fact(shelved.entry, "Also called", in_a_row(technology.called));
  for (const auto& [mode, levels] : technology.modes) speak_of(shelved, Shelf::modes, mode);
  return shelved;
}

ShelvedEntry shelved(const knowledge::FaultMode& mode) {
  ShelvedEntry shelved{plain(Shelf::modes, mode), {}};
  add_fact(shelved.entry, "Looks like", mode.looks_like);
  return shelved;
}

ShelvedEntry shelved(const knowledge::Phenomenon& phenomenon) {
  return {plain(Shelf::phenomena, phenomenon), {}};
}

ShelvedEntry shelved(const readings::Meter& meter) {
  ShelvedEntry shelved;
  LibraryEntry& entry = shelved.entry;
  entry.shelf = Shelf::meters;
  entry.id = meter.id;
  entry.title = meter.title;
  entry.because = meter.because;
  entry.kind = meter.source.kind;
  entry.source = meter.source.text;
  std::vector<std::string> shows;
  for (const readings::Kind kind : meter.shows) shows.emplace_back(readings::word_of(kind));
  add_fact(entry, "Shows", in_a_row(shows));
  add_fact(entry, "Test signal",
           quantities::format(meter.frequency) +
               (meter.test_volts ? ", " + quantities::format(*meter.test_volts) : ""));
  add_fact(entry, "Accuracy", percent(meter.accuracy));
  return shelved;
}

}  // namespace dryout::casework
