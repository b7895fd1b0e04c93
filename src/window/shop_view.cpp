#include "window/shop_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/printed_number.h"
#include "window/chart_picture.h"
#include "window/decade_axis.h"
#include "window/drawing.h"
#include "window/widgets.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using casework::AgeReadings;
using casework::CausesView;
using casework::LearnedView;
using casework::ReadingKind;

constexpr std::size_t causes_shown = 6;
constexpr float line_height = 28;

/// A share as a bar, the range in which the true one lies as a line over it.
void draw_share(const Sheet& sheet, Box box, const casework::CauseShareView& cause) {
  const auto at = [&](quantities::Probability share) {
    return box.left + box.width() * static_cast<float>(share.value());
  };
  suspicion_bar(sheet, box, cause.share);
  const float middle = (box.top + box.bottom) / 2;
  line(at(cause.least), middle, at(cause.most), middle, sheet.theme.ink, sheet.px(2));
  for (const quantities::Probability end : {cause.least, cause.most}) {
    line(at(end), box.top - sheet.px(2), at(end), box.bottom + sheet.px(2), sheet.theme.ink,
         sheet.px(1.5F));
  }
}

void draw_share_row(const Sheet& sheet, const casework::CauseShareView& cause,
                    const std::string& told, float from, float figures) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  draw_share(sheet,
             {at.x + from, at.y + sheet.px(7), at.x + width - figures - sheet.px(12),
              at.y + sheet.px(line_height - 7)},
             cause);
  write(sheet, Face::figure_note, sheet.theme.ink,
        at.x + width - width_of(sheet, Face::figure_note, told), at.y + sheet.px(5), told);
  ImGui::Dummy(ImVec2(width, sheet.px(line_height)));
}

void draw_cause(const Sheet& sheet, const casework::CauseShareView& cause) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string told = std::to_string(cause.cases) + " of " + std::to_string(cause.of);
  const float figures = std::max(sheet.px(96), width_of(sheet, Face::figure_note, told));
  // A name that is cut tells nobody what broke: where it has no room beside the bar, it goes above.
  const float beside = (width - figures) * 0.45F;
  if (width_of(sheet, Face::text, cause.title) > beside - sheet.px(10)) {
    say(sheet, Face::text, sheet.theme.ink, cause.title);
    return draw_share_row(sheet, cause, told, 0, figures);
  }
  write(sheet, Face::text, sheet.theme.ink, at.x, at.y + sheet.px(3), cause.title);
  draw_share_row(sheet, cause, told, beside, figures);
}

/// An axis that spans all that is drawn on it.
DecadeAxis axis_over(const std::vector<AgeReadings>& ages, float left, float right) {
  double least = ages.front().p10;
  double most = ages.front().p90;
  for (const AgeReadings& age : ages) {
    least = std::min(least, age.p10);
    most = std::max(most, age.p90);
  }
  if (!(least > 0.0) || !std::isfinite(most)) {
    return {{-1, 1}, left, right};  // counts of an earlier version, of what can't be drawn
  }
  const int low = static_cast<int>(std::floor(std::log10(least)));
  return {{low, std::max(static_cast<int>(std::ceil(std::log10(most))), low + 1)}, left, right};
}

/// Line: four readings in five. Box: the middle half. Stroke: as many above as below.
void draw_spread_of(const Sheet& sheet, const DecadeAxis& axis, const AgeReadings& age,
                    float middle) {
  const Theme& theme = sheet.theme;
  line(axis.at(age.p10), middle, axis.at(age.p90), middle, theme.ink, sheet.px(1.5F));
  const Box box{axis.at(age.p25), middle - sheet.px(7),
                std::max(axis.at(age.p75), axis.at(age.p25) + sheet.px(2)), middle + sheet.px(7)};
  fill(sheet, box, theme.card);
  if (age.standing == "bad") {
    hatch(sheet, box, quantities::Probability(0.6));
  }
  outline(sheet, box, theme.ink);
  line(axis.at(age.p50), box.top, axis.at(age.p50), box.bottom, theme.ink, sheet.px(3));
}

void ask(ShopState& state, CommandQueue& queue) { queue.push(AskShop{state.asked}); }

