#include "window/reading_addition.h"

#include <algorithm>
#include <utility>

#include "casework/measuring_at.h"
#include "quantities/digit.h"
#include "window/caution_panel.h"
#include "window/symptom_search.h"
#include "window/widgets.h"

namespace dryout::window {
namespace {

using casework::CaseView;
using casework::GroupChoice;
using casework::suspect_called;
using casework::SuspectView;

constexpr const char* first_line = "readings/item";
constexpr const char* figure_line = "readings/form/figure";

/// Into the line that is drawn next, where it is due there.
void send_caret(Sheet& sheet, const char* line, ReadingsState& state) {
  if (state.caret == line) {
    sheet.items.focus_on(line);
    state.caret.clear();
  }
}

std::string id_of(const SuspectView& suspect) {
  return suspect.item.substr(suspect.item.find(':') + 1);
}

void draw_kinds(Sheet& sheet, ReadingFormState& form) {
  bool begun = false;
  for (int i = 0; i <= static_cast<int>(casework::ReadingKind::hold_up); ++i) {
    const KindWords& kind = kind_words(static_cast<casework::ReadingKind>(i));
    const ButtonLook look{.weight = form.kind == kind.kind ? Weight::chosen : Weight::plain,
                          .face = Face::note};
    if (row_button(sheet, begun, std::string("readings/kind/") + kind.id, kind.title, look)) {
      form.kind = kind.kind;
    }
  }
}

/// Which group and make the part is of, asked where the case does not know it. The group, or null.
const GroupChoice* draw_belonging(Sheet& sheet, const CaseView& view, ReadingsState& state) {
  const float width = sheet.px(230);
  flow(sheet, width);
  field(sheet, "readings/group", "New here: of which group?", state.group,
        {"its words, or some", width});
  flow(sheet, width);
  field(sheet, "readings/make", "Maker and series", state.make, {"as printed", width});
  const GroupChoice* group = group_by_words(view, state.group);
  if (group != nullptr) {
    say(sheet, Face::note, sheet.theme.faint,
        "One of: " + group->title + ". Parts of one make are judged beside each other.");
  } else if (!state.group.empty()) {
    say(sheet, Face::note, sheet.theme.accuses, "No group of this set has these words.");
  }
  return group;
}

/// False where its cautions must be heeded first; then their button is drawn.
bool draw_dangers(Sheet& sheet, const CaseView& view, const std::string& item, ReadingsState& state,
                  CommandQueue& queue) {
  const auto* place = casework::measuring_at(view, item, state.form.kind);
  if (place == nullptr) {
    return true;
  }
  draw_unread(sheet, place->cautions, place->reminder);
  gap(sheet, 2);
  if (place->acknowledged) {
    return true;
  }
  if (button(sheet, "readings/acknowledge", "Read and heeded",
             {.weight = Weight::next, .key = U'a', .key_needs_sight = true})) {
    queue.push(casework::AcknowledgeCautions{place->item, place->kinds.front()});
    state.caret = figure_line;
  }
  return false;
}

/// Notes the reading; a part that is new is named first.
void enter(const CaseView& view, const GroupChoice* group, ReadingsState& state,
           CommandQueue& queue) {
  ReadingFormState& form = state.form;
  const auto reading = reading_of(form);
  if (!reading) {
    return;
  }
  if (suspect_called(view, form.item) == nullptr) {
    if (form.item.empty() || group == nullptr) {
      form.fault = form.item.empty() ? "Say which part or group it is: a printed name, such as C12."
                                     : form.item + " is new here: say which group it belongs to.";
      return;
    }
    state.group = group->title;  // its brothers belong there, whatever else has these words by then
  }
  push_reading(view, {group == nullptr ? "" : group->id, state.make}, *reading, queue);
  form.figure.clear();
  form.item = next_reference(form.item);
}

}  // namespace

std::string next_reference(const std::string& reference) {
  std::string next = reference;
  for (std::size_t at = next.size(); at > 0 && quantities::is_digit(next[at - 1]); --at) {
    if (next[at - 1] != '9') {
      ++next[at - 1];
      return next;
    }
    next[at - 1] = '0';
    if (at == 1 || !quantities::is_digit(next[at - 2])) {
      next.insert(at - 1, 1, '1');
      return next;
    }
  }
  return reference;
}

const GroupChoice* group_by_words(const CaseView& view, const std::string& words) {
  const GroupChoice* best = nullptr;
  int most = 0;
  for (const GroupChoice& group : view.groups) {
    if (words.empty() || group.id == words || group.title == words) {
      return words.empty() ? nullptr : &group;
    }
    const int matched = words_matched(words, group.title + ' ' + group.id);
    if (matched > most) {
      most = matched;
      best = &group;
    }
  }
  return best;
}

void begin_addition(ReadingsState& state, const CaseView& view, const std::string& group) {
  state.adding = true;
  state.caret = first_line;
  state.form.fault.clear();
  if (const SuspectView* of = suspect_called(view, group)) {
    const bool named = of->kind == "part";
    state.form.item = named ? id_of(*of) : "";
    state.group = named ? state.group : of->title;
  }
}

void draw_addition(Sheet& sheet, const CaseView& view, const casework::Catalogue& catalogue,
                   ReadingsState& state, CommandQueue& queue) {
  ReadingFormState& form = state.form;
  draw_kinds(sheet, form);
  send_caret(sheet, first_line, state);
  bool onward = field(sheet, "readings/item", "Part (printed name) or group", form.item,
                      {"C12", sheet.px(230)});
  const SuspectView* known = suspect_called(view, form.item);
  const GroupChoice* group = known != nullptr ? nullptr : draw_belonging(sheet, view, state);
  const std::string place = known != nullptr ? known->item : group != nullptr ? group->id : "";
  if (!draw_dangers(sheet, view, place, state, queue)) {
    return;
  }
  const KindWords& kind = kind_words(form.kind);
  send_caret(sheet, figure_line, state);
  bool done = draw_figure_field(sheet, "readings/form", kind, form, Face::text);
  done |= draw_limit(sheet, "readings/form", kind, form);
  done |= button(sheet, "readings/enter", "Enter the reading", {.weight = Weight::next});
  if (!form.fault.empty()) {
    say(sheet, Face::text, sheet.theme.accuses, form.fault);
  }
  draw_reading_details(sheet, "readings/form", kind, {catalogue, "", "", true}, form);
  if (done) {
    enter(view, group, state, queue);
    onward = true;
  }
  if (onward) {
    state.caret = figure_line;
  }
}

}  // namespace dryout::window
