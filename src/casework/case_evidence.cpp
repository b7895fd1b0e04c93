#include "casework/case_evidence.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "casework/located_symptoms.h"
#include "casework/wording.h"
#include "quantities/holds.h"

namespace dryout::casework {
namespace {

using diagnosis::Cause;
using diagnosis::Finding;

/// The technician's word counts 1000 to 1.
constexpr double judged_odds = 1000.0;

/// What a finding comes down to once these items are mended.
struct Reduced {
  Finding finding;
  bool changed = false;  ///< something it shows was mended
};

/// Repairs only ever add to the mended items, so their number tells the twins of a finding apart.
Reduced once_mended(const Finding& finding, const std::vector<std::size_t>& mended) {
  Reduced twin{finding, false};
  std::set<std::size_t> removed;
  std::erase_if(twin.finding.causes, [&](const Cause& cause) {
    return quantities::holds(mended, cause.item) && (removed.insert(cause.item), true);
  });
  twin.changed = !removed.empty();
  twin.finding.id += " (with " + std::to_string(removed.size()) + " mended)";
  return twin;
}

/// The finding without the causes that lie in mended items; the finding itself where none does.
CaseFinding twin_without(CaseNetwork& network, CaseFinding whole,
                         const std::vector<std::size_t>& mended) {
  if (mended.empty()) {
    return whole;
  }
  Reduced twin = once_mended(network.at(whole), mended);
  if (!twin.changed) {
    return whole;
  }
  const auto found = network.find(twin.finding.id);
  return found ? *found : network.add_twin(network.known(whole), std::move(twin.finding));
}

/// The part of a finding that could go when `left` took its place: the causes it has and the other
/// has not. The leak stays, for what comes and goes by itself.
CaseFinding part_that_went(CaseNetwork& network, CaseFinding finding, CaseFinding left) {
  Finding part = network.at(finding);
  const auto& stays = network.at(left).causes;
  std::erase_if(part.causes, [&](const Cause& cause) {
    return std::any_of(stays.begin(), stays.end(), [&](const Cause& other) {
      return other.item == cause.item && other.state == cause.state;
    });
  });
  part.id += " (what went)";
  return network.add_twin(network.known(finding), std::move(part));
}

struct Answer {
  CaseFinding finding;  ///< as it was when it was told: a twin, once something was mended
  bool present = false;
  bool symptom = false;
  Piece piece;
};

/// All that was told of one finding and its twins, fewest mended first, reduced to what does not
/// follow from the rest: a fault stays while it is in the set, so what is still there after a
/// repair was there before, what was not there does not come by mending, and what went was the
/// doing of what was mended in between. Something that comes and goes is left as it was told.
void leave_out_what_follows(CaseNetwork& network, std::vector<Answer>& told) {
  const auto first_absent =
      std::find_if(told.begin(), told.end(), [](const Answer& answer) { return !answer.present; });
  if (std::any_of(first_absent, told.end(), [](const Answer& answer) { return answer.present; })) {
    return;
  }
  if (first_absent != told.end()) {
    told.erase(first_absent + 1, told.end());
  }
  const auto presents =
      std::count_if(told.begin(), told.end(), [](const Answer& answer) { return answer.present; });
  if (presents > 1) {
    told.erase(told.begin(), told.begin() + (presents - 1));
  }
  if (told.size() == 2) {
    told[0].finding = part_that_went(network, told[0].finding, told[1].finding);
  }
}

class Gatherer {
 public:
  Gatherer(const Ground& ground, const CaseState& state) : ground_(ground), state_(state) {
    result_.network = CaseNetwork(ground.compiled);
    for (const auto& repair : state.repairs) {
      result_.last_repair = repair.event;
      const auto item = ground.item(repair.what.item);
      mended_at_.push_back(item);
      if (item && !quantities::holds(result_.mended, *item)) {
        result_.mended.push_back(*item);
      }
    }
  }

  CaseEvidence gather() {
    std::set<std::pair<std::string, std::size_t>> placed;
    for (const auto& told : state_.symptoms) {
      const bool there = told.what.seen == Seen::yes;
      const std::vector<Told<ReportSymptom>> all = told_of(told.what.symptom, told.repairs);
      const bool has_place = std::any_of(
          all.begin(), all.end(), [](const auto& each) { return !anywhere(each.what.where); });
      if (!has_place || !ground_.symptom_finding(told.what.symptom)) {
        answer_symptom(told.what.symptom, there, told, there ? ": reported" : ": not there");
      } else if (placed.emplace(told.what.symptom, told.repairs).second) {
        answer_placed(all);
      }
    }
    for (const auto& told : state_.retests) {
      const bool there = told.what.still_there;
      answer_symptom(told.what.symptom, there, told,
                     there ? ": still there after the repair" : ": gone after the repair");
    }
    for (const auto& told : state_.outcomes) {
      const auto finding = ground_.check_finding(told.what.check, told.what.place);
      answer(in_network(finding), told.what.check, told.what.bad == Seen::yes, false, told,
             told.what.bad == Seen::yes ? ": looked bad" : ": looked good");
    }
    put_answers();
    put_readings();
    put_judgements();
    if (!tried_and_left_.empty()) {
      result_.symptoms_left = std::move(tried_and_left_);
    }
    return std::move(result_);
  }