/// Choices in a row that goes on below where there is no room.
bool choose(Sheet& sheet, const std::string& name, const std::string& title, bool chosen,
            bool& begun) {
  const ButtonLook look{.weight = chosen ? Weight::chosen : Weight::plain, .face = Face::note};
  return row_button(sheet, begun, name, title, look) && !chosen;
}

constexpr std::array<ReadingKind, 4> kinds_offered{ReadingKind::esr, ReadingKind::impedance,
                                                   ReadingKind::capacitance,
                                                   ReadingKind::leakage_current};

void choose_part_type(Sheet& sheet, const casework::Catalogue& catalogue, ShopState& state,
                      CommandQueue& queue) {
  bool begun = false;
  for (const casework::LibraryEntry& entry : catalogue.library) {
    if (entry.shelf == casework::Shelf::technologies &&
        choose(sheet, "shop/technology/" + entry.id, entry.title,
               state.asked.technology == entry.id, begun)) {
      state.asked.technology = entry.id;
      ask(state, queue);
    }
  }
  begun = false;
  for (const ReadingKind kind : kinds_offered) {
    const KindWords& words = kind_words(kind);
    if (choose(sheet, std::string("shop/kind/") + words.id, words.title,
               state.asked.kind == words.id, begun)) {
      state.asked.kind = words.id;
      ask(state, queue);
    }
  }
}

void draw_causes(Sheet& sheet, const ShopPage& page, CommandQueue& queue) {
  section(sheet, "What sets end up with");
  if (page.causes.empty()) {
    say(sheet, Face::text, sheet.theme.faint,
        "No case is closed yet. Each one that is closed with its cause counts here.");
    return;
  }
  const Box begun = chart_begins();
  draw_cause_shares(sheet, page.causes);
  chart_ends(sheet, "shop-causes", begun, queue);
  save_chart_button(sheet, "shop-causes", queue);
  say(sheet, Face::note, sheet.theme.faint,
      "Bar: the share so far. Line across it: where the true share lies, nine times in ten.");
}

void draw_readings_of_shop(Sheet& sheet, const casework::Catalogue& catalogue, ShopState& state,
                           CommandQueue& queue) {
  section(sheet, "What parts read, by age of the set");
  choose_part_type(sheet, catalogue, state, queue);
  gap(sheet, 6);
  const std::optional<casework::ReadingsView>& readings = state.page->readings;
  if (!readings || readings->ages.empty()) {
    say(sheet, Face::text, sheet.theme.faint, "No reading of this kind yet.");
    return;
  }
  const Box begun = chart_begins();
  draw_readings_by_age(sheet, *readings);
  chart_ends(sheet, "shop-readings", begun, queue);
  save_chart_button(sheet, "shop-readings", queue);
  say(sheet, Face::note, sheet.theme.faint,
      "Box: the middle half. Stroke in it: as many above as below. Line: four in five. Hatched: "
      "parts that proved bad.");
}

void draw_learned(Sheet& sheet, const LearnedView& learned) {
  say(sheet, Face::note, sheet.theme.faint,
      "What the shop's cases " + std::string(learned.on ? "do" : "would do") + " to " +
          learned.equipment_title + ':');
  for (const casework::LearnedCauseView& cause : learned.causes) {
    if (cause.share.cases > 0) {
      say(sheet, Face::text, sheet.theme.ink,
          cause.title + ": " + std::to_string(cause.share.cases) +
              (cause.share.cases == 1 ? " case" : " cases") + ", its odds times " +
              quantities::fixed_point(cause.share.factor, 2));
    }
  }
  for (const casework::LearnedTypicalView& type : learned.typical) {
    if (type.known_to_library) {
      say(sheet, Face::text, sheet.theme.ink,
          "Typical " + type.title + ": " + type.before + " becomes " + type.after + " after " +
              std::to_string(type.readings) + " sound ones");
    }
  }
  say(sheet, Face::note, sheet.theme.faint, learned.bound);
}

void draw_history(Sheet& sheet, const ShopPage& page, CommandQueue& queue) {
  section(sheet, "Do closed cases enter the figures?");
  say(sheet, Face::text, sheet.theme.ink,
      page.history_on ? "Yes: what this shop found moves the odds of causes and what a sound part "
                        "is expected to read."
                      : "No: the figures rest on the published and common knowledge alone.");
  if (button(sheet, "shop/history", page.history_on ? "Keep them out" : "Let them in",
             {.face = Face::note})) {
    queue.push(UseShopHistory{!page.history_on});
  }
  if (page.learned) {
    draw_learned(sheet, *page.learned);
  } else {
    say(sheet, Face::note, sheet.theme.faint,
        "Open a case to see what they do to its kind of equipment.");
  }
}

