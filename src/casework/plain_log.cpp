#include "casework/plain_log.h"

#include <algorithm>
#include <map>

#include "casework/rescue.h"
#include "casework/wording.h"
#include "documents/parse.h"

namespace dryout::casework {
namespace {

using documents::Value;
using quantities::Problem;
using quantities::Result;

/// A text bare, anything else as JSON has it.
std::string bare(const Value& value) {
  const std::string* text = value.text();
  return text == nullptr ? documents::to_line(value) : *text;
}

/// The step that an undo or a redo names; 0 = none.
int named_by(const casestore::EventRow& event) {
  const auto document = documents::parse(event.body, "step");
  const Value* of = document ? document->root.find("of") : nullptr;
  const double* number = of == nullptr ? nullptr : of->number();
  return number == nullptr ? 0 : static_cast<int>(*number);
}

std::string set_name_of(const casestore::SalvagedCase& salvaged) {
  if (salvaged.facts && !salvaged.facts->set_name.empty()) {
    return salvaged.facts->set_name;
  }
  if (!salvaged.events.empty()) {
    const auto document = documents::parse(salvaged.events.front().body, "step");
    const Value* name = document ? document->root.find("set_name") : nullptr;
    if (name != nullptr && name->text() != nullptr) {
      return *name->text();
    }
  }
  return {};
}

}  // namespace

/// What cannot be read stands as it is written.
std::string plain_text(const std::string& body) {
  const auto document = documents::parse(body, "step");
  const auto* members = document ? document->root.object_members() : nullptr;
  if (members == nullptr) {
    return body;
  }
  std::string text;
  for (const auto& [name, value] : *members) {
    const std::string word = bare(value);
    if (name != "do" && !word.empty()) {
      text.append(text.empty() ? "" : ", ").append(name).append(" ").append(word);
    }
  }
  return text;
}

PlainLog plain_log_of(const casestore::SalvagedCase& salvaged) {
  PlainLog log;
  log.number = salvaged.number;
  log.set_name = set_name_of(salvaged);
  std::map<int, PlainLine> lines;
  for (const int missing : salvaged.missing) {
    lines[missing] = {missing, "", "", "damaged or missing", false, false};
  }
  for (const casestore::EventRow& event : salvaged.events) {
    if (event.kind == "undo" || event.kind == "redo") {
      if (const auto named = lines.find(named_by(event)); named != lines.end()) {
        named->second.undone = event.kind == "undo";
      }
    }
    lines[event.sequence] = {
        event.sequence, local_time(event.at), event.kind, plain_text(event.body), false, true};
  }
  for (auto& [sequence, line] : lines) {
    log.lines.push_back(std::move(line));
  }
  return log;
}

Result<PlainLog> plain_log(const std::string& store, std::int64_t number) {
  if (auto opened = casestore::CaseStore::open_to_read(store)) {
    if (const auto journal = opened->journal(number)) {
      casestore::SalvagedCase read;
      read.number = number;
      read.events = journal->events;
      read.missing = journal->damaged;
      return plain_log_of(read);
    }
  }
  auto salvaged = casestore::salvage(store);
  if (!salvaged) {
    return salvaged.problems();
  }
  const auto found =
      std::find_if(salvaged->cases.begin(), salvaged->cases.end(),
                   [&](const casestore::SalvagedCase& each) { return each.number == number; });
  if (found == salvaged->cases.end()) {
    return Problem{"no step of such a case can be read",
                   {store, 0, {}},
                   std::to_string(number),
                   "the number of a case in this store"};
  }
  return plain_log_of(*found);
}

Result<PlainLog> plain_log_of_text(const std::string& text, const std::string& file) {
  const casestore::Salvage salvaged = salvage_text(text);
  if (salvaged.cases.empty()) {
    return Problem{"no step of a case can be read", {file, 0, {}}, "", "a case file"};
  }
  return plain_log_of(salvaged.cases.front());
}

}  // namespace dryout::casework
