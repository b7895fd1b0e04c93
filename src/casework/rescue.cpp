#include "casework/rescue.h"

#include <optional>
#include <utility>

#include "casework/case_file.h"
#include "casework/journal.h"
#include "casework/merge_journals.h"
#include "casework/plain_log.h"
#include "documents/parse.h"
#include "documents/read_text.h"

namespace dryout::casework {
namespace {

using casestore::EventRow;
using casestore::Salvage;
using casestore::SalvagedCase;
using documents::Value;
using quantities::Result;

/// Where the object that begins at `from` ends, behind its brace; npos where it does not.
std::size_t end_of_object(const std::string& text, std::size_t from) {
  int depth = 0;
  bool in_text = false;
  for (std::size_t at = from; at < text.size(); ++at) {
    const char c = text[at];
    if (in_text) {
      if (c == '\\') {
        ++at;
      } else if (c == '"' || c == '\n') {  // no text of ours goes over a line
        in_text = false;
      }
    } else if (c == '"') {
      in_text = true;
    } else if (c == '{') {
      ++depth;
    } else if (c == '}' && --depth == 0) {
      return at + 1;
    }
  }
  return std::string::npos;
}

/// Whether an object that begins here is an entry of a journal: its first member is "at".
bool begins_entry(const std::string& text, std::size_t brace) {
  const std::size_t next = text.find_first_not_of(" \t\r\n", brace + 1);
  return next != std::string::npos && text.compare(next, 4, "\"at\"") == 0;
}

std::optional<EventRow> entry_of(const std::string& object) {
  const auto document = documents::parse(object, "entry");
  const Value* at = document ? document->root.find("at") : nullptr;
  if (at == nullptr || at->number() == nullptr) {
    return {};
  }
  EventRow row{0, static_cast<std::int64_t>(*at->number()), "", ""};
  for (const char* act : {"undo", "redo"}) {
    const Value* of = document->root.find(act);
    if (of != nullptr && of->number() != nullptr) {
      row.kind = act;
      row.body = documents::to_line(Value::object({{"of", *of->number()}}));
      return row;
    }
  }
  const Value* command = document->root.find("command");
  const Value* word = command == nullptr ? nullptr : command->find("do");
  if (word == nullptr || word->text() == nullptr) {
    return {};
  }
  row.kind = *word->text();
  row.body = documents::to_line(*command);
  return row;
}

std::string identity_at(const std::string& text, std::size_t name_at) {
  const std::size_t colon = text.find(':', name_at);
  const std::size_t begin = colon == std::string::npos ? colon : text.find('"', colon);
  const std::size_t end = begin == std::string::npos ? begin : text.find('"', begin + 1);
  return end == std::string::npos ? "" : text.substr(begin + 1, end - begin - 1);
}

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
    if (found.identity.find_first_not_of("0123456789abcdef.") != std::string::npos) {
      found.identity.clear();  // turned; the first step gives another
    }
    RescuedCase saved;
    saved.number = found.number;
    saved.set_name = plain_log_of(found).set_name;
    const Journal journal = without_gaps(readable(found, name), name, rescue_.lost);
    saved.steps = static_cast<int>(journal.size());
    if (!journal.empty()) {
      saved.text = case_text({found.identity, journal});
    }
    rescue_.cases.push_back(std::move(saved));
  }

  Rescue finish() { return std::move(rescue_); }

 private:
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

Salvage salvage_text(const std::string& text) {
  Salvage all;
  std::string identity;
  const auto next_case = [&] {
    SalvagedCase& fresh = all.cases.emplace_back();
    fresh.number = static_cast<std::int64_t>(all.cases.size());
    fresh.identity = std::exchange(identity, {});
  };
  bool in_case = false;
  int sequence = 0;
  for (std::size_t at = 0; at < text.size();) {
    constexpr std::string_view identity_word = "\"identity\"";
    constexpr std::string_view journal_word = "\"journal\"";
    if (text.compare(at, identity_word.size(), identity_word) == 0) {
      identity = identity_at(text, at);
      in_case = false;
      at += identity_word.size();
    } else if (text.compare(at, journal_word.size(), journal_word) == 0) {
      in_case = false;
      at += journal_word.size();
    } else if (text[at] == '{' && begins_entry(text, at)) {
      if (!in_case) {
        next_case();
        in_case = true;
        sequence = 0;
      }
      ++sequence;
      const std::size_t end = end_of_object(text, at);
      auto entry = end == std::string::npos ? std::nullopt : entry_of(text.substr(at, end - at));
      if (entry) {
        entry->sequence = sequence;
        all.cases.back().events.push_back(std::move(*entry));
        at = end;
      } else {
        all.cases.back().missing.push_back(sequence);
        ++at;
      }
    } else {
      ++at;
    }
  }
  return all;
}

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
  for (SalvagedCase& each : found->cases) {
    rescuer.take(std::move(each));
  }
  return rescuer.finish();
}

}  // namespace dryout::casework
