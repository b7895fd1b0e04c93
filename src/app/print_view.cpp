#include "app/print_view.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <ostream>

#include "app/terminal.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

using casework::CaseView;
using casework::CheckView;

std::string signed_decibans(quantities::Decibans weight) {
  if (!std::isfinite(weight.value)) {
    return weight.value > 0 ? "certain" : "ruled out";
  }
  const std::string figure = quantities::fixed_point(weight.value, 1);
  return (figure.front() == '-' ? "" : "+") + figure + " dB";
}

void print_if_said(std::ostream& out, const char* label, const std::string& text) {
  if (!text.empty()) {
    out << "  " << std::left << std::setw(12) << label << text << '\n';
  }
}

std::string opening(const CheckView& check) {
  std::string text;
  for (std::size_t i = 0; i < check.opens_titles.size(); ++i) {
    text += (text.empty() ? "" : ", then ") + check.opens_titles[i];
    if (i < check.opens.size()) text += " [" + check.opens[i] + ']';
  }
  return text.empty() ? ""
                      : text + " (" + quantities::format_duration(check.access_effort) + " more)";
}

}  // namespace

void print_head(std::ostream& out, const CaseView& view) {
  out << "Case " << view.number << ": " << quantities::shown_line(view.set_name) << " ("
      << view.equipment_title << ")\n";
  if (!view.complaint.empty()) {
    out << "Complaint: " << quantities::shown_line(view.complaint) << '\n';
  }
  out << view.leading.sentence << '\n';
  if (view.complaint.empty() && !view.closed &&
      std::all_of(view.symptoms.begin(), view.symptoms.end(),
                  [](const casework::SymptomView& symptom) { return symptom.seen.empty(); })) {
    out << "Only old, nothing wrong? `dryout decide " << view.number
        << "` says which batches to measure, and when to stop.\n";
  }
  if (!view.contradiction.empty()) {
    out << "Contradiction: " << view.contradiction << '\n';
  }
}

void print_figures(std::ostream& out, const CaseView& view) {
  if (!view.figures.sentence.empty()) {
    out << "Note: " << view.figures.sentence << '\n';
  }
}

void print_suspects(std::ostream& out, const CaseView& view, std::size_t count_max) {
  const std::size_t count = std::min(count_max, view.suspects.size());
  for (std::size_t i = 0; i < count; ++i) {
    const casework::SuspectView& suspect = view.suspects[i];
    out << std::right << std::setw(13) << percent(suspect.suspicion.value()) << "  " << std::left
        << std::setw(44) << quantities::shown_line(suspect.title) << ' '
        << signed_decibans(suspect.weight) << (suspect.capacitor ? "" : "  (not a capacitor)")
        << "\n               " << suspect.item << '\n';
  }
  const casework::Leading& leading = view.leading;
  if (leading.capacitor.value() + leading.other.value() + leading.unlisted.value() > 0.0) {
    out << "A capacitor makes it: " << percent(leading.capacitor.value())
        << "; something else in the list: " << percent(leading.other.value())
        << "; something that is not in the list: " << percent(leading.unlisted.value()) << '\n';
  }
}

namespace {

/// " [lid]": what `dryout case open` takes.
std::string id_to_open(const CaseView& view, const std::string& title) {
  const auto found = std::find_if(view.access.begin(), view.access.end(),
                                  [&](const auto& each) { return each.title == title; });
  return found == view.access.end() ? "" : " [" + found->id + ']';
}

}  // namespace

void print_boards(std::ostream& out, const CaseView& view) {
  for (const casework::BoardView& board : view.boards) {
    out << std::right << std::setw(13) << percent(board.suspicion.value()) << "  " << board.title;
    if (!board.opens_titles.empty()) {
      out << " (behind";
      for (const std::string& title : board.opens_titles) {
        out << ' ' << title << id_to_open(view, title)
            << (&title == &board.opens_titles.back() ? "" : ",");
      }
      out << ": " << quantities::format_duration(board.access_effort) << ')';
    }
    out << '\n';
  }
}

