// The owner's report, second half: what was replaced and left, how it was tested, what to look out
// for, what can hurt, and the trade's words explained.
#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "casework/wording.h"
#include "quantities/printed_number.h"
#include "report/compare_readings.h"
#include "report/escape.h"
#include "report/owner_sections.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::mid_sentence;
using casework::OptionView;
using casework::percent;
using casework::SuspectView;

constexpr std::size_t rows_max = 5;
constexpr std::size_t cell_characters_max = 70;
constexpr std::size_t listed_characters_max = 24;  ///< of one in a long list

const SuspectView* suspect_of(const OwnerCase& of, const std::string& item) {
  const auto& all = of.view.suspects;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.item == item; });
  return found == all.end() ? nullptr : &*found;
}

/// The strongest honest reason why a part was replaced.
std::string why(const OwnerCase& of, const std::string& item) {
  const bool cause = of.view.closed && item == of.view.cause;
  std::string lead = cause ? "The cause. " : "";
  for (const auto& reading : of.view.readings) {
    if (reading.item == item && !reading.after_repair && convicts(reading)) {
      return lead + "Measured " + reading.shown +
             (reading.limit ? ", limit " + shown_value(reading.kind, *reading.limit) : "") + '.';
    }
  }
  const SuspectView* suspect = suspect_of(of, item);
  if (suspect != nullptr && suspect->judged == "at-fault") {
    return lead + "Judged at fault at the bench.";
  }
  if (cause) {
    return lead;
  }
  if (suspect != nullptr && suspect->unsound.value() >= 0.5) {
    return "Most likely worn (" + percent(suspect->unsound.value()) +
           "), not measured beyond a "
           "limit.";
  }
  return "As a precaution; not proven bad.";
}

std::vector<casework::Fitted> fitted_of(const OwnerCase& of) {
  if (!of.mending.fitted.empty()) {
    return of.mending.fitted;
  }
  std::vector<casework::Fitted> fitted;
  for (const SuspectView& suspect : of.view.suspects) {
    if (!suspect.mended.empty()) {
      fitted.push_back({suspect.item, suspect.title, suspect.mended, ""});
    }
  }
  return fitted;
}

std::string money(const std::string& currency, double amount) {
  return currency + (currency.empty() ? "" : " ") + quantities::whole_number(amount);
}

std::string years(double count) {
  const long whole = std::lround(count);
  return std::to_string(whole) + (whole == 1 ? " year" : " years");
}

/// What a way of mending replaces, for somebody who pays for it.
std::string scope_words(const OptionView& option) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> told{{
      {"nothing", "Nothing"},
      {"convicted-part", "Only what is held to be bad"},
      {"cohort", "That, and its like of the same make and age"},
      {"board", "Everything on its board that wears out"},
      {"all-electrolytics", "Everything in the set that wears out"},
  }};
  for (const auto& [scope, words] : told) {
    if (scope == option.scope) {
      return std::string(words);
    }
  }
  return option.title;
}

/// What an owner should know of one hazard without opening anything; "" where it only concerns
/// hands inside.
std::string_view told_to_owner(std::string_view hazard) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 13> told{{
      {"live-chassis",
       "Metal parts of this set may be connected to the mains: do not use it with a knob, a cover "
       "or the back missing."},
      {"crt", "Do not knock on or lift it by the picture tube."},
      {"leaked-battery", "Take the batteries out when it stands unused."},
      {"old-oil-parts",
       "It may hold old oil-filled parts; when it is scrapped one day, it belongs in authorised "
       "disposal."},
      {"asbestos-selenium",
       "If it ever smells of rotten horseradish, switch it off, leave the room and let it air."},
      {"rf-burn",
       "Do not touch the antenna or its connections while it transmits; keep to your licence."},
      {"vehicle-supply", "Run it only through the fuse that its maker names."},
      {"battery-current", "Keep its battery leads apart and fused."},
      {"radium-cadmium", "Do not scrape or open luminous dials."},
      {"mercury",
       "It may hold mercury in a glass part: if that breaks, air the room, use no vacuum cleaner, "
       "and ask your local authority."},
      {"backup-cells",
       "A cell inside keeps its memory; it belongs in battery collection when it is done, and "
       "never in a child's reach."},
      {"implosion", "Its picture tube holds a vacuum: no knock, no scratch."},
      {"laser", "Never run it with its lid defeated: its laser harms the eye unseen."},
  }};
  for (const auto& [id, words] : told) {
    if (id == hazard) {
      return words;
    }
  }
  return "";
}

