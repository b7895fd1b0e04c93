// Where the case stands, in one honest sentence.
#include <algorithm>
#include <initializer_list>

#include "casework/build_view.h"
#include "casework/set_stock.h"
#include "casework/word_list.h"
#include "casework/wording.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using quantities::Probability;

/// Below this, nothing leads (judgement).
constexpr double leads_from = 0.5;
/// Below this chance of any capacitor, say so first (judgement).
constexpr double capacitor_unlikely_below = 0.3;

/// From this chance on it is said that nothing listed may make the complaint (judgement).
constexpr double unlisted_told_from = 0.15;

/// With what speaks for its making the complaint.
std::string named(const SuspectView& suspect) {
  return suspect.title + " (" + percent(suspect.blame.value()) + ')';
}

/// Whether either outcome of the check may leave a suspect beyond doubt, and how likely that is.
double chance_to_settle(const CaseInHand& hand, std::size_t check, std::size_t item) {
  const diagnosis::Outlook& outlook = hand.reasoning.foresight.outlooks.at(check);
  const auto settles = [&](const auto& items) {
    return !items.empty() && 1.0 - items[item][0] >= settled_from;
  };
  return (settles(outlook.items_if_present) ? outlook.present : 0.0) +
         (settles(outlook.items_if_absent) ? 1.0 - outlook.present : 0.0);
}

std::string what_next(const CaseInHand& hand, const SuspectView& leader,
                      const std::vector<CheckView>& next) {
  if (next.empty()) {
    return "no check is left; mend it and test again";
  }
  const Advice advice = advice_of(hand);
  if (advice.act == Advice::Act::mend) {
    return "no check saves its time; mend " +
           (advice.item == leader.item ? "it"
                                       : mid_sentence(title_of_item(hand.ground, advice.item))) +
           " and test again";
  }
  const auto item = hand.ground.item(leader.item);
  const double chance = chance_to_settle(hand, hand.reasoning.ranked.front().check, *item);
  return chance >= leads_from && leader.unsound.value() < settled_from
             ? "one more check may settle it"
             : "the next check will tell more";
}

std::string mended_titles(const CaseInHand& hand) {
  std::string mended;
  for (const auto& repair : hand.state.repairs) {
    const std::string title = title_of_item(hand.ground, repair.what.item);
    if (mended.find(title) == std::string::npos) {
      mended += (mended.empty() ? "" : ", ") + title;
    }
  }
  return mended;
}

using Titles = std::vector<std::string>;

/// What stands convicted, most suspicious first. `by`: of these alone.
Titles convicted(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                 std::initializer_list<Conviction> by) {
  Titles titles;
  for (const SuspectView& suspect : suspects) {
    const auto item = hand.ground.item(suspect.item);
    if (item && std::find(by.begin(), by.end(), hand.reasoning.convicted[*item]) != by.end()) {
      titles.push_back(suspect.title);
    }
  }
  return titles;
}

std::string few_of(Titles titles) {
  constexpr std::size_t named_most = 3;
  const std::size_t rest = titles.size() - std::min(titles.size(), named_most);
  titles.resize(titles.size() - rest);
  if (rest > 0) {
    titles.push_back(std::to_string(rest) + " more");
  }
  return listed(titles);
}

std::string_view it_or_them(const Titles& titles) { return titles.size() == 1 ? "it" : "them"; }

/// Neither cleared by the technician nor mended: what was mended is sound now.
bool may_lead(const SuspectView& suspect) {
  return suspect.judged != word_of(JudgeSuspect::Verdict::cleared) && suspect.mended.empty();
}

/// What leads by what was reported.
const SuspectView& leader_of_blame(const std::vector<SuspectView>& suspects) {
  const SuspectView* leader = nullptr;
  for (const SuspectView& suspect : suspects) {
    if (may_lead(suspect) && (leader == nullptr || suspect.blame.value() > leader->blame.value())) {
      leader = &suspect;
    }
  }
  return leader == nullptr ? suspects.front() : *leader;
}

/// The strongest of those not cleared but the leader.
const SuspectView* next_of_blame(const std::vector<SuspectView>& suspects,
                                 const SuspectView& leader) {
  const SuspectView* next = nullptr;
  for (const SuspectView& suspect : suspects) {
    if (&suspect != &leader && may_lead(suspect) &&
        (next == nullptr || suspect.blame.value() > next->blame.value())) {
      next = &suspect;
    }
  }
  return next;
}

/// It leads beyond doubt, but for readings whose own sentences say that they prove nothing.
bool rests_on_unproven(const CaseInHand& hand, const SuspectView& leader) {
  const auto item = hand.ground.item(leader.item);
  return item && leader.convicted.empty() && leader.blame.value() >= settled_from &&
         without_unproven(hand.reasoning.blame.at(*item), hand.reasoning.on_unproven.at(*item)) <
             settled_from;
}

