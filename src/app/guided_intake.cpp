// The first half of a guided session: who stands at the counter and what is wrong.
#include <algorithm>
#include <charconv>
#include <ostream>
#include <sstream>

#include "app/guided_session.h"
#include "complaints/complaint_reader.h"

namespace dryout::app {
namespace {

constexpr int year_first = 1920;
constexpr int year_last = 2100;

std::optional<int> year_of(const std::string& text) {
  int year = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, year);
  const bool plausible = year >= year_first && year <= year_last;
  return error == std::errc() && stop == end && plausible ? std::optional(year) : std::nullopt;
}

/// So many cases are offered, those changed last first; `dryout case list WORDS` finds older ones.
constexpr int offered_most = 200;

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += word + ' ';
  }
  return text;
}

}  // namespace

std::optional<std::int64_t> GuidedSession::begin() {
  const auto cases = workshop_.cases(offered_most);
  if (!cases) {
    talk_.out() << quantities::describe(cases.problems());
    return std::nullopt;
  }
  std::vector<std::string> titles{"A new set"};
  std::vector<std::string> marks{"new"};
  for (const casework::CaseSummary& summary : *cases) {
    titles.push_back("Case " + std::to_string(summary.number) + ", " + summary.state + ": " +
                     summary.set_name + " (" + summary.complaint + ")");
    marks.push_back(summary.equipment_title + ' ' + summary.owner);
  }
  const auto picked =
      talk_.pick("What is on the bench? (number, or words to narrow the list)", titles, marks);
  if (!picked) {
    return std::nullopt;
  }
  return *picked == 0 ? take_in() : std::optional((*cases)[*picked - 1].number);
}

std::optional<std::int64_t> GuidedSession::take_in() {
  std::vector<std::string> titles;
  std::vector<std::string> marks;
  for (const knowledge::Equipment& equipment : workshop_.knowledge().equipment) {
    titles.push_back(equipment.title);
    marks.push_back(equipment.id + ' ' + equipment.family);
  }
  const auto picked =
      talk_.pick("What kind of set is it? (number, or words to narrow the list)", titles, marks);
  if (!picked) {
    return std::nullopt;
  }
  casework::TakeIn intake;
  intake.equipment = workshop_.knowledge().equipment[*picked].id;
  intake.set_name = talk_.ask("Maker and model, as the owner says it:").value_or("");
  if (intake.set_name.empty()) {
    intake.set_name = titles[*picked];
  }
  const std::string built = talk_.ask("Year it was built (empty if unknown):").value_or("");
  intake.year_built = year_of(built);
  if (!built.empty() && !intake.year_built) {
    talk_.out() << "Not a year from " << year_first << " to " << year_last << "; left open.\n";
  }
  intake.owner = talk_.ask("Owner:").value_or("");
  intake.complaint =
      talk_.ask("The complaint, in the owner's words (empty: none, it is only old):").value_or("");
  const complaints::Beside beside{intake.equipment, intake.year_built};
  for (const auto& each : workshop_.complaint_reader().read(intake.complaint, beside).elsewhere) {
    talk_.out() << "Perhaps nothing for this program: " << each.title << ". " << each.advice
                << '\n';
  }
  const auto number = workshop_.start(intake);
  if (!number) {
    talk_.out() << quantities::describe(number.problems());
    return std::nullopt;
  }
  talk_.out() << "Case " << *number << " is open; every answer is kept as you give it.\n";
  return *number;
}

void GuidedSession::ask_symptoms() {
  ask_complaint_symptoms(
      "Which of these do you find yourself? (number, words to narrow, empty line to go on)");
}

std::vector<std::size_t> GuidedSession::offered_symptoms(std::size_t& fitting) const {
  constexpr std::size_t fitting_most = 6;
  std::vector<std::size_t> order;
  if (!view_.complaint.empty()) {
    const complaints::Beside beside{view_.equipment, view_.year_built};
    for (const auto& heard : workshop_.complaint_reader().read(view_.complaint, beside).symptoms) {
      for (std::size_t i = 0; i < view_.symptoms.size() && order.size() < fitting_most; ++i) {
        if (view_.symptoms[i].id == heard.id) order.push_back(i);
      }
    }
  }
  fitting = order.size();
  for (std::size_t i = 0; i < view_.symptoms.size(); ++i) {
    if (std::find(order.begin(), order.end(), i) == order.end()) order.push_back(i);
  }
  return order;
}