void print_next(std::ostream& out, const CaseView& view, std::size_t count_max) {
  const std::size_t count = std::min(count_max, view.next.size());
  for (std::size_t i = 0; i < count; ++i) {
    const CheckView& check = view.next[i];
    out << std::right << std::setw(2) << i + 1 << ". " << check.title << ": " << check.place_title
        << " (" << quantities::format_duration(check.effort) << ", " << check.state << ")"
        << (check.dangerous ? "  CAUTION" : "") << "\n    " << check.reason << "\n    "
        << check.check << (check.place.empty() ? "" : "@" + check.place) << '\n'
        << (check.opens.empty() ? "" : "    to open: " + opening(check) + '\n');
  }
  if (count == 0) {
    out << "No further check would change the picture.\n";
  }
}

void print_cautions(std::ostream& out, const std::vector<casework::CautionView>& cautions,
                    const std::string& reminder, const std::string& indent) {
  if (!reminder.empty()) {
    out << indent << "CAUTION. " << reminder << '\n';
  }
  for (const casework::CautionView& caution : cautions) {
    if (!caution.read) {
      out << indent << "CAUTION, " << caution.title << ": " << caution.wording << '\n';
    }
  }
}

void print_check(std::ostream& out, const CheckView& check) {
  out << check.title << ": " << check.place_title << '\n';
  print_cautions(out, check.cautions, check.reminder, "  ");
  print_if_said(out, "set is", check.state);
  print_if_said(out, "open", opening(check));
  print_if_said(out, "with", check.instrument);
  print_if_said(out, "probes", check.probes);
  print_if_said(out, "good", check.good);
  print_if_said(out, "bad", check.bad);
  print_if_said(out, "takes", quantities::format_duration(check.effort));
  print_if_said(out, "why now", check.reason);
  print_if_said(out, "because", check.because);
}

void print_measuring(std::ostream& out, const casework::MeasuringView& place) {
  out << "To read";
  for (const std::string& kind : place.kinds) {
    out << (kind == place.kinds.front() ? " " : ", ") << kind;
  }
  out << " there"
      << (place.acknowledged ? "" : ", read this and then `dryout case acknowledge CASE ")
      << (place.acknowledged ? "" : place.item + '@' + place.kinds.front() + "`") << ":\n";
  print_cautions(out, place.cautions, place.reminder, "  ");
}

void print_explanation(std::ostream& out, const casework::SuspectView& suspect) {
  out << suspect.title << ": " << percent(suspect.suspicion.value()) << " (before any evidence "
      << percent(suspect.before.value()) << ", " << signed_decibans(suspect.weight) << ")\n";
  for (const casework::StateShare& share : suspect.states) {
    out << "  " << std::right << std::setw(13) << percent(share.probability.value()) << "  "
        << share.title << '\n';
  }
  for (const casework::EvidenceLine& line : suspect.evidence) {
    out << "  " << std::right << std::setw(13) << signed_decibans(line.weight) << "  " << line.text
        << '\n';
  }
  for (const std::string& path : suspect.paths) {
    out << "  " << path << '\n';
  }
}

void print_plan(std::ostream& out, const casework::PlanStep& step, int depth) {
  const std::string margin(static_cast<std::size_t>(depth) * 4, ' ');
  if (step.leaf) {
    out << margin << "look to " << step.suspect_title << " (" << percent(step.suspicion.value())
        << ")\n";
    return;
  }
  out << margin << step.title << '\n';
  for (const std::size_t outcome : {0U, 1U}) {
    const casework::PlanStep& next = step.then.at(outcome);
    out << margin << (outcome == 0 ? "  bad" : "  good") << " (" << percent(next.reached.value())
        << "):\n";
    print_plan(out, next, depth + 1);
  }
}

void print_damage(std::ostream& out, const std::string& damage) {
  if (!damage.empty()) {
    out << "Note: " << damage << '\n';
  }
}

void print_notices(std::ostream& out, const CaseView& view) {
  for (const std::string& notice : view.notices) {
    out << "Note: " << notice << '\n';
  }
}

void print_log(std::ostream& out, const CaseView& view) {
  for (const casework::LogLine& line : view.log) {
    out << line.when << "  " << quantities::shown_line(line.text)
        << (line.undone ? "  (undone)" : "") << '\n';
  }
}

}  // namespace dryout::app
