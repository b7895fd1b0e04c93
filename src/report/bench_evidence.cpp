// The bench record, first half: symptoms, readings, suspects, checks, access.
#include <algorithm>

#include "casework/wording.h"
#include "casework/words.h"
#include "quantities/engineering_notation.h"
#include "report/bench_record.h"
#include "report/bench_sections.h"
#include "report/compare_readings.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::CaseView;
using casework::CheckView;
using casework::percent;
using casework::ReadingView;
using casework::SuspectView;

constexpr std::size_t rows_a_picture = 12;
constexpr std::size_t evidence_max = 5;  ///< lines of a suspect: the strongest tell it
constexpr std::size_t told_max = 6;      ///< suspects that are told of in words

std::string kind_title(const std::string& kind) {
  const auto known = casework::choice_of<casework::ReadingKind>(kind);
  return known ? casework::title_of(*known) : kind;
}

std::string limit_of(const ReadingView& reading) {
  return reading.limit ? shown_value(reading.kind, *reading.limit) : "\u2013";
}

std::string worth_of(const ReadingView& reading) {
  std::string text = words_of_verdict(reading.verdict);
  text += reading.after_repair ? " (of the part that went in)" : "";
  text += reading.sentence.empty() ? "" : "\n" + reading.sentence;
  return text;
}

/// What bounds the readings, each thing once, with the steps that it holds of.
void add_caveats(Blocks& blocks, const std::vector<ReadingView>& readings) {
  std::vector<std::pair<std::string, std::string>> caveats;
  for (const ReadingView& reading : readings) {
    for (const std::string& text : reading.caveats) {
      const auto known = std::find_if(caveats.begin(), caveats.end(),
                                      [&](const auto& each) { return each.first == text; });
      const std::string step = std::to_string(reading.event);
      if (known == caveats.end()) {
        caveats.emplace_back(text, step);
      } else {
        known->second += ", " + step;
      }
    }
  }
  std::vector<std::string> lines;
  lines.reserve(caveats.size());
  for (const auto& [text, steps] : caveats) {
    lines.push_back(std::string("Of ").append(steps).append(": ").append(text));
  }
  if (!lines.empty()) {
    blocks.emplace_back(Heading{"What bounds these readings, by step", 3});
    blocks.emplace_back(Points{lines});
  }
}

void add_pictures(Blocks& blocks, const ReadingGroup& group) {
  if (!words_of_kind(group.kind).on_scale) {
    return;
  }
  for (std::size_t first = 0; first < group.rows.size(); first += rows_a_picture) {
    const std::size_t last = std::min(first + rows_a_picture, group.rows.size());
    std::string caption = std::string(words_of_kind(group.kind).title);
    if (group.rows.size() > rows_a_picture) {
      caption += ", readings " + std::to_string(first + 1) + " to " + std::to_string(last) +
                 " of " + std::to_string(group.rows.size());
    }
    blocks.emplace_back(Figure{picture_of(group, first, rows_a_picture), as_sentence(caption)});
  }
}

/// Whether a suspect has a line in the record of a job: it is thought of, or something was done
/// about it. The others are counted.
bool of_interest(const SuspectView& suspect) {
  return suspect.suspicion.value() >= 0.01 || !suspect.convicted.empty() ||
         !suspect.judged.empty() || !suspect.mended.empty();
}

/// Whether it is worth more than its line.
bool leads(const SuspectView& suspect) {
  return suspect.suspicion.value() >= 0.1 || !suspect.convicted.empty() ||
         !suspect.judged.empty() || !suspect.mended.empty();
}

std::string judged_of(const SuspectView& suspect) {
  std::vector<std::string> marks;
  if (!suspect.judged.empty()) {
    marks.push_back("judged " + suspect.judged);
  }
  if (!suspect.mended.empty()) {
    marks.push_back(suspect.mended);
  }
  return listed(marks);
}

void add_suspect(Blocks& blocks, const SuspectView& suspect) {
  blocks.emplace_back(Heading{suspect.title + " (" + suspect.item + ')', 3});
  std::vector<std::string> states;
  for (const auto& state : suspect.states) {
    states.push_back(state.title + ' ' + percent(state.probability.value()));
  }
  if (!states.empty()) {
    blocks.emplace_back(Paragraph{"State: " + listed(states) + '.'});
  }
  if (!suspect.evidence.empty()) {
    Table table{{{"Evidence, strongest first"}, {"Weight", true}}, {}};
    for (const auto& line : suspect.evidence) {
      if (table.rows.size() == evidence_max) break;
      table.rows.push_back({line.text, shown_weight(line.weight)});
    }
    blocks.emplace_back(table);
  }
  if (!suspect.paths.empty()) {
    blocks.emplace_back(Points{suspect.paths});
  }
}

Table checks_table(const std::vector<CheckView>& checks) {
  Table table{
      {{"Check"}, {"Set is"}, {"Takes", true}, {"Opens first"}, {"Good", false}, {"Bad", false}},
      {}};
  for (const CheckView& check : checks) {
    table.rows.push_back({check.title + ": " + check.place_title, check.state,
                          quantities::format_duration(check.effort + check.access_effort),
                          one_a_line(check.opens_titles), check.good, check.bad});
  }
  return table;
}

}  // namespace

