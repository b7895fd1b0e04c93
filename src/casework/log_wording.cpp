// The bench log: one line per command.
#include "casework/heeding.h"
#include "casework/located_symptoms.h"
#include "casework/proof_steps.h"
#include "casework/wording.h"
#include "casework/words.h"
#include "quantities/engineering_notation.h"

namespace dryout::casework {
namespace {

std::string behind(const std::string& separator, const std::string& text) {
  return text.empty() ? "" : separator + text;
}

class LineWriter {
 public:
  explicit LineWriter(const Ground& ground) : ground_(ground) {}

  std::string operator()(const TakeIn& c) const {
    std::string line = "Taken in: " + (c.set_name.empty() ? "a set" : c.set_name);
    line += c.year_built ? ", built " + std::to_string(*c.year_built) : "";
    return line + behind(", of ", c.owner) + behind(": ", c.complaint);
  }
  std::string operator()(const ReportSymptom& c) const {
    const std::string ending = c.seen == Seen::yes  ? ": there"
                               : c.seen == Seen::no ? ": not there"
                                                    : ": cannot be told";
    return symptom(c.symptom) + behind(" (", words_of(*ground_.equipment, c.where)) +
           (anywhere(c.where) ? "" : ")") + ending;
  }
  std::string operator()(const RecordOutcome& c) const {
    const std::string ending = c.bad == Seen::yes  ? ": looked bad"
                               : c.bad == Seen::no ? ": looked good"
                                                   : ": unclear";
    return title_of_check(ground_, c.check, c.place) + ending + behind(" - ", c.remark);
  }
  std::string operator()(const RecordReading& c) const {
    std::string line = title_of_item(ground_, c.item) + ": " + title_of(c.kind) + ' ' + shown(c);
    line += c.in_circuit ? " in circuit" : " with a leg lifted";
    line += c.limit ? ", limit " + shown(c.kind, *c.limit) : "";
    return line + behind(" - ", c.remark);
  }
  std::string operator()(const NamePart& c) const {
    // By the group: where its only part has a name, the group's item is that part.
    const auto* group = knowledge::find(ground_.equipment->groups, c.group);
    std::string line = "Named " + c.reference + " of the " +
                       mid_sentence(group == nullptr ? c.group : group->title);
    line += c.capacitance ? ", " + quantities::format(*c.capacitance) : "";
    line += c.rated ? ", " + quantities::format(*c.rated) : "";
    return line + behind(", ", c.make) + behind(", ", c.body);
  }
  std::string operator()(const AcknowledgeCautions& c) const {
    const auto reading = reading_heeded(ground_, c.check, c.place);
    return "Cautions heeded: " +
           (reading ? title_of(reading->kind) + " at " + title_of_item(ground_, c.check)
                    : title_of_check(ground_, c.check, c.place));
  }
  std::string operator()(const DeclineCheck& c) const {
    return "Left out: " + title_of_check(ground_, c.check, c.place) + behind(" - ", c.reason);
  }
  std::string operator()(const ReconsiderCheck& c) const {
    return "Proposed again: " + title_of_check(ground_, c.check, c.place);
  }
  std::string operator()(const OpenAccess& c) const { return access(c.access) + ": open"; }
  std::string operator()(const CloseAccess& c) const { return access(c.access) + ": shut"; }
  std::string operator()(const JudgeSuspect& c) const {
    const std::string title = title_of_item(ground_, c.item);
    switch (c.verdict) {
      case JudgeSuspect::Verdict::at_fault:
        return title + ": at fault, by your judgement";
      case JudgeSuspect::Verdict::cleared:
        return title + ": cleared, by your judgement";
      case JudgeSuspect::Verdict::open:
        break;
    }
    return title + ": left to the figures again";
  }
  std::string operator()(const RecordRepair& c) const {
    return title_of_item(ground_, c.item) + ": " + c.action + behind(", fitted ", c.fitted);
  }
  std::string operator()(const RetestSymptom& c) const {
    return symptom(c.symptom) + (c.still_there ? ": still there" : ": gone");
  }
  std::string operator()(const RecordProof& c) const {
    return "Proof, " + title_of_proof_step(c.step, ground_) + ": " +
           std::string(word_of(c.outcome)) + behind(" - ", c.remark);
  }
  std::string operator()(const AddNote& c) const { return "Note: " + c.text; }
  std::string operator()(const CloseCase& c) const {
    const std::string cause = c.cause.empty() ? "no cause found" : title_of_item(ground_, c.cause);
    return "Closed: " + cause + behind(" - ", c.summary);
  }
  std::string operator()(const ReopenCase& c) const { return "Reopened" + behind(": ", c.reason); }

 private:
  [[nodiscard]] std::string symptom(const std::string& id) const {
    const auto* known = knowledge::find(ground_.knowledge->symptoms, id);
    return known == nullptr ? id : known->title;
  }
  [[nodiscard]] std::string access(const std::string& id) const {
    const auto* known = knowledge::find(ground_.equipment->access, id);
    return known == nullptr ? id : known->title;
  }

  const Ground& ground_;
};

}  // namespace

std::string line_of(const Command& command, const Ground& ground) {
  return std::visit(LineWriter(ground), command);
}

}  // namespace dryout::casework
