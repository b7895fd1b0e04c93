// dryout list symptoms|equipment|checks|rules|...: ids and titles of what the program knows.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iomanip>
#include <ostream>
#include <sstream>

#include "app/commands.h"
#include "knowledge/load.h"
#include "quantities/engineering_notation.h"
#include "readings/limits_library.h"

namespace dryout::app {
namespace {

using documents::Value;
using knowledge::KnowledgeBase;

struct Line {
  std::string id;
  std::string title;
  std::string because;
  std::string source;
};

std::string source_text(const knowledge::Source& source) {
  switch (source.kind) {
    case knowledge::Source::Kind::published:
      return source.text;
    case knowledge::Source::Kind::memory:
      return "from memory: " + source.text;
    case knowledge::Source::Kind::common_practice:
      return "common practice";
    case knowledge::Source::Kind::judgement:
      break;
  }
  return "judgement";
}

template <class Entries>
void append_lines(std::vector<Line>& lines, const Entries& entries) {
  for (const auto& entry : entries) {
    lines.push_back({entry.id, entry.title.empty() ? entry.because : entry.title, entry.because,
                     source_text(entry.source)});
  }
}

std::vector<Line> lines_of(const KnowledgeBase& knowledge, const std::string& what) {
  std::vector<Line> lines;
  if (what == "symptoms") append_lines(lines, knowledge.symptoms);
  if (what == "equipment") append_lines(lines, knowledge.equipment);
  if (what == "checks") append_lines(lines, knowledge.checks);
  if (what == "roles") append_lines(lines, knowledge.roles);
  if (what == "causes") append_lines(lines, knowledge.causes);
  if (what == "cautions") append_lines(lines, knowledge.cautions);
  if (what == "rules") append_lines(lines, knowledge.links);
  return lines;
}

/// A line matches when every word of the search stands somewhere in it, whatever the case.
bool matches(const Line& line, const std::string& words) {
  std::string hay = line.id + ' ' + line.title + ' ' + line.because;
  std::string needle;
  const auto lower = [](unsigned char c) { return static_cast<char>(std::tolower(c)); };
  std::transform(hay.begin(), hay.end(), hay.begin(), lower);
  std::istringstream stream(words);
  while (stream >> needle) {
    std::transform(needle.begin(), needle.end(), needle.begin(), lower);
    if (hay.find(needle) == std::string::npos) {
      return false;
    }
  }
  return true;
}

Exit print(const Terminal& terminal, const std::string& what, const std::vector<Line>& lines,
           const std::string& words) {
  Value list = Value::array();
  for (const Line& line : lines) {
    if (!matches(line, words)) {
      continue;
    }
    if (terminal.json) {
      list.append(Value::object({{"id", line.id},
                                 {"title", line.title},
                                 {"because", line.because},
                                 {"source", line.source}}));
    } else {
      terminal.out << std::left << std::setw(36) << line.id << ' ' << line.title << '\n';
    }
  }
  return terminal.json ? answer(terminal, Value::object({{what, list}})) : Exit::done;
}

std::string limit_title(const readings::LimitRow& row) {
  std::string title = row.maker + ' ' + row.series;
  if (row.capacitance) title += ", " + quantities::format(*row.capacitance);
  title += ", " + quantities::format(row.rated);
  if (row.impedance_max) title += ", |Z| at most " + quantities::format(*row.impedance_max);
  if (row.esr_max) title += ", ESR at most " + quantities::format(*row.esr_max);
  if (row.tan_delta_max) title += ", tan delta at most " + std::to_string(*row.tan_delta_max);
  return title;
}

Exit list_limits(const Invocation& invocation, const std::string& words) {
  const auto library = readings::load_limits(invocation.surroundings.knowledge);
  if (!library) {
    return refuse(invocation.terminal, library.problems());
  }
  std::vector<Line> lines;
  for (const readings::LimitRow& row : library->rows) {
    const char* mark = row.mark == readings::Mark::read          ? ""
                       : row.mark == readings::Mark::second_hand ? "second-hand: "
                                                                 : "from memory: ";
    lines.push_back({row.id, limit_title(row), row.remark, mark + row.document});
  }
  return print(invocation.terminal, "limits", lines, words);
}

Exit list(const Invocation& invocation, const std::string& what, const std::string& words) {
  if (what == "limits") {
    return list_limits(invocation, words);
  }
  const auto& folders = invocation.surroundings.knowledge;
  const auto knowledge = knowledge::load(folders);
  if (!knowledge) {
    return refuse(invocation.terminal, knowledge.problems());
  }
  return print(invocation.terminal, what, lines_of(*knowledge, what), words);
}

}  // namespace

void add_list(Commands& commands) {
  std::string& what = commands.text();
  std::string& words = commands.text();
  CLI::App* command =
      commands.add("list", "What the program knows: ids and titles",
                   [&](const Invocation& invocation) { return list(invocation, what, words); });
  command->add_option("what", what, "symptoms, equipment, checks, rules, limits, ...")
      ->required()
      ->check(CLI::IsMember(
          {"symptoms", "equipment", "checks", "rules", "limits", "roles", "causes", "cautions"}));
  command->add_option("--find", words, "Only entries that hold all of these words");
}

}  // namespace dryout::app