bool has_danger(const casework::CaseView& view, std::string_view danger) {
  return std::any_of(view.hazards.begin(), view.hazards.end(),
                     [&](const auto& hazard) { return hazard.danger == danger; });
}

std::string inside_words(const casework::CaseView& view) {
  std::string text;
  if (has_danger(view, "mains")) {
    text += "Mains voltage is present inside, on some parts even when it is switched off. ";
  }
  if (view.high_tension) {
    text += "High voltage inside can kill, and stays after the plug is pulled. ";
  } else if (has_danger(view, "stored-charge")) {
    text += "Parts inside keep a dangerous charge after the plug is pulled. ";
  }
  return text;
}

std::vector<std::string> symptoms_to_watch(const OwnerCase& of) {
  std::vector<std::string> seen;
  for (const auto& symptom : of.view.symptoms) {
    if (symptom.seen == "yes") {
      seen.push_back(mid_sentence(symptom.title));
    }
  }
  return shortened(seen, 3);
}

}  // namespace

bool has_mains(const casework::CaseView& view) { return has_danger(view, "mains"); }

void add_proposal(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t options_max = 5;
  const auto& mending = of.mending;
  if (of.stage != Stage::in_work || mending.options.empty() || of.main == nullptr) {
    return;
  }
  blocks.emplace_back(Heading{"What could be done"});
  blocks.emplace_back(Paragraph{
      "By the workshop's own figures, counted over " + years(mending.horizon_years) +
      ", it costs least to replace: " + mid_sentence(scope_words(mending.options.front())) + '.'});
  if (!mending.reasons.empty()) {
    Points reasons;
    std::transform(mending.reasons.begin(), mending.reasons.end(),
                   std::back_inserter(reasons.sentences), as_sentence);
    blocks.emplace_back(reasons);
  }
  const std::string horizon = years(mending.horizon_years);
  Table table{{{"What would be replaced"},
               {"Parts", true},
               {"Cost now", true},
               {"Comes back within " + horizon, true},
               {"All told over " + horizon, true}},
              {}};
  for (const OptionView& option : mending.options) {
    if (table.rows.size() < options_max) {
      table.rows.push_back({scope_words(option), std::to_string(option.parts),
                            money(mending.currency, option.cost_now),
                            percent(option.come_back.value()),
                            money(mending.currency, option.expected_cost)});
    }
  }
  blocks.emplace_back(table);
  blocks.emplace_back(Paragraph{
      "Costs are what is to be expected on average from the workshop's own figures, not an offer. "
      "\u201cAll told\u201d counts what a come-back would cost too." +
          (mending.flips.empty() ? "" : ' ' + as_sentence(mending.flips)),
      Paragraph::Tone::quiet});
}

void add_replaced(Blocks& blocks, const OwnerCase& of) {
  const std::vector<casework::Fitted> fitted = fitted_of(of);
  if (fitted.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"What was done, and why"});
  Table table{{{"Where"}, {"Done"}, {"Now in it"}, {"Why"}}, {}};
  for (std::size_t i = 0; i < std::min(rows_max, fitted.size()); ++i) {
    table.rows.push_back({cut_to(fitted[i].item_title, cell_characters_max),
                          cut_to(fitted[i].action, cell_characters_max),
                          cut_to(fitted[i].fitted, cell_characters_max), why(of, fitted[i].item)});
  }
  blocks.emplace_back(table);
  if (fitted.size() > rows_max) {
    std::vector<std::string> others;
    for (std::size_t i = rows_max; i < fitted.size(); ++i) {
      others.push_back(cut_to(fitted[i].item_title, listed_characters_max));
    }
    blocks.emplace_back(
        Paragraph{"Changed as well: " + listed(others) + '.', Paragraph::Tone::quiet});
  }
}

