// The owner's report, first half: what it came for, what was found, how sure that is, and the
// readings.
#include <algorithm>

#include "casework/wording.h"
#include "report/certainty_picture.h"
#include "report/compare_readings.h"
#include "report/escape.h"
#include "report/owner_sections.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::mid_sentence;
using casework::ReadingView;
using casework::SuspectView;

constexpr std::size_t complaint_characters_max = 500;
constexpr std::size_t title_characters_max = 120;

std::string cause_title(const OwnerCase& of) {
  return of.main != nullptr ? cut_to(of.main->title, title_characters_max) : of.view.cause;
}

std::size_t parts_replaced(const OwnerCase& of) {
  const auto mended = std::count_if(of.view.suspects.begin(), of.view.suspects.end(),
                                    [](const SuspectView& s) { return !s.mended.empty(); });
  return of.mending.fitted.empty() ? static_cast<std::size_t>(mended) : of.mending.fitted.size();
}

/// What was read by itself and is a short, each part once, in the order of reading.
std::vector<std::string> shorted_parts(const OwnerCase& of) {
  std::vector<std::string> titles;
  for (const ReadingView& reading : of.view.readings) {
    const bool told = std::find(titles.begin(), titles.end(), reading.item_title) != titles.end();
    if (reading.shorted && !reading.after_repair && !told) {
      titles.push_back(reading.item_title);
    }
  }
  return titles;
}

/// What was read past its limit and is no short, each part once, in the order of reading.
std::vector<std::string> ageing_parts(const OwnerCase& of) {
  const std::vector<std::string> shorted = shorted_parts(of);
  std::vector<std::string> titles;
  for (const ReadingView& reading : of.view.readings) {
    const auto among = [&](const std::vector<std::string>& list) {
      return std::find(list.begin(), list.end(), reading.item_title) != list.end();
    };
    if (convicts(reading) && !reading.after_repair && !among(titles) && !among(shorted)) {
      titles.push_back(reading.item_title);
    }
  }
  return titles;
}

/// No symptom was seen at the bench: the set came in, or turned out, to be looked through.
bool looked_through(const OwnerCase& of) {
  return of.mending.preventive &&
         (of.view.complaint.empty() || !ageing_parts(of).empty() || !shorted_parts(of).empty());
}

/// Read beyond a figure that proves nothing by itself.
bool some_beyond_a_weak_limit(const OwnerCase& of) {
  return std::any_of(
      of.view.readings.begin(), of.view.readings.end(), [](const ReadingView& reading) {
        return reading.limit && !reading.after_repair && !convicts(reading) &&
               (words_of_kind(reading.kind).high_is_bad ? reading.value > *reading.limit
                                                        : reading.value < *reading.limit);
      });
}

bool failed_proof(const OwnerCase& of) {
  return std::any_of(of.mending.proof.begin(), of.mending.proof.end(),
                     [](const auto& step) { return step.failed; });
}

/// All there was to hold the readings against were tables: those clear nothing.
bool by_tables_alone(const OwnerCase& of) {
  const auto& readings = of.view.readings;
  return !readings.empty() &&
         std::all_of(readings.begin(), readings.end(), [](const ReadingView& reading) {
           return reading.limit_source == "general-table";
         });
}

std::string nothing_proven(const OwnerCase& of) {
  if (by_tables_alone(of)) {
    return "What was measured could only be held against general tables, which are too generous "
           "to clear anything: nothing is proven by it, either way.";
  }
  return some_beyond_a_weak_limit(of)
             ? "No part was proven past its limit; what some read is past a figure that proves "
               "nothing by itself."
             : "No part was measured past its limit.";
}

/// An owner who complains is not told that nothing is wrong; nor is one whose set failed a test.
bool well_so_far(const OwnerCase& of) { return of.view.complaint.empty() && !failed_proof(of); }