/// By what was reported or looked bad alone.
std::string leads_sentence(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                           const std::vector<CheckView>& next) {
  const SuspectView& first = leader_of_blame(suspects);
  if (rests_on_unproven(hand, first)) {
    return named(first) +
           " leads, by readings that do not prove it: lift a leg, hold it against its own sheet or "
           "a fresh part, before it is mended.";
  }
  if (first.blame.value() >= settled_from) {
    return "Settled beyond reasonable doubt: " + named(first) + ". Mend it and test again.";
  }
  if (first.blame.value() >= leads_from) {
    return named(first) + " leads: " + what_next(hand, first, next) + '.';
  }
  std::string sentence = "Nothing leads yet: " + named(first);
  if (const SuspectView* second = next_of_blame(suspects, first); second != nullptr) {
    sentence += ", then " + named(*second);
  }
  const double unlisted = 1.0 - hand.reasoning.by_anything;
  if (unlisted >= unlisted_told_from && !hand.reasoning.evidence.evidence.present.empty()) {
    sentence += "; with " + percent(unlisted) + " it is something that is not in the list";
  }
  if (const Advice advice = advice_of(hand); advice.act == Advice::Act::mend) {
    sentence += ". No check saves its time: mend " +
                mid_sentence(title_of_item(hand.ground, advice.item)) + " and test again";
  }
  return sentence + '.';
}

/// Of a set that nobody complains of nothing makes any trouble: parts are worn, and that is all.
std::string worn_sentence(const CaseInHand& hand, const std::vector<SuspectView>& suspects) {
  const Titles worn = convicted(hand, suspects, {Conviction::by_reading, Conviction::by_blame});
  const Titles judged = convicted(hand, suspects, {Conviction::by_judgement});
  std::string sentence = hand.state.intake.complaint.empty()
                             ? "No symptom was reported."
                             : "No symptom is noted yet of what the owner tells.";
  if (worn.empty() && judged.empty()) {
    const SuspectView& worst = leader_of_blame(suspects);
    // Readings alone: nobody complains of anything that could be tried again.
    return !hand.reasoning.evidence.evidence.present.empty() || !hand.state.repairs.empty() ||
                   worst.unsound.value() < leads_from
               ? ""
               : sentence + " No reading convicts a part yet; most likely worn is " + worst.title +
                     " (" + percent(worst.unsound.value()) +
                     "). Lift a leg, or hold it against its own sheet or a fresh part.";
  }
  if (!worn.empty()) {
    sentence += " Not sound any more, beyond reasonable doubt: " + few_of(worn) + '.';
  }
  if (!judged.empty()) {
    sentence += " Judged at fault by you: " + mid_sentence(few_of(judged)) + '.';
  }
  sentence += " What to renew stands with the mending.";
  const SuspectView& leader = leader_of_blame(suspects);
  if (!hand.reasoning.evidence.evidence.present.empty() && leader.convicted.empty()) {
    // Nobody complains of it: like everything else here it is measured before it goes or stays.
    sentence += " By what looked bad, " + named(leader) + " comes first: measure it.";
  }
  return sentence;
}

/// What is convicted, as far as it explains what was reported; "" where it does not.
std::string convicted_sentence(const CaseInHand& hand, const std::vector<SuspectView>& suspects) {
  const double explained = hand.reasoning.by_convicted;
  const Titles measured = convicted(hand, suspects, {Conviction::by_reading});
  const Titles judged = convicted(hand, suspects, {Conviction::by_judgement});
  const std::string share = percent(explained);
  if (!measured.empty() && explained >= settled_from) {
    return "Settled beyond reasonable doubt: " + few_of(measured) + " (" + share +
           (measured.size() > 1 ? " together" : "") + "). Mend " +
           std::string(it_or_them(measured)) + " and test again.";
  }
  if (!judged.empty() && explained < settled_from) {
    return "Judged at fault by you: " + mid_sentence(few_of(judged)) +
           "; by the figures there is a chance of " + share + " that " +
           (judged.size() == 1 ? "it makes" : "they make") + " the complaint. Mend " +
           std::string(it_or_them(judged)) + " and test again.";
  }
  if (!measured.empty() && explained >= leads_from) {
    return "Not sound beyond reasonable doubt: " + few_of(measured) + ", and with " + share +
           (measured.size() == 1 ? " it makes" : " they make") + " the complaint: mend " +
           std::string(it_or_them(measured)) + " and test again.";
  }
  return "";
}

/// What must be mended though it does not explain the complaint, as far as it was not named yet.
std::string convicted_too(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                          const std::string& sentence) {
  Titles rest = convicted(hand, suspects, {Conviction::by_reading});
  std::erase_if(
      rest, [&](const std::string& title) { return sentence.find(title) != std::string::npos; });
  if (rest.empty() || sentence.find(" more (") != std::string::npos ||
      sentence.find(" more,") != std::string::npos) {
    return "";
  }
  return " Not sound either, beyond reasonable doubt, whatever makes the complaint: " +
         few_of(rest) + ". Mend " + std::string(it_or_them(rest)) + " too.";
}

