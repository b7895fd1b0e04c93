#include "casework/rescue.h"

#include <optional>
#include <utility>

#include "casework/case_chain.h"
#include "casework/case_file.h"
#include "casework/journal.h"
#include "casework/merge_journals.h"
#include "casework/plain_log.h"
#include "documents/read_text.h"

namespace dryout::casework {
namespace {

using casestore::EventRow;
using casestore::Salvage;
using casestore::SalvagedCase;
using quantities::Result;

/// The intake that the line in the list of cases still tells.
std::optional<EventRow> intake_from_list(const SalvagedCase& found) {
  if (!found.facts || found.facts->equipment.empty()) {
    return {};
  }
  const Entry entry{
      1, found.opened_at,
      Command(TakeIn{found.facts->equipment, found.facts->set_name, found.facts->year_built,
                     found.facts->owner, found.facts->complaint})};
  const casestore::NewEvent event = to_event(entry);
  return EventRow{1, event.at, event.kind, event.body};
}

class Rescuer {
 public:
  explicit Rescuer(std::string path) : path_(std::move(path)) {}

  void take(SalvagedCase found) {
    const std::string name = "case " + std::to_string(found.number);
    const std::size_t lost_before = rescue_.lost.size();
    for (const std::string& why : found.unvouched) {
      rescue_.lost.push_back(std::string(name).append(", ").append(why));
    }
    const bool headless = !found.missing.empty() && found.missing.front() == 1;
    const auto intake = headless ? intake_from_list(found) : std::nullopt;
    for (const int step : found.missing) {
      const bool made = step == 1 && intake;
      std::string lost = name;
      lost.append(", step ").append(std::to_string(step));
      lost += (made ? ": damaged or missing; its content is taken from the list of "
                      "cases"
                    : ": damaged or missing");
      rescue_.lost.push_back(std::move(lost));
    }
    for (const int step : found.beyond) {
      rescue_.lost.push_back(name + ", step " + std::to_string(step) +
                             ": sound, and behind the last step on record of the case: put aside");
    }
    for (const std::string& doubtful : found.doubtful) {
      rescue_.aside.push_back(std::string(name).append(", ").append(doubtful));
    }
    if (intake) {
      found.events.insert(found.events.begin(), *intake);
    }
    hold_against_chain(found, name);
    if (found.identity.find_first_not_of("0123456789abcdef.") != std::string::npos) {
      found.identity.clear();  // turned; the first step gives another
    }
    RescuedCase saved;
    saved.number = found.number;
    saved.set_name = plain_log_of(found).set_name;
    const Journal journal = without_gaps(readable(found, name), name, rescue_.lost);
    saved.steps = static_cast<int>(journal.size());
    saved.chained = found.bears_chain && rescue_.lost.size() == lost_before;
    if (!journal.empty()) {
      const CaseFile file{found.identity, journal};
      saved.text = saved.chained ? case_text(file) : case_text_unchained(file);
    }
    rescue_.cases.push_back(std::move(saved));
  }

  Rescue finish() { return std::move(rescue_); }

  void take_lost(std::vector<std::string> lost) { rescue_.lost = std::move(lost); }

 private:
  /// One digest stands for all steps of a file: which of them is another it cannot say.
  void hold_against_chain(const SalvagedCase& found, const std::string& name) {
    if (found.chain.empty() || !found.missing.empty()) {
      return;  // none, or a chain whose steps are not all here, which has been said
    }
    const auto journal = journal_of(found.events, path_);
    if (!journal || chain_of({found.identity, *journal}) != found.chain) {
      rescue_.lost.push_back(name + ", from step 1 on: its " + std::to_string(found.events.size()) +
                             " steps are not those that were written to the file: one was changed, "
                             "added or taken out, and which cannot be told; they are saved as they "
                             "are found, without a chain");
    }
  }

  /// Step by step: one that this program cannot read costs itself alone.
  Journal readable(const SalvagedCase& found, const std::string& name) {
    Journal journal;
    for (const EventRow& row : found.events) {
      const auto read = journal_of({row}, path_);
      if (read) {
        journal.push_back(read->front());
        continue;
      }
      rescue_.lost.push_back(name + ", step " + std::to_string(row.sequence) +
                             ": sound, and not a step that this program knows");
      rescue_.aside.push_back(name + ", step " + std::to_string(row.sequence) + ": " + row.kind +
                              ' ' + row.body);
    }
    return journal;
  }

  std::string path_;
  Rescue rescue_;
};

}  // namespace

Result<Rescue> rescue(const std::string& path) {
  const auto text =
      documents::read_text(path, "a store or a case file on a disk", casestore::salvaged_bytes_max);
  if (!text) {
    return text.problems();
  }
  const std::string& bytes = *text;
  const std::size_t first = bytes.find_first_not_of(" \t\r\n");
  const bool is_text = first != std::string::npos && bytes[first] == '{';
  auto found = is_text ? Result<Salvage>(salvage_text(bytes)) : casestore::salvage(path);
  if (!found) {
    return found.problems();
  }
  Rescuer rescuer(path);
  rescuer.take_lost(std::move(found->lost));
  for (SalvagedCase& each : found->cases) {
    rescuer.take(std::move(each));
  }
  return rescuer.finish();
}

}  // namespace dryout::casework