void add_left(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t left_max = 3;
  constexpr double worth_telling = 0.25;
  if (of.stage == Stage::in_work) {
    return;
  }
  // Before anything is mended, casework says what the repair advised would leave.
  std::vector<std::string> left =
      fitted_of(of).empty() ? std::vector<std::string>{} : of.mending.left;
  const bool told = !left.empty();
  for (const SuspectView& suspect : of.view.suspects) {
    if (!told && suspect.mended.empty() && suspect.unsound.value() >= worth_telling) {
      left.push_back(as_sentence(suspect.title + ": left as it is; " +
                                 percent(suspect.unsound.value()) +
                                 " likely to be worn or faulty"));
    }
  }
  blocks.emplace_back(Heading{"What was left, and its risk"});
  if (left.empty()) {
    blocks.emplace_back(Paragraph{
        "Nothing is known to be left that is likely to fail soon. Parts that nobody measured are "
        "as old as the set, and no promise is made for them."});
    return;
  }
  if (left.size() > left_max) {
    const std::size_t more = left.size() - left_max;
    left.resize(left_max);
    left.push_back(std::to_string(more) + " more are in the bench record.");
  }
  for (std::string& sentence : left) {
    sentence = cut_to(sentence, 300);
  }
  blocks.emplace_back(Points{left});
}

void add_proof(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t titles_max = 4;
  if (of.mending.proof.empty() || of.stage == Stage::in_work) {
    return;
  }
  std::vector<std::string> passed;
  std::vector<std::string> failed;
  std::vector<std::string> open;
  for (const auto& step : of.mending.proof) {
    const std::string title = mid_sentence(cut_to(step.title, cell_characters_max));
    auto& where = step.failed ? failed : step.done && !step.skipped ? passed : open;
    where.push_back(title);
  }
  blocks.emplace_back(Heading{"How it was tested afterwards"});
  Points points;
  const auto point = [&](const char* lead, const std::vector<std::string>& titles) {
    if (!titles.empty()) {
      points.sentences.push_back(lead + listed(shortened(titles, titles_max)) + '.');
    }
  };
  point("Did not pass: ", failed);
  point("Done and passed: ", passed);
  point("Not on record as done: ", open);
  blocks.emplace_back(points);
}

void add_look_out(Blocks& blocks, const OwnerCase& of) {
  if (of.stage == Stage::in_work) {
    return;
  }
  const bool mains = has_mains(of.view);
  blocks.emplace_back(Heading{"What to look out for"});
  Points points;
  const std::vector<std::string> watched = symptoms_to_watch(of);
  if (!watched.empty()) {
    points.sentences.push_back(
        of.stage == Stage::closed_without_cause
            ? "When it happens, note how long it was on and what you did: " + listed(watched) + '.'
            : "The old trouble coming back: " + listed(watched) + '.');
  }
  points.sentences.emplace_back("A burnt smell, smoke, a new hum, or a case hotter than before.");
  points.sentences.emplace_back(
      mains
          ? "A fuse that blows: never fit a stronger one. Switch off, pull the plug and bring the "
            "set in, with this sheet."
          : "Any of these: switch it off, take its power away and bring it in, with this sheet.");
  blocks.emplace_back(points);
}

void add_owner_cautions(Blocks& blocks, const OwnerCase& of) {
  const std::string inside = inside_words(of.view);
  std::string text =
      inside.empty() ? "" : "Leave its case shut, even with the plug pulled. " + inside;
  for (const auto& hazard : of.view.hazards) {
    const std::string_view told = told_to_owner(hazard.id);
    text += told.empty() ? "" : std::string(told) + ' ';
  }
  text +=
      "Electrical work belongs to people trained for it and, where your law asks it, licensed. "
      "Local electrical codes, licensed practice and the maker's instructions come before this "
      "sheet.";
  blocks.emplace_back(Warning{inside.empty() ? "Please take care" : "Please do not open it", text});
}

void add_words(Blocks& blocks) {
  std::string text;
  for (const Block& block : blocks) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
      text += paragraph->text + '\n';
    } else if (const auto* points = std::get_if<Points>(&block)) {
      for (const std::string& sentence : points->sentences) {
        text += sentence + '\n';
      }
    } else if (const auto* table = std::get_if<Table>(&block)) {
      for (const auto& row : table->rows) {
        text += listed(row) + '\n';
      }
    } else if (const auto* figure = std::get_if<Figure>(&block)) {
      text += figure->picture.told + '\n' + figure->caption + '\n';
    }
  }
  const auto words = words_to_explain(text);
  if (words.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"Words used here", 3});
  std::string explained;
  for (const auto& [word, meaning] : words) {
    explained += explained.empty() ? "" : " ";
    std::string sentence = word;
    sentence += ": ";
    sentence += meaning;
    explained += as_sentence(std::move(sentence));
  }
  blocks.emplace_back(Paragraph{explained, Paragraph::Tone::quiet});
}

}  // namespace dryout::report
