// Where the case stands, in one honest sentence.
#include <algorithm>

#include "casework/build_view.h"
#include "casework/set_stock.h"
#include "casework/word_list.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using quantities::Probability;

/// Below this, nothing leads (judgement).
constexpr double leads_from = 0.5;
/// Below this chance of any capacitor, say so first (judgement).
constexpr double capacitor_unlikely_below = 0.3;

std::string named(const SuspectView& suspect) {
  return suspect.title + " (" + percent(suspect.suspicion.value()) + ')';
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

/// Without a reported symptom nothing makes any trouble: parts are worn, and that is all.
std::vector<std::string> worn_parts(const CaseInHand& hand,
                                    const std::vector<SuspectView>& suspects) {
  std::vector<std::string> worn;
  for (const SuspectView& suspect : suspects) {
    const auto item = hand.ground.item(suspect.item);
    if (item && suspect.mended.empty() && is_convicted(hand, *item)) {
      worn.push_back(suspect.title);
    }
  }
  return worn;
}

std::string worn_sentence(std::vector<std::string> worn) {
  constexpr std::size_t named_most = 3;
  const std::size_t rest = worn.size() - std::min(worn.size(), named_most);
  worn.resize(worn.size() - rest);
  if (rest > 0) {
    worn.push_back(std::to_string(rest) + " more");
  }
  return "No symptom was reported. Not sound any more, beyond reasonable doubt: " + listed(worn) +
         ". What to renew stands with the mending.";
}

std::string sentence_of(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                        const std::vector<CheckView>& next) {
  if (!hand.reasoning.refused.empty()) {
    return "There are no figures for what was told: look at the log, or take a step back.";
  }
  const SuspectView& first = suspects.front();
  const double capacitor = hand.reasoning.by_capacitors;
  const bool tried = !hand.state.outcomes.empty() || !hand.state.repairs.empty();
  if (hand.reasoning.evidence.evidence.present.empty() &&
      hand.reasoning.evidence.readings.empty()) {
    return "Nothing is known to be wrong yet: say what the set does.";
  }
  if (!hand.reasoning.evidence.evidence.present.empty() && awaits_retest(hand.state)) {
    return "Mended: " + mended_titles(hand) + ". Try the set again before anything else is mended.";
  }
  if (tried && advice_of(hand).act == Advice::Act::stop) {
    return "As far as can be measured it is nothing listed here (" +
           percent(hand.reasoning.by_anything) + " that it is): stop replacing, look elsewhere.";
  }
  if (!hand.reasoning.evidence.evidence.present.empty() && capacitor < capacitor_unlikely_below) {
    return "Probably not a capacitor (" + percent(capacitor) + "): " + named(first) +
           " comes first.";
  }
  if (hand.reasoning.evidence.symptoms_present.empty()) {
    if (std::vector<std::string> worn = worn_parts(hand, suspects); !worn.empty()) {
      return worn_sentence(std::move(worn));
    }
    if (!hand.state.repairs.empty()) {
      return "No symptom was reported. Renewed: " + mended_titles(hand) +
             ". Prove it before it is handed over.";
    }
  }
  if (first.suspicion.value() >= settled_from) {
    return "Settled beyond reasonable doubt: " + named(first) + ". Mend it and test again.";
  }
  if (first.suspicion.value() >= leads_from) {
    return named(first) + " leads: " + what_next(hand, first, next) + '.';
  }
  std::string sentence = "Nothing leads yet: " + named(first);
  if (suspects.size() > 1) {
    sentence += ", then " + named(suspects[1]);
  }
  if (const Advice advice = advice_of(hand); advice.act == Advice::Act::mend) {
    sentence += ". No check saves its time: mend " +
                mid_sentence(title_of_item(hand.ground, advice.item)) + " and test again";
  }
  return sentence + '.';
}

}  // namespace

Leading leading_of(const CaseInHand& hand, const std::vector<SuspectView>& suspects,
                   const std::vector<CheckView>& next) {
  Leading leading;
  if (!hand.reasoning.evidence.evidence.present.empty() && hand.reasoning.refused.empty()) {
    leading.capacitor = Probability(hand.reasoning.by_capacitors);
    leading.other = Probability(1.0 - hand.reasoning.by_capacitors);
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
    leading.settled = reported && hand.reasoning.refused.empty() &&
                      suspects.front().suspicion.value() >= settled_from;
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

std::string contradiction_of(const Reasoning& reasoning) {
  std::string text;
  for (const Piece& piece : reasoning.contradiction) {
    text += (text.empty() ? "" : "; ") + piece.text + " (step " + std::to_string(piece.event) + ')';
  }
  return text.empty() ? ""
                      : text +
                            ". The figures leave these out. Look at one again and record it as "
                            "it is, record it as unclear, or take its step back.";
}

}  // namespace dryout::casework
