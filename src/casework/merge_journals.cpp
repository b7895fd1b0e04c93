#include "casework/merge_journals.h"

#include <algorithm>
#include <map>

namespace dryout::casework {
namespace {

/// What an addition speaks of, "" = of nothing that another could contradict; nothing for whatever
/// does more than add.
struct SpokenOf {
  using Subject = std::optional<std::string>;
  Subject operator()(const AddNote& /*c*/) const { return ""; }
  Subject operator()(const ReportSymptom& c) const {
    return "symptom\n" + c.symptom + '\n' + c.where.channel + '\n' + c.where.band + '\n' +
           c.where.path + '\n' + c.where.source;
  }
  Subject operator()(const RecordOutcome& c) const {
    return "outcome\n" + c.check + '\n' + c.place;
  }
  Subject operator()(const RecordReading& c) const {
    return "reading\n" + c.item + '\n' + std::to_string(static_cast<int>(c.kind)) +
           (c.in_circuit ? "\nin" : "\nout");
  }
  Subject operator()(const NamePart& c) const { return "part\n" + c.reference; }
  Subject operator()(const AcknowledgeCautions& c) const {
    return "heeded\n" + c.check + '\n' + c.place;
  }
  template <class Other>
  Subject operator()(const Other& /*c*/) const {
    return {};
  }
};

bool same(const casestore::NewEvent& a, const casestore::NewEvent& b) {
  return a.at == b.at && a.kind == b.kind && a.body == b.body;
}

/// What was said last of each thing; nothing where more was done than adding.
using Sayings = std::map<std::string, std::string>;
std::optional<Sayings> sayings_of(const Journal& journal, std::size_t from) {
  Sayings sayings;
  for (std::size_t i = from; i < journal.size(); ++i) {
    const auto* command = std::get_if<Command>(&journal[i].act);
    const auto subject =
        command == nullptr ? std::optional<std::string>() : std::visit(SpokenOf{}, *command);
    if (!subject) {
      return {};
    }
    if (!subject->empty()) {
      sayings[*subject] = to_event(journal[i]).body;
    }
  }
  return sayings;
}

}  // namespace

std::optional<Journal> lacking_here(const Journal& ours, const Journal& theirs,
                                    std::size_t shared) {
  const auto here = sayings_of(ours, shared);
  const auto there = sayings_of(theirs, shared);
  if (!here || !there) {
    return {};
  }
  for (const auto& [subject, said] : *there) {
    const auto said_here = here->find(subject);
    if (said_here != here->end() && said_here->second != said) {
      return {};
    }
  }
  std::vector<casestore::NewEvent> own;
  for (std::size_t i = shared; i < ours.size(); ++i) {
    own.push_back(to_event(ours[i]));
  }
  Journal lacking;
  for (std::size_t i = shared; i < theirs.size(); ++i) {
    const casestore::NewEvent event = to_event(theirs[i]);
    const auto there_too =
        std::find_if(own.begin(), own.end(), [&](const auto& each) { return same(each, event); });
    if (there_too == own.end()) {
      lacking.push_back(theirs[i]);
    } else {
      own.erase(there_too);  // one for one
    }
  }
  return lacking;
}

Journal without_gaps(const Journal& journal, const std::string& name,
                     std::vector<std::string>& lost) {
  Journal whole;
  std::map<int, int> renamed;
  for (const Entry& entry : journal) {
    Entry kept = entry;
    kept.sequence = static_cast<int>(whole.size()) + 1;
    int* of = nullptr;
    if (auto* undo = std::get_if<Undo>(&kept.act)) {
      of = &undo->of;
    } else if (auto* redo = std::get_if<Redo>(&kept.act)) {
      of = &redo->of;
    }
    if (of != nullptr) {
      const auto target = renamed.find(*of);
      if (target == renamed.end()) {
        lost.push_back(name + ", step " + std::to_string(entry.sequence) +
                       ": takes back or brings " + "back step " + std::to_string(*of) +
                       ", which is gone");
        continue;
      }
      *of = target->second;
    }
    renamed[entry.sequence] = kept.sequence;
    whole.push_back(std::move(kept));
  }
  const auto* first = whole.empty() ? nullptr : std::get_if<Command>(&whole.front().act);
  if (first == nullptr || !std::holds_alternative<TakeIn>(*first)) {
    lost.push_back(name + ": its intake; without it the case cannot be taken in elsewhere");
  }
  return whole;
}

}  // namespace dryout::casework