 private:
  /// Items mended by the first `repairs` repairs.
  [[nodiscard]] std::vector<std::size_t> mended_before(std::size_t repairs) const {
    std::vector<std::size_t> items;
    for (std::size_t i = 0; i < repairs; ++i) {
      if (mended_at_[i] && !quantities::holds(items, *mended_at_[i])) {
        items.push_back(*mended_at_[i]);
      }
    }
    return items;
  }

  template <class C>
  void answer_symptom(const std::string& symptom, bool present, const Told<C>& told,
                      const std::string& ending) {
    const auto placed = placed_.find(symptom);
    answer(placed == placed_.end() ? in_network(ground_.symptom_finding(symptom))
                                   : std::optional(placed->second),
           symptom, present, true, told, ending);
  }

  [[nodiscard]] std::optional<CaseFinding> in_network(std::optional<KnownFinding> finding) const {
    return finding ? std::optional(result_.network.of(*finding)) : std::nullopt;
  }

  [[nodiscard]] std::vector<Told<ReportSymptom>> told_of(const std::string& symptom,
                                                         std::size_t repairs) const {
    std::vector<Told<ReportSymptom>> all;
    std::copy_if(
        state_.symptoms.begin(), state_.symptoms.end(), std::back_inserter(all),
        [&](const auto& told) { return told.what.symptom == symptom && told.repairs == repairs; });
    return all;
  }

  /// All that was told of one symptom, some of it with a place: what is there is one finding, what
  /// is not is one for each place.
  void answer_placed(const std::vector<Told<ReportSymptom>>& all) {
    const knowledge::SignalPlaces places(*ground_.knowledge, *ground_.equipment);
    const std::string& id = all.front().what.symptom;
    const KnownFinding known = *ground_.symptom_finding(id);
    std::vector<diagnosis::PlacedAnswer> answers;
    std::string there;
    const Told<ReportSymptom>* newest_there = nullptr;
    for (const auto& told : all) {
      answers.push_back(placed_answer(places, told.what));
      if (told.what.seen != Seen::yes) continue;
      newest_there = &told;
      const std::string words = words_of(*ground_.equipment, told.what.where);
      there += words.empty() ? "" : (there.empty() ? " (" : "; ") + words;
    }
    const diagnosis::LocatedSymptom located(
        *ground_.knowledge, *ground_.equipment, ground_.compiled,
        *knowledge::find(ground_.knowledge->symptoms, id), answers);
    const auto in_case = [&](Finding finding) {
      const auto found = result_.network.find(finding.id);
      return found ? *found : result_.network.add_twin(known, std::move(finding));
    };
    if (newest_there != nullptr) {
      const CaseFinding finding = in_case(located.present());
      placed_.insert_or_assign(id, finding);
      answer(finding, id, true, true, *newest_there,
             (there.empty() ? "" : there + ')') + ": reported");
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (answers[i].present) continue;
      Finding finding = located.absent(i);
      if (finding.causes.empty()) continue;  // whatever shows there was weighed already
      answer(in_case(std::move(finding)), id, false, true, all[i],
             " (" + words_of(*ground_.equipment, all[i].what.where) + "): not there");
    }
  }

  template <class C>
  void answer(std::optional<CaseFinding> finding, const std::string& id, bool present, bool symptom,
              const Told<C>& told, const std::string& ending) {
    if (!finding) {
      result_.notices.push_back("Step " + std::to_string(told.event) + " speaks of \"" + id +
                                "\", which the knowledge does not have any more: it is left out.");
      return;
    }
    const CaseFinding meant = twin_without(result_.network, *finding, mended_before(told.repairs));
    const Piece piece{told.event,
                      title_of_finding(ground_, result_.network.known(*finding)) + ending};
    std::vector<Answer>& all = answers_[*finding];
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const Answer& a) { return a.finding == meant; });
    if (same == all.end()) {
      all.push_back({meant, present, symptom, piece});
    } else if (same->piece.event < told.event) {
      *same = {meant, present, symptom, piece};
    }
  }

  void put_answers() {
    for (auto& [finding, told] : answers_) {
      std::sort(told.begin(), told.end(), [this](const Answer& a, const Answer& b) {
        return result_.network.at(a.finding).causes.size() >
               result_.network.at(b.finding).causes.size();
      });
      leave_out_what_follows(result_.network, told);
      const Answer& last = told.back();
      const bool tried = last.piece.event > result_.last_repair;
      for (const Answer& answer : told) {
        auto& list = answer.present ? result_.evidence.present : result_.evidence.absent;
        list.push_back(answer.finding.value());
        (answer.present ? result_.present : result_.absent).push_back(answer.piece);
        if (answer.present && answer.symptom) {
          result_.symptoms_present.push_back(answer.finding);
          if (last.present) {
            (tried ? tried_and_left_ : result_.symptoms_left).push_back(answer.finding);
          }
        }
      }
    }
  }

