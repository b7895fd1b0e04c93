#include "casework/beside_figures.h"
#include "casework/build_view.h"
#include "casework/wording.h"
#include "casework/words.h"
#include "quantities/holds.h"
#include "readings/verdict.h"

namespace dryout::casework {
namespace {

bool mended_before(const CaseInHand& hand, const Told<RecordReading>& told) {
  const auto item = hand.ground.item(told.what.item);
  for (std::size_t i = 0; i < told.repairs; ++i) {
    if (item && hand.ground.item(hand.state.repairs[i].what.item) == item) {
      return true;
    }
  }
  return false;
}

/// The reading's own sentence may convict, on the strength of this number alone. Where all that is
/// known leaves the part a fair chance of being sound, the page must not say so beside it.
std::string sentence_of(const CaseInHand& hand, const Told<RecordReading>& told,
                        const WeighedReading& weighed, bool mended) {
  const auto item = hand.ground.item(told.what.item);
  if (!weighed.is_bad() || mended || !item || *item >= hand.reasoning.foresight.now.items.size()) {
    return weighed.sentence;
  }
  if (quantities::holds(hand.reasoning.evidence.mended, *item)) {
    // What is known now is of the part that went in; the number is of the one that came out.
    return weighed.sentence + " Read before it was mended.";
  }
  const double unsound = hand.reasoning.unsound[*item];
  if (unsound >= readings::convicted_from) {
    return weighed.sentence;
  }
  return (weighed.shorted ? weighed.sentence
                          : shown(told.what) + " is past the limit: " + weighed.limit_told + '.') +
         " By itself that would convict; with all that is known here it is " + percent(unsound) +
         " that something is wrong with it. Measure it again before it is replaced.";
}

}  // namespace

std::vector<ReadingView> readings_of(const CaseInHand& hand) {
  std::vector<ReadingView> readings;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const auto& told = hand.state.readings[i];
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    const auto item = hand.ground.item(told.what.item);
    ReadingView view;
    view.event = told.event;
    view.item = item ? hand.ground.compiled.network.items[*item].id : told.what.item;
    view.item_title = title_of_item(hand.ground, told.what.item);
    view.kind = word_of(told.what.kind);
    view.shown = shown(told.what);
    view.value = told.what.value;
    view.over_range = told.what.over_range;
    view.limit = weighed.limit;
    view.limit_source = weighed.limit_source;
    view.after_repair = mended_before(hand, told);
    if (const auto beside = read_beside_figures(told.what.beside, told.what.kind)) {
      view.beside = *beside;
    }
    view.batch = view.after_repair ? "" : weighed.batch;
    view.verdict = weighed.verdict;
    view.shorted = weighed.shorted;
    view.sentence = sentence_of(hand, told, weighed, view.after_repair);
    view.caveats = weighed.caveats;
    readings.push_back(std::move(view));
  }
  return readings;
}

}  // namespace dryout::casework