std::string looked_through_summary(const OwnerCase& of, const std::string& work) {
  const std::size_t ageing = ageing_parts(of).size();
  const std::size_t shorted = shorted_parts(of).size();
  if (shorted > 0 || !of.mending.dangers.empty()) {
    const std::string found =
        shorted == 0
            ? "A danger was found, though nothing was heard or seen of it yet."
            : "A fault was found: " + counted(shorted, "part is", "parts are") + " shorted.";
    return found +
           (of.mending.dangers.empty()
                ? ""
                : " Please do not plug the set in or use it until that is mended.") +
           work;
  }
  const std::string seen =
      of.view.complaint.empty()
          ? "No fault was seen at the bench, and the set was looked through before one comes. "
          : "What you told us was not noted as a fault at the bench; the set was looked through. ";
  return seen +
         (ageing == 0 ? nothing_proven(of)
                      : counted(ageing, "part was", "parts were") +
                            " found past the limit: still at work, but ageing.") +
         work;
}

std::string summary_of(const OwnerCase& of) {
  const std::size_t places = parts_replaced(of);
  const std::string work =
      places == 0 ? "" : " Work was done in " + counted(places, "place", "places") + '.';
  if (looked_through(of)) {
    return looked_through_summary(of, work);
  }
  switch (of.stage) {
    case Stage::closed_with_cause:
      return "The fault was found: " + mid_sentence(cause_title(of)) + '.' + work;
    case Stage::closed_without_cause:
      return "We did not find the cause of the complaint." +
             (places == 0 ? " Nothing was replaced."
                          : work + " It is not proven that any of it was the cause.");
    case Stage::mended:
      return "A repair has been made; the job is not closed yet." + work;
    case Stage::in_work:
      break;
  }
  return of.main == nullptr
             ? "The work has begun. Nothing has been found yet."
             : "The set is still being worked on. What is written here is where we stand today.";
}

const ReadingView* convicting_reading(const OwnerCase& of) {
  const auto& readings = of.view.readings;
  const auto found = std::find_if(readings.begin(), readings.end(), [&](const ReadingView& r) {
    return of.main != nullptr && r.item == of.main->item && !r.after_repair && convicts(r);
  });
  return found == readings.end() ? nullptr : &*found;
}

/// Measured, or concluded; an owner is told which.
std::string ground_of(const OwnerCase& of) {
  if (const ReadingView* reading = convicting_reading(of)) {
    const std::string kind = mid_sentence(std::string(words_of_kind(reading->kind).title));
    return "Measured: its " + kind + " was " + reading->shown +
           (reading->limit ? ", where " + shown_value(reading->kind, *reading->limit) +
                                 " is the limit by " + words_of_limit_source(reading->limit_source)
                           : "") +
           '.';
  }
  return "Not measured beyond a limit: this is concluded from how the set behaved and from what "
         "the checks showed.";
}

/// That it makes the trouble. What is convicted is bad besides; that is told by its reading.
quantities::Probability share_of(const SuspectView& suspect) {
  return suspect.convicted.empty() ? suspect.suspicion : suspect.blame;
}

std::string certainty_of(const OwnerCase& of) {
  const SuspectView& main = *of.main;
  const quantities::Probability share = share_of(main);
  std::string text = "From all that was seen, it is " + certainty_word(share) + " (" +
                     casework::percent(share.value()) +
                     ") that this makes, or helps to make, the trouble.";
  if (main.judged == "at-fault") {
    text += " That figure includes the technician's own judgement at the bench.";
  }
  if (share.value() < 0.5) {
    text += " So it is not proven.";
  }
  return text;
}

/// A reading that convicts another part: it speaks for a second culprit, not for this one's
/// innocence, and no owner would understand that it "speaks against it".
bool convicts_another(const OwnerCase& of, int event) {
  return std::any_of(of.view.readings.begin(), of.view.readings.end(), [&](const auto& reading) {
    return reading.event == event && reading.item != of.main->item && convicts(reading);
  });
}

void add_evidence(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t for_max = 3;
  const SuspectView& main = *of.main;
  Points points;
  for (const auto& line : main.evidence) {
    const std::string word = weight_word(line.weight);
    if (!word.empty() && line.weight.value > 0.0 && points.sentences.size() < for_max) {
      points.sentences.push_back("Speaks " + word + " for it: " + as_sentence(line.text));
    }
  }
  const casework::EvidenceLine* against = nullptr;
  for (const auto& line : main.evidence) {
    if (line.weight.value <= -2.0 && !convicts_another(of, line.event) &&
        (against == nullptr || line.weight.value < against->weight.value)) {
      against = &line;
    }
  }
  if (against != nullptr) {
    points.sentences.push_back("Speaks " + weight_word(against->weight) +
                               " against it: " + as_sentence(against->text));
  }
  if (!points.sentences.empty()) {
    blocks.emplace_back(points);
  }
}

