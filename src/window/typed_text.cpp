#include "window/typed_text.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

namespace dryout::window {
namespace {

using casework::TypedText;

/// No field: which set it is of.
constexpr const char* of_set = "set";

struct TypedField {
  std::string name;
  std::string* text;
};
using Fields = std::vector<TypedField>;

/// The lines of a reading's form; its item is a line on one page alone.
void add_form(Fields& fields, ReadingFormState& form, const std::string& name) {
  fields.insert(fields.end(), {{name + "/figure", &form.figure},
                               {name + "/limit", &form.limit},
                               {name + "/zero", &form.lead_zero},
                               {name + "/frequency", &form.frequency},
                               {name + "/celsius", &form.celsius},
                               {name + "/test-volts", &form.test_volts},
                               {name + "/beside", &form.beside}});
}

/// Every field whose text is typed for a step. Searches and filters are none.
Fields fields_of(Desk& desk) {
  if (!desk.open_case) {
    IntakeState& set = desk.new_case;
    return {{"intake/set", &set.set_name},
            {"intake/year", &set.year},
            {"intake/owner", &set.owner},
            {"intake/complaint", &set.complaint},
            {"intake/equipment", &set.equipment}};
  }
  Fields fields{{"log/note", &desk.log.note},
                {"mend/fitted", &desk.mend.fitted},
                {"hand-over/remark", &desk.hand_over.remark},
                {"hand-over/summary", &desk.hand_over.summary},
                {"hand-over/reason", &desk.hand_over.reason},
                {"probe/typed-for", &desk.probe.typed_for},
                {"probe/remark", &desk.probe.remark},
                {"probe/part", &desk.probe.part},
                {"probe/print", &desk.probe.print},
                {"part/reference", &desk.suspects.reference},
                {"part/make", &desk.suspects.make},
                {"part/capacitance", &desk.suspects.capacitance},
                {"part/rated", &desk.suspects.rated},
                {"part/body", &desk.suspects.body},
                {"readings/item", &desk.readings.form.item},
                {"readings/group", &desk.readings.group},
                {"readings/make", &desk.readings.make}};
  add_form(fields, desk.probe.reading, "probe/reading");
  add_form(fields, desk.readings.form, "readings/form");
  return fields;
}

/// What one step leaves for the next, as a limit does.
bool stays_in_its_field(std::string_view name) {
  constexpr std::array<std::string_view, 5> of_places{of_set, "probe/typed-for", "readings/item",
                                                      "readings/group", "readings/make"};
  constexpr std::array<std::string_view, 6> of_forms{"/limit",   "/zero",       "/frequency",
                                                     "/celsius", "/test-volts", "/beside"};
  return std::find(of_places.begin(), of_places.end(), name) != of_places.end() ||
         std::any_of(of_forms.begin(), of_forms.end(),
                     [name](std::string_view line) { return name.ends_with(line); });
}

std::string set_at_hand(const Desk& desk) {
  if (!desk.open_case) {
    return "";
  }
  const casework::CaseView& view = *desk.open_case;
  return view.equipment + '\n' + view.set_name + '\n' +
         (view.log.empty() ? "" : view.log.front().when);
}

}  // namespace

TypedText typed_text(Desk& desk) {
  TypedText typed;
  for (const TypedField& field : fields_of(desk)) {
    if (!field.text->empty()) {
      typed[field.name] = *field.text;
    }
  }
  // Where it was typed matters where something was.
  const auto at_check = [](const auto& field) { return field.first.starts_with("probe/"); };
  if (std::count_if(typed.begin(), typed.end(), at_check) == 1) {
    typed.erase("probe/typed-for");
  }
  return typed;
}

void put_back(Desk& desk, const TypedText& typed) {
  for (const TypedField& field : fields_of(desk)) {
    if (const auto found = typed.find(field.name); found != typed.end()) {
      *field.text = found->second;
    }
  }
  if (typed.contains("readings/form/figure")) {
    desk.readings.adding = true;  // a field that is folded away gives nothing back
  }
}

bool has_unentered(const TypedText& typed) {
  return std::any_of(typed.begin(), typed.end(),
                     [](const auto& field) { return !stays_in_its_field(field.first); });
}

void take_away(Desk& desk, const TypedText& entered) {
  for (const TypedField& field : fields_of(desk)) {
    const auto found = entered.find(field.name);
    if (found != entered.end() && *field.text == found->second && !stays_in_its_field(field.name)) {
      field.text->clear();
    }
  }
}

bool is_of_set(const TypedText& draft, const Desk& desk) {
  const auto of = draft.find(of_set);
  return of == draft.end() || of->second == set_at_hand(desk);
}

std::optional<std::int64_t> draft_number(const Desk& desk) {
  if (desk.practice) {
    return std::nullopt;
  }
  return desk.open_case ? desk.open_case->number : 0;
}

bool keep_drafts(Desk& desk) {
  const auto number = draft_number(desk);
  if (!number) {
    return false;
  }
  TypedText typed = typed_text(desk);
  const auto kept = desk.drafts.find(*number);
  if (typed.empty()) {
    const bool any = kept != desk.drafts.end();
    desk.drafts.erase(*number);
    return any;
  }
  if (desk.open_case) {
    typed[of_set] = set_at_hand(desk);
  }
  if (kept != desk.drafts.end() && kept->second == typed) {
    return false;
  }
  desk.drafts[*number] = std::move(typed);
  return true;
}

}  // namespace dryout::window
