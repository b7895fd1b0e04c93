// dryout list [SHELF]: what the program knows, one line an entry, searchable, with sources and the
// rules that touch each entry.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iomanip>
#include <map>
#include <ostream>
#include <set>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/usable_knowledge.h"
#include "casework/library.h"
#include "complaints/complaint_reader.h"
#include "readings/coverage.h"

namespace dryout::app {
namespace {

using casework::LibraryEntry;
using documents::Value;

struct Wish {
  std::string& shelf;
  std::string& words;
  bool& full;
  bool& sources;
  bool& covered;
};

std::string source_text(const LibraryEntry& entry) {
  if (entry.source.empty()) {
    return std::string(casework::word_of_source(entry.kind));
  }
  return (entry.kind == casework::SourceKind::memory ? "from memory: " : "") + entry.source;
}

Value entry_json(const LibraryEntry& entry) {
  Value facts = Value::object();
  for (const auto& [name, fact] : entry.facts) facts.set(name, fact);
  Value touched = Value::array();
  for (const std::string& line : entry.touched_by) touched.append(line);
  return Value::object({{"id", entry.id},
                        {"title", entry.title},
                        {"because", entry.because},
                        {"source", source_text(entry)},
                        {"source_kind", casework::word_of_source(entry.kind)},
                        {"facts", std::move(facts)},
                        {"touched_by", std::move(touched)}});
}

void print(std::ostream& out, const LibraryEntry& entry, bool full) {
  out << std::left << std::setw(36) << entry.id << ' ' << entry.title << '\n';
  if (!full) {
    return;
  }
  if (!entry.because.empty()) out << "    " << entry.because << '\n';
  for (const auto& [name, fact] : entry.facts) out << "    " << name << ": " << fact << '\n';
  out << "    Source: " << source_text(entry) << '\n';
  for (const std::string& line : entry.touched_by) out << "    touched by " << line << '\n';
}

Value counts_json(const std::vector<LibraryEntry>& library) {
  Value counts = Value::object();
  for (std::size_t i = 0; i < casework::shelf_words().size(); ++i) {
    const auto count = casework::count_sources(library, static_cast<casework::Shelf>(i));
    counts.set(std::string(casework::shelf_words()[i]),
               Value::object({{"published", count.published},
                              {"common_practice", count.common_practice},
                              {"judgement", count.judgement},
                              {"from_memory", count.memory}}));
  }
  return counts;
}

/// The entries of a shelf that were asked for. Symptoms come as the complaint reader ranks them,
/// then what else has all the words.
std::vector<const LibraryEntry*> found_on(casework::Shelf shelf,
                                          const std::vector<LibraryEntry>& library,
                                          const std::string& words,
                                          const complaints::ComplaintReader& reader) {
  std::vector<const LibraryEntry*> found;
  if (shelf == casework::Shelf::symptoms && !words.empty()) {
    for (const complaints::HeardSymptom& symptom : reader.read(words).symptoms) {
      const auto entry = std::find_if(library.begin(), library.end(), [&](const auto& each) {
        return each.shelf == shelf && each.id == symptom.id;
      });
      if (entry != library.end()) found.push_back(&*entry);
    }
  }
  for (const LibraryEntry& entry : library) {
    if (entry.shelf == shelf && matches(entry, words) &&
        std::find(found.begin(), found.end(), &entry) == found.end()) {
      found.push_back(&entry);
    }
  }
  return found;
}

Exit print_all(const Terminal& terminal, const std::vector<LibraryEntry>& library,
               const complaints::ComplaintReader& reader, const Wish& wish) {
  Value shelves = Value::object();
  bool any = false;
  for (std::size_t i = 0; i < casework::shelf_words().size(); ++i) {
    const std::string name(casework::shelf_words()[i]);
    if (wish.shelf != "all" && wish.shelf != name) continue;
    Value list = Value::array();
    for (const LibraryEntry* entry :
         found_on(static_cast<casework::Shelf>(i), library, wish.words, reader)) {
      any = true;
      if (terminal.json) {
        list.append(entry_json(*entry));
      } else {
        print(terminal.out, *entry, wish.full);
      }
    }
    shelves.set(name, std::move(list));
  }
  if (terminal.json) (void)answer(terminal, shelves);
  return any || wish.words.empty() ? Exit::done : Exit::answer_is_no;
}

Value counts_json(const std::map<readings::Covered, int>& counts) {
  Value json = Value::object();
  for (const auto& [by, count] : counts) {
    json.set(std::string(readings::word_of(by)), count);
  }
  return json;
}

Value coverage_json(const readings::Coverage& each) {
  const readings::PartDescription& part = each.common.part;
  return Value::object({{"group", each.common.group},
                        {"technology", part.technology},
                        {"body", readings::word_of(part.body)},
                        {"capacitance_F", part.capacitance->si()},
                        {"rated_V", part.rated->si()},
                        {"by", readings::word_of(each.by)},
                        {"kind", readings::word_of(each.kind)},
                        {"row", each.document}});
}

void print(std::ostream& out, const readings::Coverage& each) {
  const readings::PartDescription& part = each.common.part;
  out << std::left << std::setw(20) << each.common.group << ' ' << std::right << std::setw(9)
      << quantities::format(*part.capacitance) << ' ' << std::setw(7)
      << quantities::format(*part.rated) << "  " << std::left << std::setw(11)
      << readings::word_of(each.by) << each.document << '\n';
}

/// Which of the commonest values the limits library knows, and how.
Exit print_coverage(const Invocation& invocation, const readings::LimitsLibrary& library) {
  const Terminal& terminal = invocation.terminal;
  const auto common = readings::load_common_parts(invocation.surroundings.knowledge);
  if (!common) return refuse(terminal, common.problems());
  const auto coverage = readings::coverage_of(library, *common);
  std::map<readings::Covered, int> counts{{readings::Covered::own_row, 0},
                                          {readings::Covered::look_alike, 0},
                                          {readings::Covered::series, 0},
                                          {readings::Covered::usual, 0},
                                          {readings::Covered::nothing, 0}};
  for (const auto& each : coverage) ++counts[each.by];
  if (terminal.json) {
    return answer(terminal, Value::object({{"covered", list_json(coverage, coverage_json)},
                                           {"counts", counts_json(counts)}}));
  }
  for (const auto& each : coverage) print(terminal.out, each);
  terminal.out << coverage.size() << " common values:";
  const char* between = " ";
  for (const auto& [by, count] : counts) {
    terminal.out << between << count << " by " << readings::word_of(by);
    between = ", ";
  }
  terminal.out << '\n';
  return Exit::done;
}

Exit list(const Invocation& invocation, const Wish& wish) {
  const Terminal& terminal = invocation.terminal;
  if (wish.covered && wish.shelf != "limits") {
    return refuse(terminal, {{"--covered tells of the limits alone",
                              {},
                              "list " + wish.shelf + " --covered",
                              "dryout list limits --covered"}});
  }
  const auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) return refuse(terminal, usable.problems());
  tell_left_out(terminal.err, usable->left_out);
  if (wish.covered) return print_coverage(invocation, usable->loaded.readings.limits);
  const std::vector<LibraryEntry> library =
      casework::library_of(usable->loaded.base, usable->loaded.readings);
  if (!wish.sources) {
    const complaints::ComplaintReader reader(usable->loaded.base, usable->loaded.vocabulary);
    return print_all(terminal, library, reader, wish);
  }
  if (terminal.json) {
    return answer(terminal, Value::object({{"sources", counts_json(library)}}));
  }
  terminal.out << casework::source_table(library);
  return Exit::done;
}

}  // namespace

void add_list(Commands& commands) {
  const Wish wish{commands.text("all"), commands.text(), commands.flag(), commands.flag(),
                  commands.flag()};
  CLI::App* command =
      commands.add("list", "What the program knows, with sources and what touches each entry",
                   [wish](const Invocation& invocation) { return list(invocation, wish); });
  std::set<std::string> shelves{"all"};
  for (const std::string_view word : casework::shelf_words()) shelves.emplace(word);
  command->add_option("what", wish.shelf, "symptoms, equipment, checks, rules, limits, ...; or all")
      ->check(CLI::IsMember(shelves));
  command->add_option("--find", wish.words,
                      "Only entries that hold all of these words; of symptoms what an owner means "
                      "by them, best first");
  command->add_flag("--full", wish.full, "Everything an entry says");
  command->add_flag("--covered", wish.covered,
                    "Of limits: which of the hundred commonest values have one, and how");
  command->add_flag("--sources", wish.sources, "How many entries rest on what kind of source");
}

}  // namespace dryout::app