  void put_readings() {
    const Brothers brothers(ground_, state_);
    for (const auto& told : state_.readings) {
      const auto item = ground_.item(told.what.item);
      if (!item || !is_capacitor(ground_.compiled.items[*item])) {
        result_.weighed.emplace_back();
        result_.notices.push_back("The reading of step " + std::to_string(told.event) + " at \"" +
                                  told.what.item + "\" has no place any more: it is left out.");
        continue;
      }
      WeighedReading weighed = weigh_reading(ground_, state_, *item, told.what, brothers);
      if (quantities::holds(mended_before(told.repairs), *item)) {
        // It tells of the new part, not of what was wrong.
        weighed.likelihood.clear();
        weighed.batch.clear();
      }
      if (!weighed.likelihood.empty()) {
        result_.evidence.readings.push_back({*item, weighed.likelihood});
        result_.readings.push_back({told.event, ground_.compiled.items[*item].title + ": " +
                                                    title_of(told.what.kind) + ' ' +
                                                    shown(told.what)});
      }
      result_.weighed.push_back(std::move(weighed));
    }
  }

  void put_judgements() {
    for (const auto& [id, told] : state_.judged) {
      const auto item = ground_.item(id);
      if (!item) {
        continue;
      }
      const bool at_fault = told.what.verdict == JudgeSuspect::Verdict::at_fault;
      std::vector<double> likelihood(result_.network.plain().items[*item].states.size(),
                                     at_fault ? 1.0 : 1.0 / judged_odds);
      likelihood.front() = at_fault ? 1.0 / judged_odds : 1.0;
      result_.evidence.readings.push_back({*item, {std::move(likelihood)}});
      result_.readings.push_back(
          {told.event, ground_.compiled.items[*item].title +
                           (at_fault ? ": judged at fault by you" : ": cleared by you")});
    }
  }

  const Ground& ground_;
  const CaseState& state_;
  CaseEvidence result_;
  std::vector<std::optional<std::size_t>> mended_at_;
  std::map<CaseFinding, std::vector<Answer>> answers_;  ///< [finding] newest of it and each twin
  std::map<std::string, CaseFinding> placed_;  ///< [symptom] told with a place: what is there
  std::vector<CaseFinding> tried_and_left_;    ///< symptoms still there since the newest repair
};

template <class T>
void erase_marked(std::vector<T>& list, const std::vector<bool>& marks, std::size_t first) {
  std::vector<T> kept;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (!marks[first + i]) {
      kept.push_back(std::move(list[i]));
    }
  }
  list = std::move(kept);
}

}  // namespace

std::vector<CaseFinding> CaseEvidence::findings_present() const {
  return {evidence.present.begin(), evidence.present.end()};
}

CaseFinding CaseEvidence::now(KnownFinding finding) const {
  const CaseFinding whole = network.of(finding);
  const Reduced twin = once_mended(network.at(whole), mended);
  const auto found = twin.changed ? network.find(twin.finding.id) : std::nullopt;
  return found.value_or(whole);
}

std::vector<Piece> CaseEvidence::pieces() const {
  std::vector<Piece> all = present;
  all.insert(all.end(), absent.begin(), absent.end());
  all.insert(all.end(), readings.begin(), readings.end());
  return all;
}

CaseEvidence evidence_of(const Ground& ground, const CaseState& state) {
  return Gatherer(ground, state).gather();
}

CaseFinding add_finding_now(CaseEvidence& evidence, KnownFinding finding) {
  return twin_without(evidence.network, evidence.network.of(finding), evidence.mended);
}

void remove_pieces(CaseEvidence& evidence, const std::vector<std::size_t>& pieces) {
  const std::size_t absent_at = evidence.present.size();
  const std::size_t readings_at = absent_at + evidence.absent.size();
  std::vector<bool> marks(readings_at + evidence.readings.size(), false);
  for (const std::size_t piece : pieces) {
    marks.at(piece) = true;
  }
  for (std::size_t i = 0; i < absent_at; ++i) {
    if (marks[i]) {
      const CaseFinding finding(evidence.evidence.present[i]);
      std::erase(evidence.symptoms_present, finding);
      std::erase(evidence.symptoms_left, finding);
    }
  }
  erase_marked(evidence.evidence.present, marks, 0);
  erase_marked(evidence.present, marks, 0);
  erase_marked(evidence.evidence.absent, marks, absent_at);
  erase_marked(evidence.absent, marks, absent_at);
  erase_marked(evidence.evidence.readings, marks, readings_at);
  erase_marked(evidence.readings, marks, readings_at);
}

std::string title_of_finding(const Ground& ground, KnownFinding finding) {
  const diagnosis::CompiledFinding& compiled = ground.compiled.named(finding);
  if (!compiled.symptom.empty()) {
    const auto* symptom = knowledge::find(ground.knowledge->symptoms, compiled.symptom);
    return symptom == nullptr ? compiled.symptom : symptom->title;
  }
  const auto* check = knowledge::find(ground.knowledge->checks, compiled.check);
  const std::string title = check == nullptr ? compiled.check : check->title;
  return compiled.place.empty() ? title : title + ", " + compiled.place_title;
}

}  // namespace dryout::casework