void add_certainty_picture(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t rows_max = 3;
  constexpr double shown_from = 0.01;
  std::vector<CertaintyRow> rows;
  if (of.main != nullptr) {
    rows.push_back({of.main->title, share_of(*of.main)});
  }
  for (const SuspectView& suspect : of.view.suspects) {
    if (&suspect != of.main && rows.size() < rows_max && share_of(suspect).value() >= shown_from) {
      rows.push_back({suspect.title, share_of(suspect)});
    }
  }
  const bool reported = of.view.leading.capacitor.value() + of.view.leading.other.value() +
                            of.view.leading.unlisted.value() >
                        0.0;
  if (reported && !rows.empty()) {
    blocks.emplace_back(
        Figure{certainty_picture(rows),
               "How likely each explanation is by all that was seen. Two can be true at "
               "once, so they need not add up to 100 %."});
  }
}

std::vector<std::string> symptoms_seen(const OwnerCase& of, const char* seen) {
  std::vector<std::string> titles;
  for (const auto& symptom : of.view.symptoms) {
    if (symptom.seen == seen) {
      titles.push_back(mid_sentence(symptom.title));
    }
  }
  return shortened(titles, 3);
}

/// The complaints that were tried again after the repair and are not there any more.
std::vector<std::string> symptoms_gone(const OwnerCase& of) {
  std::vector<std::string> titles;
  for (const auto& symptom : of.view.symptoms) {
    const bool gone = std::any_of(
        of.mending.proof.begin(), of.mending.proof.end(), [&](const casework::ProofStep& step) {
          return step.symptom == symptom.id && step.done && !step.failed && !step.skipped;
        });
    if (gone) {
      titles.push_back(mid_sentence(symptom.title));
    }
  }
  return titles;
}

std::string scale_caption(const ReadingGroup& group, std::size_t shown) {
  const ReadingKindWords words = words_of_kind(group.kind);
  std::string text = as_sentence(std::string(words.title)) + ' ' + std::string(words.meaning);
  text += words.meaning.empty() ? "" : " ";
  text += "Each mark to the next on the scale is ten times as much.";
  std::vector<std::string> sources;
  for (const std::string& source : group.limit_sources) {
    sources.push_back(words_of_limit_source(source));
  }
  text += sources.empty() ? "" : " Limits are from " + listed(sources) + '.';
  if (group.rows.size() > shown) {
    text += " The " + std::to_string(shown) + " most telling of " +
            std::to_string(group.rows.size()) + " readings; the bench record has all.";
  }
  return text;
}

}  // namespace

std::vector<std::string> shortened(std::vector<std::string> list, std::size_t count_max) {
  if (list.size() > count_max) {
    const std::size_t more = list.size() - count_max;
    list.resize(count_max);
    list.push_back(std::to_string(more) + " more");
  }
  return list;
}

void add_summary(Blocks& blocks, const OwnerCase& of) {
  std::string text = summary_of(of);
  if (!of.mending.dangers.empty() && !looked_through(of)) {
    text += " As it is, the set is a danger: please do not plug it in or use it.";
  }
  if (const std::vector<std::string> gone = symptoms_gone(of); !gone.empty()) {
    text += " Tried again after the work, and gone: " + listed(gone) + '.';
  }
  text += failed_proof(of) ? " A test after the repair did not pass; see below." : "";
  blocks.emplace_back(Paragraph{text, Paragraph::Tone::lead});
}

void add_complaint(Blocks& blocks, const OwnerCase& of) {
  const std::vector<std::string> seen = symptoms_seen(of, "yes");
  const std::vector<std::string> not_seen = symptoms_seen(of, "no");
  if (of.view.complaint.empty() && seen.empty() && not_seen.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"What it came in for"});
  if (!of.view.complaint.empty()) {
    blocks.emplace_back(Paragraph{"You told us: \u201c" +
                                  cut_to(of.view.complaint, complaint_characters_max) + "\u201d"});
  }
  std::string text = seen.empty() ? "" : "Noted at the bench: " + listed(seen) + '.';
  text += not_seen.empty()
              ? ""
              : (text.empty() ? "" : " ") + ("Looked for and not there: " + listed(not_seen) + '.');
  if (!text.empty()) {
    blocks.emplace_back(Paragraph{text});
  }
}

