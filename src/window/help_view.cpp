#include "window/help_view.h"

#include <imgui.h>

#include "window/drawing.h"
#include "window/terms.h"

namespace dryout::window {
namespace {

struct KeyLine {
  const char* keys;
  const char* what;
};

constexpr KeyLine everywhere[] = {
    {"F1 to F6", "the stations of the job: taken in, symptoms, probe, suspects, mend, hand over"},
    {"F7 F8 F9", "block map, readings, bench log"},
    {"F10", "the plan ahead, as a tree"},
    {"F11 F12", "the library: all that the program knows; practice"},
    {"C, Ctrl O", "the shelf of cases"},
    {"S", "the shop: all cases together, keeping and carrying them"},
    {"Tab, \u2191 \u2193", "step through what can be pressed; Enter presses it"},
    {"Page \u2191 \u2193", "scroll the page"},
    {"Esc", "leave a field, this help, the far view"},
    {"Ctrl Z, Ctrl Y", "take the last step back, put it again"},
    {"F", "far view: readable from two metres"},
    {"T", "dark or light"},
    {"Ctrl +, Ctrl \u2212", "larger, smaller"},
    {"Ctrl P", "keep the page as a PNG picture"},
    {"P", "on a page with a picture: save it (or press it with the right button)"},
    {"?", "this help"},
};
constexpr KeyLine at_the_probe[] = {
    {"A", "cautions read and heeded"},
    {"B, G, U", "it looked bad, it looked good, it can't be told"},
    {"0 to 9", "start typing what the meter shows; Enter records it"},
    {"R", "can't reach it, or won't"},
    {"N", "what had to be opened is open now"},
    {"Ctrl V", "paste a reading as what the meter shows"},
    {"M, H", "in practice: make this check; a hint"},
    {"W", "show the figures behind the choice"},
};
constexpr KeyLine elsewhere[] = {
    {"G, B, L", "on the proof: in order, not in order, left out"},
    {"Ctrl T", "where a set comes in: take the symptom that its words sound like"},
    {"N", "on the shelf: a set comes in; on Readings: add one"},
    {"Y, N, U", "on a symptom: it does, it does not, can't be told"},
    {"P", "on Symptoms: on to probing"},
    {"M", "on Mend, where nothing is wrong: measure the first batch"},
};

template <std::size_t Count>
void draw_keys(const Sheet& sheet, const char* title, const KeyLine (&lines)[Count]) {
  section(sheet, title);
  const float column = sheet.px(150);
  for (const KeyLine& key : lines) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x - column;
    write(sheet, Face::figure_note, sheet.theme.ink, at.x, at.y + sheet.px(2), key.keys);
    const float high =
        write_wrapped(sheet, Face::text, sheet.theme.ink, at.x + column, at.y, width, key.what);
    ImGui::Dummy(ImVec2(column + width, high + sheet.px(2)));
  }
}

}  // namespace

void draw_help(Sheet& sheet, CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "Keys and words");
  if (button(sheet, "help/close", "Back to work", {.weight = Weight::next, .key = U'?'})) {
    queue.push(ToggleHelp{});
  }
  draw_keys(sheet, "Everywhere", everywhere);
  draw_keys(sheet, "At the probe", at_the_probe);
  draw_keys(sheet, "Elsewhere", elsewhere);
  section(sheet, "Words of the trade");
  for (const Term& term : terms()) {
    say(sheet, Face::strong, sheet.theme.ink, term.word);
    say(sheet, Face::text, sheet.theme.faint, term.meaning);
    gap(sheet, 2);
  }
  section(sheet, "Before anything else");
  say(sheet, Face::text, sheet.theme.ink,
      "Local codes and licensed practice come first. Where they and this program differ, they "
      "are right.");
}

}  // namespace dryout::window