std::string one_a_line(const std::vector<std::string>& things) {
  std::string text;
  for (const std::string& thing : things) {
    text += (text.empty() ? "" : "\n") + thing;
  }
  return text;
}

void add_bench_symptoms(Blocks& blocks, const CaseView& view) {
  Table table{{{"Symptom"}, {"Family"}, {"There"}}, {}};
  std::size_t not_asked = 0;
  for (const auto& symptom : view.symptoms) {
    if (symptom.seen.empty()) {
      ++not_asked;
    } else {
      table.rows.push_back({symptom.title, symptom.family, symptom.seen});
    }
  }
  blocks.emplace_back(Heading{"Symptoms"});
  if (!table.rows.empty()) {
    blocks.emplace_back(table);
  }
  blocks.emplace_back(
      Paragraph{counted(not_asked, "symptom", "symptoms") + " of this equipment not asked for.",
                Paragraph::Tone::quiet});
}

void add_bench_readings(Blocks& blocks, const CaseView& view,
                        const casework::MendingView& mending) {
  blocks.emplace_back(Heading{"Readings"});
  if (view.readings.empty()) {
    blocks.emplace_back(Paragraph{"None taken."});
    return;
  }
  Table table{{{"Step", true},
               {"Part"},
               {"Reading", true},
               {"Limit", true},
               {"Limit from"},
               {"What it is worth"}},
              {}};
  for (const ReadingView& reading : view.readings) {
    table.rows.push_back(
        {std::to_string(reading.event), reading.item_title + "\n" + kind_title(reading.kind),
         reading.shown, limit_of(reading),
         reading.limit ? words_of_limit_source(reading.limit_source) : "", worth_of(reading)});
  }
  blocks.emplace_back(table);
  add_caveats(blocks, view.readings);
  for (const ReadingGroup& group : gather_readings(view, mending)) {
    add_pictures(blocks, group);
  }
}

void add_bench_suspects(Blocks& blocks, const CaseView& view) {
  blocks.emplace_back(Heading{"Suspects"});
  if (view.suspects.empty()) {
    blocks.emplace_back(Paragraph{"None."});
    return;
  }
  blocks.emplace_back(Paragraph{
      "Suspicion is the probability that it makes some of what was reported. Weight is how far the "
      "evidence moved the odds: 10 dB (decibans) is a factor of ten. Evidence is weighed by "
      "leaving one piece out at a time; the pieces need not add up to the whole.",
      Paragraph::Tone::quiet});
  Table table{{{"Suspect"},
               {"Board"},
               {"Before", true},
               {"Now", true},
               {"Not sound", true},
               {"Weight", true},
               {"Marks"}},
              {}};
  for (const SuspectView& suspect : view.suspects) {
    if (of_interest(suspect)) {
      table.rows.push_back({suspect.title, suspect.board_title, percent(suspect.before.value()),
                            percent(suspect.suspicion.value()), percent(suspect.unsound.value()),
                            shown_weight(suspect.weight), judged_of(suspect)});
    }
  }
  const std::size_t others = view.suspects.size() - table.rows.size();
  if (!table.rows.empty()) {
    blocks.emplace_back(table);
  }
  if (others > 0) {
    blocks.emplace_back(Paragraph{counted(others, "other is", "others are") +
                                      " each under 1 % to make any of what was reported.",
                                  Paragraph::Tone::quiet});
  }
  std::size_t told = 0;
  for (const SuspectView& suspect : view.suspects) {
    if (told < told_max && leads(suspect)) {
      add_suspect(blocks, suspect);
      ++told;
    }
  }
}

void add_bench_checks(Blocks& blocks, const CaseView& view) {
  constexpr std::size_t open_max = 5;
  if (!view.declined.empty()) {
    blocks.emplace_back(Heading{"Checks left out"});
    blocks.emplace_back(checks_table(view.declined));
  }
  const bool mended = std::any_of(view.suspects.begin(), view.suspects.end(),
                                  [](const SuspectView& each) { return !each.mended.empty(); });
  if (!view.closed && !mended && !view.next.empty()) {
    const std::size_t count = std::min(open_max, view.next.size());
    blocks.emplace_back(Heading{"Checks that would tell most, best first"});
    blocks.emplace_back(
        checks_table({view.next.begin(), view.next.begin() + static_cast<std::ptrdiff_t>(count)}));
  }
}

void add_bench_access(Blocks& blocks, const CaseView& view) {
  std::vector<std::string> open;
  for (const auto& access : view.access) {
    if (access.open) {
      open.push_back(access.title);
    }
  }
  if (!open.empty()) {
    blocks.emplace_back(Heading{"Open as this is printed"});
    blocks.emplace_back(Points{open});
  }
}

void add_bench_log(Blocks& blocks, const CaseView& view) {
  blocks.emplace_back(Heading{"Log"});
  Table table{{{"Step", true}, {"When", true}, {"What"}}, {}};
  for (const auto& line : view.log) {
    table.rows.push_back(
        {std::to_string(line.event), line.when, line.text + (line.undone ? " (taken back)" : "")});
  }
  blocks.emplace_back(table);
}

}  // namespace dryout::report