void draw_keeping(Sheet& sheet, ShopState& state, CommandQueue& queue) {
  section(sheet, "Keeping the cases, and carrying them");
  if (button(sheet, "shop/backup", "A copy of the whole store", {.face = Face::note})) {
    queue.push(CopyAllCases{false});
  }
  if (flow_button(sheet, "shop/export", "All cases as one file", {.face = Face::note})) {
    queue.push(CopyAllCases{true});
  }
  if (flow_button(sheet, "shop/check", "Is the store sound?", {.face = Face::note})) {
    queue.push(CheckStore{});
  }
  say(sheet, Face::note, sheet.theme.faint,
      "Keep a copy on another disk. A copy goes back in the store's place with the window closed: "
      "dryout case restore FILE.");
  gap(sheet, 4);
  const std::string name = "shop/arriving";
  bool take = find_file(sheet, name, "Cases from another bench", {".json"}, state.arriving, queue);
  take |= button(sheet, name + "/take", "Take them in",
                 {.enabled = !state.arriving.path.empty(), .face = Face::note});
  if (take) {
    queue.push(TakeCasesIn{state.arriving.path});
  }
}

}  // namespace

void draw_cause_shares(Sheet& sheet, const std::vector<CausesView>& families) {
  for (const CausesView& family : families) {
    say(sheet, Face::strong, sheet.theme.ink, capitalised(family.title));
    std::string told = std::to_string(family.closed) + " closed";
    if (family.without_cause > 0) {
      told += ", " + std::to_string(family.without_cause) + " without a cause";
    }
    say(sheet, Face::note, sheet.theme.faint, told);
    for (std::size_t i = 0; i < std::min(causes_shown, family.causes.size()); ++i) {
      draw_cause(sheet, family.causes[i]);
    }
    if (family.causes.size() > causes_shown) {
      say(sheet, Face::note, sheet.theme.faint,
          "and " + std::to_string(family.causes.size() - causes_shown) + " rarer ones");
    }
    gap(sheet, 4);
  }
}

void draw_readings_by_age(Sheet& sheet, const casework::ReadingsView& readings) {
  say(sheet, Face::strong, sheet.theme.ink, readings.title);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const float words = std::min(sheet.px(230), width * 0.4F);
  const DecadeAxis axis = axis_over(readings.ages, at.x + words, at.x + width - sheet.px(40));
  if (const KindWords* kind = kind_words(readings.kind)) {
    draw_decades(sheet, axis, at.y, kind->unit);
  }
  ImGui::Dummy(ImVec2(width, sheet.px(24)));
  for (const AgeReadings& age : readings.ages) {
    const ImVec2 row = ImGui::GetCursorScreenPos();
    const std::string told =
        capitalised(age.age) + ", " +
        (age.standing == "all" ? std::to_string(age.readings)
                               : std::to_string(age.readings) + ' ' + age.standing);
    const float told_high = write_wrapped(sheet, Face::note, sheet.theme.ink, row.x,
                                          row.y + sheet.px(5), words - sheet.px(10), told);
    const float high = std::max(sheet.px(line_height), told_high + sheet.px(10));
    draw_spread_of(sheet, axis, age, row.y + high / 2);
    ImGui::Dummy(ImVec2(width, high));
    if (ImGui::IsItemHovered()) {
      explain(sheet, capitalised(age.age) + ", " + age.standing + ": " + age.shown);
    }
  }
}

void draw_shop(Sheet& sheet, const casework::Catalogue& catalogue, ShopState& state,
               CommandQueue& queue) {
  say(sheet, Face::heading, sheet.theme.ink, "The shop, all its cases together");
  if (!state.page) {
    say(sheet, Face::text, sheet.theme.faint, "What they say could not be read.");
    return;
  }
  draw_causes(sheet, *state.page, queue);
  draw_readings_of_shop(sheet, catalogue, state, queue);
  draw_history(sheet, *state.page, queue);
  draw_shop_figures(sheet, state, queue);
  draw_keeping(sheet, state, queue);
}

}  // namespace dryout::window
