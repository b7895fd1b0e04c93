// dryout life: how long an electrolytic serves at the temperature where it sits.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <ostream>
#include <sstream>

#include "app/commands.h"
#include "app/typed_numbers.h"
#include "decision/life.h"
#include "quantities/printed_number.h"

namespace dryout::app {
namespace {

using decision::Spell;
using documents::Value;
using quantities::Measure;

constexpr const char* no_limit =
    "An estimate of when wear begins, not a limit: it neither clears a part nor condemns one. "
    "Measure it.";
constexpr const char* not_covered =
    "Not in it: what its own ripple current heats the part by inside (put --at as much higher), "
    "years on the shelf, a seal that seeps, volts above the "
    "mark. The makers' rule of a doubling for each 10 \u00b0C less is held to hold between 40 and "
    "105 \u00b0C.";
constexpr const char* reckoned_at_40 =
    "Below 40 \u00b0C the rule is not held to hold: what is cooler is reckoned as if at 40 "
    "\u00b0C.";
constexpr const char* others_first =
    "By the rule it would be longer still. Beyond 15 years other things end a part first: its "
    "seal, "
    "its chemistry on the shelf, the set around it (common practice, no source).";
constexpr const char* hot_inside =
    "A thermometer goes in with the power off and what stores charge discharged: local electrical "
    "codes, licensed practice and the maker's instructions come first.";

struct LifeWords {
  std::string& hours;
  std::string& rated_at;
  std::string& at;
  std::string& used;
};

constexpr double rule_from = 40.0;  // degrees Celsius: below, the makers' rule is not held to hold
constexpr double hours_a_year = 8766.0;
constexpr double years_most = 15.0;  // common practice, no source

/// Above its rating nobody has tested the part, and the rule would give a figure all the same.
void refuse_above_rating(const decision::Endurance& endurance, const std::vector<Spell>& cycle,
                         TypedNumbers& numbers) {
  for (const Spell& spell : cycle) {
    if (spell.at.degrees() > endurance.at.degrees()) {
      numbers.complain(
          {"this is above the temperature the part is rated for: its sheet says "
           "nothing of how long it lasts there, and it does not belong there",
           {"--at", 0, {}},
           quantities::format(spell.at),
           "up to " + quantities::format(endurance.at) +
               ", or a part that is rated for more (--rated-at)"});
    }
  }
}

/// Takes what is cooler than the rule reaches as if it were at its end; whether anything was.
bool take_up_to_rule(std::vector<Spell>& cycle) {
  bool cooler = false;
  for (Spell& spell : cycle) {
    cooler = cooler || spell.at.degrees() < rule_from;
    spell.at = quantities::Celsius(std::max(spell.at.degrees(), rule_from));
  }
  return cooler;
}

/// "55", or "8@45,8@55,8@65": hours at a temperature, again and again.
std::vector<Spell> read_cycle(const std::string& text, TypedNumbers& numbers) {
  std::vector<Spell> cycle;
  std::istringstream list(text);
  for (std::string each; std::getline(list, each, ',');) {
    const std::size_t at = each.find('@');
    const std::string hours = at == std::string::npos ? "1" : each.substr(0, at);
    const std::string celsius = at == std::string::npos ? each : each.substr(at + 1);
    cycle.push_back({quantities::hours(numbers.required("--at", hours, Measure::endurance_hours)),
                     quantities::Celsius(numbers.required("--at", celsius, Measure::temperature))});
  }
  return cycle;
}

Exit life(const Terminal& terminal, const LifeWords& words) {
  TypedNumbers numbers;
  const decision::Endurance endurance{
      quantities::hours(numbers.required("--hours", words.hours, Measure::endurance_hours)),
      quantities::Celsius(numbers.required("--rated-at", words.rated_at, Measure::temperature))};
  std::vector<Spell> cycle = read_cycle(words.at, numbers);
  if (cycle.empty()) {
    numbers.complain({"this number is needed", {"--at", 0, {}}, "", "55, or 8@45,16@60"});
  }
  if (numbers.problems().empty()) {
    refuse_above_rating(endurance, cycle, numbers);
  }
  const auto used = numbers.optional("--used", words.used, Measure::share_of_mark);
  if (!numbers.problems().empty()) {
    return refuse(terminal, numbers.problems());
  }
  const bool cooler = take_up_to_rule(cycle);
  const quantities::Celsius like = decision::equivalent_temperature(endurance, cycle);
  const quantities::Second expected =
      used ? decision::life_at(endurance, like, *used) : decision::life_at(endurance, like);
  const double by_rule = quantities::in_hours(expected);
  const double hours = std::min(by_rule, years_most * hours_a_year);
  std::vector<const char*> cautions{no_limit, not_covered, hot_inside};
  if (cooler) {
    cautions.push_back(reckoned_at_40);
  }
  if (by_rule > hours) {
    cautions.push_back(others_first);
  }
  if (terminal.json) {
    Value said = Value::array();
    for (const char* caution : cautions) said.append(caution);
    return answer(terminal, Value::object({{"hours", hours},
                                           {"or_more", by_rule > hours},
                                           {"years_without_pause", hours / hours_a_year},
                                           {"equivalent_C", like.degrees()},
                                           {"cautions", said}}));
  }
  terminal.out << "lasts       " << (by_rule > hours ? "more than " : "")
               << quantities::whole_number(hours) << " h, "
               << std::round(hours / hours_a_year * 10.0) / 10.0
               << " years without a pause\nas if at    "
               << quantities::format(quantities::Celsius(std::round(like.degrees() * 10.0) / 10.0))
               << " all the time\n";
  for (const char* caution : cautions) {
    terminal.out << "CAUTION. " << caution << '\n';
  }
  return Exit::done;
}

}  // namespace

void add_life(Commands& commands) {
  const LifeWords words{commands.text(), commands.text("105"), commands.text(), commands.text()};
  CLI::App* command = commands.add(
      "life", "How long an electrolytic serves where it sits, by the makers' rule",
      [words](const Invocation& invocation) { return life(invocation.terminal, words); });
  command->add_option("--hours", words.hours, "Endurance on the sheet, 2000");
  command->add_option("--rated-at", words.rated_at, "Its temperature, degrees Celsius")
      ->capture_default_str();
  command->add_option("--at", words.at, "Where it sits: 55, or hours at each, 8@45,16@60");
  command->add_option("--used", words.used, "Volts across it over its mark, 0 to 1");
}

}  // namespace dryout::app
