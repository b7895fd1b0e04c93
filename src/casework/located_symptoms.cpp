#include "casework/located_symptoms.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>
#include <utility>

#include "casework/word_list.h"
#include "quantities/holds.h"

namespace dryout::casework {
namespace {

using diagnosis::PlacedAnswer;
using knowledge::Axis;
using knowledge::SignalPlaces;
using quantities::Problems;

constexpr int minutes_most = 600;
constexpr std::string_view after_minutes = "minutes=";

using AxisWord = std::pair<Axis, const std::string*>;
std::array<AxisWord, 4> told_in(const SymptomPlace& where) {
  return {{{Axis::channel, &where.channel},
           {Axis::band, &where.band},
           {Axis::path, &where.path},
           {Axis::source, &where.source}}};
}

/// "minutes=10" as a number; nothing where it is none from 1 to 600.
std::optional<int> minutes_in(std::string_view when) {
  if (!when.starts_with(after_minutes)) {
    return std::nullopt;
  }
  const std::string_view digits = when.substr(after_minutes.size());
  int minutes = 0;
  const auto [stop, error] = std::from_chars(digits.data(), digits.data() + digits.size(), minutes);
  const bool whole = error == std::errc() && stop == digits.data() + digits.size();
  return whole && minutes >= 1 && minutes <= minutes_most ? std::optional(minutes) : std::nullopt;
}

std::vector<std::string> ids_on(const SignalPlaces& places, Axis axis) {
  std::vector<std::string> ids;
  for (const knowledge::NamedPlace& place : places.on(axis)) ids.push_back(place.id);
  return ids;
}

/// "channel=left, right; source=phono, tuner", or that there is nothing.
std::string places_it_has(const SignalPlaces& places) {
  std::vector<std::string> axes;
  for (const Axis axis : {Axis::channel, Axis::band, Axis::path, Axis::source}) {
    if (!places.on(axis).empty()) {
      axes.push_back(std::string(knowledge::word_of(axis)) + '=' + in_a_row(ids_on(places, axis)));
    }
  }
  std::string text;
  for (const std::string& axis : axes) text += (text.empty() ? "" : "; ") + axis;
  return text.empty() ? "no place: this equipment has one of each" : text;
}

void refuse_unless_one_of(const std::string& what, const std::string& word,
                          const std::vector<std::string>& words, Problems& problems) {
  if (!word.empty() && !quantities::holds(words, word)) {
    problems.push_back({"unknown word for " + what, {}, word, in_a_row(words)});
  }
}

}  // namespace

bool same_place(const SymptomPlace& a, const SymptomPlace& b) {
  return a.channel == b.channel && a.band == b.band && a.path == b.path && a.source == b.source;
}

bool anywhere(const SymptomPlace& where) { return where == SymptomPlace{}; }

Problems wrong_place(const Ground& ground, const ReportSymptom& report) {
  Problems problems;
  const SymptomPlace& where = report.where;
  if (anywhere(where)) {
    return problems;
  }
  const SignalPlaces places(*ground.knowledge, *ground.equipment);
  for (const auto& [axis, word] : told_in(where)) {
    if (word->empty() || places.find_on(axis, *word)) continue;
    const std::string name(knowledge::word_of(axis));
    if (places.on(axis).empty()) {
      problems.push_back({"this equipment has no places by " + name,
                          {},
                          name + '=' + *word,
                          places_it_has(places)});
    } else {
      problems.push_back(
          {"this equipment has no such " + name, {}, *word, in_a_row(ids_on(places, axis))});
    }
  }
  refuse_unless_one_of("whether it follows the volume", where.follows, {"volume", "not"}, problems);
  refuse_unless_one_of("the rate of a hum", where.rate, {"mains", "twice"}, problems);
  if (!where.follows.empty() && places.on(Axis::control).empty()) {
    problems.push_back({"this equipment has no volume control on its path",
                        {},
                        where.follows,
                        "nothing said of the volume"});
  }
  const auto* symptom = knowledge::find(ground.knowledge->symptoms, report.symptom);
  if (!where.rate.empty() && symptom != nullptr && !has_rate(*symptom)) {
    problems.push_back({"only a hum has a rate", {}, where.rate, "nothing said of the rate"});
  }
  if (!where.when.empty() && where.when != "cold" && where.when != "warm" && where.when != "load" &&
      !minutes_in(where.when)) {
    problems.push_back(
        {"unknown word for when it comes",
         {},
         where.when,
         "cold, warm, load, or minutes=M with M from 1 to " + std::to_string(minutes_most)});
  }
  return problems;
}

std::string words_of(const knowledge::Equipment& equipment, const SymptomPlace& where) {
  std::vector<std::string> words;
  const auto named = [&](const auto& list, const std::string& id) {
    const auto* found = knowledge::find(list, id);
    if (!id.empty()) words.push_back(found == nullptr ? id : found->title);
  };
  named(equipment.channels, where.channel);
  named(equipment.bands, where.band);
  if (!where.path.empty()) words.push_back("on " + where.path);
  named(equipment.sources, where.source);
  if (!where.follows.empty()) {
    words.emplace_back(where.follows == "volume" ? "follows the volume"
                                                 : "stays with the volume down");
  }
  if (!where.rate.empty()) {
    words.emplace_back(where.rate == "mains" ? "at mains rate" : "at twice mains rate");
  }
  if (const auto minutes = minutes_in(where.when)) {
    words.push_back("after " + std::to_string(*minutes) + (*minutes == 1 ? " minute" : " minutes"));
  } else if (!where.when.empty()) {
    words.push_back(where.when == "load" ? "under load" : "when " + where.when);
  }
  return in_a_row(words);
}

bool has_rate(const knowledge::Symptom& symptom) {
  return std::any_of(symptom.shows.begin(), symptom.shows.end(), [](const auto& shows) {
    return shows.phenomenon.find("hum") != std::string::npos ||
           shows.phenomenon.find("ripple") != std::string::npos ||
           shows.phenomenon.find("buzz") != std::string::npos;
  });
}

PlacedAnswer placed_answer(const SignalPlaces& places, const ReportSymptom& report) {
  PlacedAnswer answer;
  answer.present = report.seen == Seen::yes;
  for (const auto& [axis, word] : told_in(report.where)) {
    if (!word->empty()) answer.at.at(static_cast<std::size_t>(axis)) = places.find_on(axis, *word);
  }
  if (!places.on(Axis::control).empty()) {
    answer.volume = report.where.follows == "volume" ? PlacedAnswer::Volume::follows
                    : report.where.follows == "not"  ? PlacedAnswer::Volume::stays
                                                     : PlacedAnswer::Volume::unsaid;
  }
  answer.rate = report.where.rate == "mains"   ? PlacedAnswer::Rate::mains
                : report.where.rate == "twice" ? PlacedAnswer::Rate::twice
                                               : PlacedAnswer::Rate::unsaid;
  // What comes after some minutes comes with the warmth.
  answer.condition = minutes_in(report.where.when) ? "warm" : report.where.when;
  return answer;
}

}  // namespace dryout::casework
