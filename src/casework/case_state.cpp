#include "casework/case_state.h"

#include <algorithm>

#include "casework/located_symptoms.h"

namespace dryout::casework {
namespace {

/// The newest word on a thing takes the place of the earlier one.
template <class C, class Same>
void put(std::vector<Told<C>>& list, Told<C> told, Same same) {
  std::erase_if(list, [&](const Told<C>& earlier) {
    return earlier.repairs == told.repairs && same(earlier.what, told.what);
  });
  list.push_back(std::move(told));
}

class Folder {
 public:
  Folder(CaseState& state, int event, std::int64_t at) : state_(state), event_(event), at_(at) {}

  void operator()(const TakeIn& intake) const {
    if (state_.opened_at == 0) {
      state_.opened_at = at_;
    }
    state_.intake = corrected(state_.intake, intake);
  }
  void operator()(const ReportSymptom& report) const {
    // What is said of no place speaks of all of them; what is said of one takes back a plain no.
    const bool of_all = anywhere(report.where) && report.seen != Seen::yes;
    put(state_.symptoms, told(report), [&](const auto& a, const auto& b) {
      return a.symptom == b.symptom &&
             (of_all || same_place(a.where, b.where) ||
              (anywhere(a.where) && (a.seen == Seen::no || b.seen == Seen::yes)));
    });
    drop_unclear(state_.symptoms, [](const ReportSymptom& each) { return each.seen; });
  }
  void operator()(const RecordOutcome& outcome) const {
    // What could not be told once is not asked again at the top of the list; it stands with what
    // was left out, and can be called back from there.
    if (outcome.bad == Seen::unclear) {
      state_.declined[{outcome.check, outcome.place}] = "could not be told";
    } else {
      state_.declined.erase({outcome.check, outcome.place});
    }
    put(state_.outcomes, told(outcome),
        [](const auto& a, const auto& b) { return a.check == b.check && a.place == b.place; });
    drop_unclear(state_.outcomes, [](const RecordOutcome& each) { return each.bad; });
  }
  void operator()(const RecordReading& reading) const {
    put(state_.readings, told(reading), [](const auto& a, const auto& b) {
      return a.kind == b.kind && a.in_circuit == b.in_circuit && a.item == b.item;
    });
  }
  void operator()(const NamePart& part) const {
    const auto same = [&](const NamePart& each) { return each.reference == part.reference; };
    const auto earlier = std::find_if(state_.parts.begin(), state_.parts.end(), same);
    if (earlier == state_.parts.end()) {
      state_.parts.push_back(part);
    } else {
      *earlier = part;
    }
  }
  void operator()(const AcknowledgeCautions& heeded) const {
    state_.acknowledged.emplace(heeded.check, heeded.place);
  }
  void operator()(const DeclineCheck& declined) const {
    state_.declined[{declined.check, declined.place}] = declined.reason;
  }
  void operator()(const ReconsiderCheck& again) const {
    state_.declined.erase({again.check, again.place});
  }
  void operator()(const OpenAccess& access) const { state_.open_access.insert(access.access); }
  void operator()(const CloseAccess& access) const { state_.open_access.erase(access.access); }
  void operator()(const JudgeSuspect& judged) const {
    state_.judged.erase(judged.item);
    if (judged.verdict != JudgeSuspect::Verdict::open) {
      state_.judged.emplace(judged.item, told(judged));
    }
  }
  void operator()(const RecordRepair& repair) const { state_.repairs.push_back(told(repair)); }
  void operator()(const RetestSymptom& retest) const {
    put(state_.retests, told(retest),
        [](const auto& a, const auto& b) { return a.symptom == b.symptom; });
  }
  void operator()(const RecordProof& proof) const {
    put(state_.proofs, told(proof), [](const auto& a, const auto& b) { return a.step == b.step; });
  }
  void operator()(const AddNote& note) const { state_.notes.push_back(told(note)); }
  void operator()(const CloseCase& closing) const { state_.closed = told(closing); }
  void operator()(const ReopenCase& /*reopened*/) const { state_.closed.reset(); }

 private:
  template <class C>
  [[nodiscard]] Told<C> told(const C& command) const {
    return {event_, at_, state_.repairs.size(), command};
  }
  template <class List, class SeenOf>
  static void drop_unclear(List& list, SeenOf seen_of) {
    if (seen_of(list.back().what) == Seen::unclear) {
      list.pop_back();
    }
  }

  CaseState& state_;
  int event_;
  std::int64_t at_;
};

}  // namespace

TakeIn corrected(const TakeIn& before, const TakeIn& correction) {
  const auto either = [](const std::string& now, const std::string& earlier) {
    return now.empty() ? earlier : now;
  };
  return {.equipment = either(correction.equipment, before.equipment),
          .set_name = either(correction.set_name, before.set_name),
          .year_built = correction.year_built ? correction.year_built : before.year_built,
          .owner = either(correction.owner, before.owner),
          .complaint = either(correction.complaint, before.complaint)};
}

bool complaint_gone(const CaseState& state) {
  const auto newest = [&](const auto& told) { return told.repairs == state.repairs.size(); };
  bool any = false;
  for (const auto& retest : state.retests) {
    if (newest(retest)) {
      any = true;
      if (retest.what.still_there) {
        return false;
      }
    }
  }
  return any;
}

bool awaits_retest(const CaseState& state) {
  return !state.repairs.empty() &&
         std::none_of(state.retests.begin(), state.retests.end(),
                      [&](const auto& retest) { return retest.repairs == state.repairs.size(); });
}

void fold(CaseState& state, int event, std::int64_t at, const Command& command) {
  std::visit(Folder(state, event, at), command);
}

}  // namespace dryout::casework