void add_dangers(Blocks& blocks, const OwnerCase& of) {
  if (of.mending.dangers.empty()) {
    return;
  }
  blocks.emplace_back(Paragraph{"A danger as it is, and renewed whatever it costs:"});
  blocks.emplace_back(Points{shortened(of.mending.dangers, 4)});
}

void add_ageing(Blocks& blocks, const OwnerCase& of) {
  const std::vector<std::string> ageing = ageing_parts(of);
  const std::vector<std::string> shorted = shorted_parts(of);
  blocks.emplace_back(Heading{"What was found"});
  if (!shorted.empty()) {
    blocks.emplace_back(Paragraph{
        "Shorted, measured by " + std::string(shorted.size() == 1 ? "itself: " : "themselves: ") +
        listed(shortened(shorted, 8)) + ". That is a fault, not age, and it is mended first."});
  }
  add_dangers(blocks, of);
  if (ageing.empty()) {
    if (shorted.empty()) {
      blocks.emplace_back(Paragraph{nothing_proven(of)});
    }
    return;
  }
  const bool one = ageing.size() == 1;
  const bool wrong = !shorted.empty() || !of.mending.dangers.empty() || !well_so_far(of);
  blocks.emplace_back(
      Paragraph{"Measured past " + std::string(one ? "its limit: " : "their limits: ") +
                listed(shortened(ageing, 8)) + ". " +
                (wrong ? std::string()
                       : "Nothing is wrong with the set yet: " +
                             std::string(one ? "this part was" : "these parts were") +
                             " ageing, and would have made trouble later. ") +
                "The readings are below, beside the limit."});
}

void add_findings(Blocks& blocks, const OwnerCase& of) {
  if (looked_through(of)) {
    add_ageing(blocks, of);
    return;
  }
  blocks.emplace_back(Heading{"What was found, and how sure that is"});
  if (of.stage == Stage::closed_without_cause) {
    blocks.emplace_back(Paragraph{
        "The trouble could not be traced to a part. Either it did not show itself long enough to "
        "be followed, or what it would take to find it was not worth the work. The possibilities "
        "that were left are below."});
  } else if (of.main == nullptr) {
    const bool named = of.stage == Stage::closed_with_cause;
    blocks.emplace_back(Paragraph{named ? "On record as the cause: " + of.view.cause + '.'
                                        : "Nothing has been found yet."});
  } else {
    const bool done = of.stage == Stage::closed_with_cause;
    const std::string place =
        of.main->board_title.empty() ? "" : " (" + mid_sentence(of.main->board_title) + ')';
    blocks.emplace_back(Paragraph{(done ? "The cause: " : "Most suspected: ") +
                                  mid_sentence(cause_title(of)) + place + ". " + ground_of(of) +
                                  ' ' + certainty_of(of)});
    add_evidence(blocks, of);
  }
  add_dangers(blocks, of);
  if (!of.view.contradiction.empty()) {
    blocks.emplace_back(Paragraph{
        "Some of what was seen does not fit together. Please take the figures here with that in "
        "mind."});
  }
  add_certainty_picture(blocks, of);
}

void add_readings(Blocks& blocks, const OwnerCase& of) {
  constexpr std::size_t pictures_max = 2;
  constexpr std::size_t rows_max = 4;
  std::size_t rows_free = rows_max;
  std::size_t pictures = 0;
  for (const ReadingGroup& group : gather_readings(of.view, of.mending)) {
    if (!words_of_kind(group.kind).on_scale || pictures == pictures_max || rows_free == 0) {
      continue;
    }
    if (pictures == 0) {
      blocks.emplace_back(
          Heading{of.stage == Stage::in_work ? "Readings so far" : "Readings before and after"});
    }
    const std::size_t rows = std::min(rows_free, group.rows.size());
    blocks.emplace_back(Figure{picture_of(group, 0, rows), scale_caption(group, rows)});
    rows_free -= rows;
    ++pictures;
  }
}

}  // namespace dryout::report