std::string by_complaint(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                         const std::vector<CheckView>& next) {
  const double capacitor = hand.reasoning.by_capacitors;
  const bool tried = !hand.state.outcomes.empty() || !hand.state.repairs.empty();
  if (std::string told = convicted_sentence(hand, suspects); !told.empty()) {
    return told;
  }
  if (tried && advice_of(hand).act == Advice::Act::stop) {
    return "As far as can be measured it is nothing listed here (" +
           percent(hand.reasoning.by_anything) + " that it is): stop replacing, look elsewhere.";
  }
  if (!hand.reasoning.evidence.evidence.present.empty() && capacitor < capacitor_unlikely_below) {
    return "Probably not a capacitor (" + percent(capacitor) +
           "): " + named(leader_of_blame(suspects)) + " comes first.";
  }
  return leads_sentence(hand, suspects, next);
}

std::string cleared_against_reading(const CaseInHand& hand) {
  const auto against = judged_against_readings(hand.ground, hand.state, hand.reasoning.evidence);
  if (against.empty()) {
    return "";
  }
  return " " + against.front().substr(0, against.front().find(':')) +
         " was judged against its own reading: look at it again.";
}

std::string sentence_of(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                        const std::vector<CheckView>& next) {
  if (!hand.reasoning.refused.empty()) {
    return "There are no figures for what was told: look at the log, or take a step back.";
  }
  if (hand.reasoning.evidence.evidence.present.empty() &&
      hand.reasoning.evidence.readings.empty()) {
    return "Nothing is known to be wrong yet: say what the set does.";
  }
  if (!hand.reasoning.evidence.evidence.present.empty() && awaits_retest(hand.state)) {
    return "Mended: " + mended_titles(hand) + ". Try the set again before anything else is mended.";
  }
  if (hand.reasoning.evidence.symptoms_present.empty()) {
    if (std::string worn = worn_sentence(hand, suspects); !worn.empty()) {
      return worn + cleared_against_reading(hand);
    }
    if (!hand.state.repairs.empty()) {
      return "No symptom was reported. Renewed: " + mended_titles(hand) +
             ". Prove it before it is handed over.";
    }
  }
  const std::string sentence = by_complaint(hand, suspects, next);
  return sentence + convicted_too(hand, suspects, sentence) + cleared_against_reading(hand);
}

}  // namespace

Leading leading_of(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                   const std::vector<CheckView>& next) {
  Leading leading;
  if (!hand.reasoning.evidence.evidence.present.empty() && hand.reasoning.refused.empty()) {
    leading.capacitor = Probability(hand.reasoning.by_capacitors);
    const double listed_share = std::max(hand.reasoning.by_anything, hand.reasoning.by_capacitors);
    leading.other = Probability(listed_share - hand.reasoning.by_capacitors);
    leading.unlisted = Probability(1.0 - listed_share);
  }
  const auto& closed = hand.state.closed;
  if (closed) {
    leading.settled = !closed->what.cause.empty();
    leading.sentence = leading.settled
                           ? "Closed: " + title_of_item(hand.ground, closed->what.cause) + '.'
                           : "Closed without a cause found.";
  } else if (!hand.reasoning.contradiction.empty()) {
    leading.sentence = "What was told cannot all be true: one of it must be looked at again.";
  } else if (complaint_gone(hand.state)) {
    leading.settled = true;
    leading.sentence = "Gone after the repair: " + mended_titles(hand) + '.';
  } else if (suspects.empty()) {
    leading.sentence = "The knowledge names no suspect in this equipment.";
  } else {
    leading.sentence = sentence_of(hand, suspects, next);
    const bool reported = !hand.reasoning.evidence.evidence.present.empty();
    const SuspectView& leader = leader_of_blame(suspects);
    const bool one = leader.blame.value() >= settled_from && !rests_on_unproven(hand, leader);
    leading.settled = reported && hand.reasoning.refused.empty() &&
                      (one || hand.reasoning.by_convicted >= settled_from);
  }
  return leading;
}

Advice advice_of(const CaseInHand& hand) {
  const Reasoning& reasoning = hand.reasoning;
  if (reasoning.evidence.evidence.present.empty() || hand.state.closed ||
      !reasoning.refused.empty() || complaint_gone(hand.state)) {
    return {};
  }
  switch (reasoning.step.kind) {
    case planning::NextStep::Kind::check:
      return {Advice::Act::check, ""};
    case planning::NextStep::Kind::mend: {
      const std::size_t item = reasoning.bench.bench.remedies.at(reasoning.step.index).item;
      return {Advice::Act::mend, hand.ground.compiled.network.items[item].id};
    }
    case planning::NextStep::Kind::stop:
      break;
  }
  return {Advice::Act::stop, ""};
}

std::string contradiction_of(const CaseInHand& hand) {
  std::string text;
  for (const Piece& piece : hand.reasoning.contradiction) {
    text += (text.empty() ? "" : "; ") + piece.text + " (step " + std::to_string(piece.event) + ')';
  }
  if (!text.empty()) {
    text +=
        ". The figures leave these out. Look at one again and record it as it is, record it as "
        "unclear, or take its step back.";
  }
  for (const std::string& against :
       judged_against_readings(hand.ground, hand.state, hand.reasoning.evidence)) {
    text += (text.empty() ? "" : " ") + against;
  }
  return text;
}

}  // namespace dryout::casework
