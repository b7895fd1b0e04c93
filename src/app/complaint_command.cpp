// dryout complaint TEXT: what an owner says, understood.
#include <CLI/CLI.hpp>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/usable_knowledge.h"
#include "casework/complaint.h"
#include "complaints/complaint_reader.h"
#include "complaints/where_words.h"

namespace dryout::app {
namespace {

using complaints::Heard;
using documents::Value;

struct ComplaintWords {
  std::vector<std::string>& said;
  std::string& equipment;
  int& year;
};

constexpr int year_unknown = 0;
constexpr int year_least = 1900;
constexpr int year_most = 2100;

Value where_json(const complaints::Where& where) {
  Value json = Value::object();
  for (const auto& [name, word] : where) {
    json.set(name, word);
  }
  return json;
}

Value heard_json(const Heard& heard) {
  return Value::object(
      {{"symptoms", list_json(heard.symptoms,
                              [](const complaints::HeardSymptom& each) {
                                return Value::object({{"id", each.id},
                                                      {"title", each.title},
                                                      {"score", each.score},
                                                      {"where", where_json(each.where)}});
                              })},
       {"equipment",
        list_json(
            heard.equipment,
            [](const complaints::HeardEquipment& each) {
              return Value::object({{"id", each.id}, {"title", each.title}, {"score", each.score}});
            })},
       {"elsewhere", list_json(heard.elsewhere, [](const complaints::HeardElsewhere& each) {
          return Value::object({{"id", each.id}, {"title", each.title}, {"advice", each.advice}});
        })}});
}

constexpr std::size_t printed_most = 8;

void print(std::ostream& out, const Heard& heard) {
  if (!heard.symptoms.empty()) {
    out << "Sounds like (and how well the words fit)\n";
    const std::string where = complaints::told(heard.symptoms.front().where);
    for (std::size_t i = 0; i < std::min(printed_most, heard.symptoms.size()); ++i) {
      const complaints::HeardSymptom& symptom = heard.symptoms[i];
      out << "  " << std::left << std::setw(24) << symptom.id << ' ' << symptom.title << "  "
          << percent(symptom.score) << '\n';
    }
    if (!where.empty()) out << "  said with it: " << where << '\n';
  }
  if (!heard.elsewhere.empty()) {
    out << "Perhaps nothing for this program\n";
    for (const complaints::HeardElsewhere& each : heard.elsewhere) {
      out << "  " << each.title << ". " << each.advice << '\n';
    }
  }
  if (!heard.equipment.empty()) {
    out << "Likely equipment\n";
    for (const complaints::HeardEquipment& each : heard.equipment) {
      out << "  " << std::left << std::setw(24) << each.id << ' ' << each.title << '\n';
    }
  }
}

Exit complaint(const Invocation& invocation, const ComplaintWords& words) {
  const Terminal& terminal = invocation.terminal;
  const auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) return refuse(terminal, usable.problems());
  tell_left_out(terminal.err, usable->left_out);
  const knowledge::KnowledgeBase& base = usable->loaded.base;
  if (!words.equipment.empty() && knowledge::find(base.equipment, words.equipment) == nullptr) {
    return refuse(terminal, {casework::unknown("equipment", words.equipment,
                                               casework::ids_of(base.equipment))});
  }
  std::string said;
  for (const std::string& word : words.said) {
    said += (said.empty() ? "" : " ") + word;
  }
  const complaints::ComplaintReader reader(base, usable->loaded.vocabulary);
  complaints::Beside beside{words.equipment, {}};
  if (words.year != year_unknown) beside.year = words.year;
  const Heard heard = reader.read(said, beside);
  if (terminal.json) {
    (void)answer(terminal, heard_json(heard));
  } else if (heard.nothing()) {
    terminal.out << "Nothing known sounds like this. Say what is heard, seen or smelt, and when.\n";
  } else {
    print(terminal.out, heard);
  }
  return heard.nothing() ? Exit::answer_is_no : Exit::done;
}

}  // namespace

void add_complaint(Commands& commands) {
  const ComplaintWords words{commands.list(), commands.text(), commands.number(year_unknown)};
  CLI::App* command = commands.add(
      "complaint", "What an owner says: symptoms, place, likely equipment, or where else to look",
      [words](const Invocation& invocation) { return complaint(invocation, words); });
  command->add_option("text", words.said, "The owner's words")->required();
  command->add_option("--equipment", words.equipment, "Which kind it is: an id");
  command->add_option("--year", words.year, "Built in; shifts which equipment is likely")
      ->check(CLI::Range(year_least, year_most));
}

}  // namespace dryout::app
