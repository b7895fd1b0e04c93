#include "app/guided_session.h"

#include <algorithm>
#include <ostream>

#include "app/print_view.h"
#include "casework/check_command.h"
#include "casework/measuring_at.h"
#include "casework/words.h"
#include "quantities/measure.h"

namespace dryout::app {
namespace {

constexpr const char* keys =
    "  b looked bad   g looked good   u unclear   m VALUE a number was read   c can't or won't\n"
    "  a another check   o opened something   s suspects   e evidence   y symptoms   z undo\n"
    "  r repaired   n note   q leave (all is kept)";

}  // namespace

void GuidedSession::refresh(const quantities::Result<casework::CaseView>& view) {
  if (view) {
    view_ = *view;
    chosen_ = 0;
  } else {
    talk_.out() << quantities::describe(view.problems());
  }
}

bool GuidedSession::apply(const casework::Command& command) {
  return show_step(workshop_.enter(view_.number, command));
}

bool GuidedSession::show_step(const quantities::Result<quantities::Done>& entered) {
  if (!entered) {
    talk_.out() << quantities::describe(entered.problems());
    // The store may no longer have what was shown.
    if (const auto anew = figures_.of(workshop_, view_.number)) {
      view_ = *anew;
    }
    return false;
  }
  refresh(figures_.of(workshop_, view_.number));
  return true;
}

Exit GuidedSession::work(std::int64_t number) {
  const auto view = figures_.of(workshop_, number);
  if (!view) {
    talk_.out() << quantities::describe(view.problems());
    return Exit::wrong_input;
  }
  view_ = *view;
  const bool untold = std::none_of(view_.symptoms.begin(), view_.symptoms.end(),
                                   [](const auto& symptom) { return !symptom.seen.empty(); });
  if (untold) {
    for (const casework::CautionView& hazard : view_.hazards) {
      talk_.out() << "CAUTION, " << hazard.title << ": " << hazard.wording << '\n';
    }
    ask_symptoms();
  }
  while (!view_.closed && turn()) {
  }
  talk_.out() << "Case " << number << " is kept: `dryout guide " << number << "` goes on.\n";
  return Exit::done;
}

void GuidedSession::propose() {
  talk_.out() << '\n' << view_.leading.sentence << '\n';
  print_notices(talk_.out(), view_);
  if (!view_.contradiction.empty()) {
    talk_.out() << "Contradiction: " << view_.contradiction << " (z takes the last step back)\n";
  }
  print_suspects(talk_.out(), view_, 4);
  if (chosen_ < view_.next.size()) {
    talk_.out() << "\nDo this next. ";
    print_check(talk_.out(), view_.next[chosen_]);
  } else {
    talk_.out() << "\nNo further check would change the picture.\n";
  }
}

void GuidedSession::take_up_edits() {
  const auto edited = workshop_.take_up_edits();
  if (!edited) {
    talk_.out() << "\nThe knowledge was edited, but not well; the last good one stays in use.\n"
                << quantities::describe(edited.problems());
  } else if (*edited) {
    talk_.out() << "\nThe knowledge was edited and is in use now.\n";
    refresh(figures_.of(workshop_, view_.number));
  }
}

bool GuidedSession::turn() {
  take_up_edits();
  propose();
  const auto said = talk_.ask(std::string(keys) + "\n>");
  if (!said || *said == "q") {
    return false;
  }
  if (said->empty()) {
    return true;
  }
  const auto rest = said->find_first_not_of(' ', 1);
  return answer_key(said->front(), rest == std::string::npos ? "" : said->substr(rest));
}

bool GuidedSession::answer_key(char key, const std::string& rest) {
  switch (key) {
    case 'b':
      record(casework::Seen::yes);
      break;
    case 'g':
      record(casework::Seen::no);
      break;
    case 'u':
      record(casework::Seen::unclear);
      break;
    case 'm':
      measure(rest);
      break;
    case 'c':
      decline();
      break;
    case 'a':
      choose_alternative();
      break;
    case 'o':
      open_access();
      break;
    case 's':
      print_boards(talk_.out(), view_);
      print_suspects(talk_.out(), view_, 15);
      break;
    case 'e':
      explain();
      break;
    case 'y':
      ask_symptoms();
      break;
    case 'z':
      (void)show_step(workshop_.enter_undo(view_.number));
      break;
    case 'r':
      mend();
      break;
    case 'n':
      (void)apply(casework::AddNote{rest});
      break;
    default:
      talk_.out() << "No such key.\n";
  }
  return true;
}

bool GuidedSession::heeds(const std::vector<casework::CautionView>& cautions,
                          const std::string& reminder) {
  print_cautions(talk_.out(), cautions, reminder, "");
  return talk_.ask("Type heeded when you have read this and keep to it:") == "heeded";
}

bool GuidedSession::heeded() {
  const casework::CheckView& check = view_.next[chosen_];
  if (check.acknowledged) {
    return true;
  }
  const casework::AcknowledgeCautions heeding{check.check, check.place};
  if (!heeds(check.cautions, check.reminder)) {
    talk_.out() << "Then leave this check alone (c), or take another (a).\n";
    return false;
  }
  const std::size_t kept = chosen_;
  const bool done = apply(heeding);
  chosen_ = std::min(kept, view_.next.empty() ? 0 : view_.next.size() - 1);
  return done;
}

void GuidedSession::record(casework::Seen bad) {
  if (chosen_ >= view_.next.size()) {
    talk_.out() << "There is no check on the table.\n";
    return;
  }
  const std::string check = view_.next[chosen_].check;
  const std::string place = view_.next[chosen_].place;
  if (heeded()) {
    (void)apply(casework::RecordOutcome{check, place, bad, ""});
  }
}

/// Asked only where the set's own description does not know.
void GuidedSession::ask_across(casework::RecordReading& reading) {
  if (chosen_ < view_.next.size() && view_.next[chosen_].place == reading.item &&
      !view_.next[chosen_].across.empty()) {
    talk_.out() << "Across it, by the description of the set: "
                << view_.next[chosen_].across_because << ".\n";
    return;
  }
  const std::string across =
      talk_
          .ask(
              "What else is across it? (nothing, ceramic, electrolytic, winding, regulator,"
              " low-resistor; empty = unknown)")
          .value_or("");
  reading.across =
      casework::choice_of<casework::Across>(across).value_or(casework::Across::unknown);
}

void GuidedSession::measure(const std::string& number) {
  casework::RecordReading reading;
  const std::string kind =
      talk_
          .ask(
              "What was read? (esr, impedance, capacitance, leakage-current, dc-resistance,"
              " ripple, dc-volts; empty = esr)")
          .value_or("");
  const auto choice = casework::choice_of<casework::ReadingKind>(kind.empty() ? "esr" : kind);
  if (!choice) {
    talk_.out() << "No such kind of reading.\n";
    return;
  }
  reading.kind = *choice;
  const quantities::Measure measure = casework::measure_of(*choice);
  const auto value = quantities::parse_measure(number, measure);
  if (!value) {
    talk_.out() << quantities::describe(value.problems());
    return;
  }
  reading.value = *value;
  const quantities::Unit unit = casework::unit_of(*choice);
  talk_.out() << "Understood: " << quantities::format_engineering(*value, unit, 6) << '\n';
  reading.item = talk_.ask("At which part or group? (C12, or a group id)").value_or("");
  const auto* place = casework::measuring_at(view_, reading.item, reading.kind);
  if (place != nullptr && !place->acknowledged) {
    const casework::AcknowledgeCautions heeding{place->item, place->kinds.front()};
    if (!heeds(place->cautions, place->reminder) || !apply(heeding)) {
      talk_.out() << "Then nothing is measured there.\n";
      return;
    }
  }
  ask_across(reading);
  const std::string limit = talk_.ask("Limit from the data sheet, if at hand:").value_or("");
  if (!limit.empty()) {
    const auto parsed = quantities::parse_limit(limit, measure);
    if (!parsed) {
      talk_.out() << quantities::describe(parsed.problems());
      return;
    }
    reading.limit = *parsed;
    talk_.out() << "Understood: " << quantities::format_engineering(*parsed, unit, 6) << '\n';
    reading.limit_source = "datasheet";
  }
  if (apply(reading) && !view_.readings.empty()) {
    talk_.out() << view_.readings.back().sentence << '\n';
  }
}

void GuidedSession::decline() {
  if (chosen_ >= view_.next.size()) {
    return;
  }
  const casework::CheckView& check = view_.next[chosen_];
  const std::string reason = talk_.ask("Why? (a word will do)").value_or("");
  (void)apply(casework::DeclineCheck{check.check, check.place, reason});
}

void GuidedSession::choose_alternative() {
  std::vector<std::string> titles;
  std::vector<std::string> marks;
  for (const casework::CheckView& check : view_.next) {
    titles.push_back(check.title + ": " + check.place_title + " (" +
                     quantities::format_duration(check.effort) + ")");
    marks.push_back(check.check + ' ' + check.place);
  }
  chosen_ = talk_.pick("Which one?", titles, marks).value_or(chosen_);
}

void GuidedSession::open_access() {
  std::vector<std::string> titles;
  for (const casework::AccessView& access : view_.access) {
    titles.push_back(access.title + (access.open ? "  [open]" : ""));
  }
  const auto picked = talk_.pick("What is open now?", titles, titles);
  if (picked) {
    (void)apply(casework::OpenAccess{view_.access[*picked].id});
  }
}

void GuidedSession::explain() {
  std::vector<std::string> titles;
  std::vector<std::string> marks;
  for (const casework::SuspectView& suspect : view_.suspects) {
    titles.push_back(suspect.title + "  " + percent(suspect.suspicion.value()));
    marks.push_back(suspect.item);
  }
  if (const auto picked = talk_.pick("Whose evidence?", titles, marks)) {
    print_explanation(talk_.out(), view_.suspects[*picked]);
  }
}

void GuidedSession::mend() {
  std::vector<std::string> titles;
  std::vector<std::string> marks;
  for (const casework::SuspectView& suspect : view_.suspects) {
    titles.push_back(suspect.title + "  " + percent(suspect.suspicion.value()));
    marks.push_back(suspect.item);
  }
  const auto picked = talk_.pick("What was mended?", titles, marks);
  if (!picked) {
    return;
  }
  const std::string item = view_.suspects[*picked].item;
  const std::string done = talk_.ask("How? (replaced, resoldered, cleaned, adjusted)").value_or("");
  const std::string fitted = talk_.ask("What went in? (maker, series, value, volts)").value_or("");
  if (apply(casework::RecordRepair{item, done.empty() ? "replaced" : done, fitted})) {
    prove();
  }
}

void GuidedSession::prove() {
  bool cured = true;
  for (const casework::SymptomView& symptom : std::vector(view_.symptoms)) {
    if (symptom.seen != "yes") {
      continue;
    }
    const auto said = talk_.ask("Is \"" + symptom.title + "\" gone? (y/n, empty = not yet tried)");
    if (!said || said->empty()) {
      cured = false;
      continue;
    }
    const bool still_there = *said != "y";
    cured = cured && !still_there;
    (void)apply(casework::RetestSymptom{symptom.id, still_there});
  }
  if (!cured) {
    return;
  }
  if (talk_.ask("Close the case? (y/n)").value_or("n") == "y") {
    const std::string cause =
        view_.suspects.empty() ? ""
                               : talk_.ask("Cause (suspect id, empty = none found):").value_or("");
    (void)apply(casework::CloseCase{cause, ""});
  }
}

}  // namespace dryout::app