namespace {

/// A word that says where or when, and the member that it fills.
struct PlaceWord {
  std::string word;
  std::string casework::SymptomPlace::*member;
  std::string means;
};

std::vector<PlaceWord> place_words(const casework::CaseView& view,
                                   const casework::SymptomView& symptom) {
  using Place = casework::SymptomPlace;
  std::vector<PlaceWord> words;
  for (const casework::PlaceAxisView& axis : view.places) {
    const auto member = axis.axis == "channel" ? &Place::channel
                        : axis.axis == "band"  ? &Place::band
                        : axis.axis == "path"  ? &Place::path
                                               : &Place::source;
    for (const auto& choice : axis.choices) words.push_back({choice.id, member, choice.id});
  }
  if (view.has_volume && (symptom.has_rate || symptom.family == "audio")) {
    words.push_back({"volume", &Place::follows, "volume"});
    words.push_back({"stays", &Place::follows, "not"});
  }
  if (symptom.has_rate) {
    words.push_back({"mains", &Place::rate, "mains"});
    words.push_back({"twice", &Place::rate, "twice"});
  }
  for (const char* when : {"cold", "warm", "load"}) words.push_back({when, &Place::when, when});
  return words;
}

}  // namespace

/// "y", "y left stays", "n right": what is there, and where and when, in words of this equipment.
casework::ReportSymptom GuidedSession::ask_report(const casework::SymptomView& symptom) {
  const std::vector<PlaceWord> words = place_words(view_, symptom);
  std::string accepted;
  for (const PlaceWord& each : words) accepted += (accepted.empty() ? "" : ", ") + each.word;
  while (true) {
    std::istringstream said(
        talk_
            .ask("Is it there? (y yes, n no, u cannot tell; behind it where and when, as far as "
                 "it is known: " +
                 accepted + ")")
            .value_or("u"));
    std::string word;
    said >> word;
    casework::ReportSymptom report{symptom.id, word == "y"   ? casework::Seen::yes
                                               : word == "n" ? casework::Seen::no
                                                             : casework::Seen::unclear};
    bool understood = true;
    while (said >> word) {
      const auto found = std::find_if(words.begin(), words.end(),
                                      [&](const PlaceWord& each) { return each.word == word; });
      understood = understood && found != words.end();
      if (found != words.end()) report.where.*(found->member) = found->means;
    }
    if (understood) return report;
    talk_.out() << "Not understood: y, n or u, then words of these: " << accepted << ".\n";
  }
}

/// Who says "on the left" has heard the right: one key keeps it.
void GuidedSession::ask_other_channels(const casework::SymptomView& symptom,
                                       const std::string& channel) {
  for (const casework::PlaceAxisView& axis : std::vector(view_.places)) {
    if (axis.axis != "channel") continue;
    for (const auto& choice : axis.choices) {
      if (choice.id == channel) continue;
      const std::string said =
          talk_.ask(choice.title + ": is it there too? (y yes, n no, it is fine, empty line)")
              .value_or("");
      if (said != "y" && said != "n") continue;
      casework::ReportSymptom report{symptom.id,
                                     said == "y" ? casework::Seen::yes : casework::Seen::no};
      report.where.channel = choice.id;
      (void)apply(report);
    }
  }
}

void GuidedSession::ask_complaint_symptoms(const std::string& question) {
  while (true) {
    std::vector<std::string> titles;
    std::vector<std::string> marks;
    std::size_t fitting = 0;
    const std::vector<std::size_t> order = offered_symptoms(fitting);
    for (const std::size_t place : order) {
      const casework::SymptomView& symptom = view_.symptoms[place];
      titles.push_back(symptom.title + (symptom.seen.empty() ? "" : "  [" + symptom.seen + "]") +
                       (titles.size() < fitting ? "  (sounds like what the owner said)" : ""));
      marks.push_back(symptom.id + ' ' + symptom.family + ' ' + joined(symptom.owner_words));
    }
    const auto picked = talk_.pick(question, titles, marks);
    if (!picked) {
      return;
    }
    const casework::SymptomView symptom = view_.symptoms[order[*picked]];
    talk_.out() << "Quick test: " << symptom.quick_test << '\n';
    const casework::ReportSymptom report = ask_report(symptom);
    (void)apply(report);
    if (report.seen == casework::Seen::yes && !report.where.channel.empty()) {
      ask_other_channels(symptom, report.where.channel);
    }
    talk_.out() << view_.leading.sentence << '\n';
  }
}

}  // namespace dryout::app
