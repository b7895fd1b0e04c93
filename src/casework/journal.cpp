#include "casework/journal.h"

#include <algorithm>

#include "casework/command_json.h"
#include "casework/words.h"
#include "documents/parse.h"
#include "documents/reader.h"

namespace dryout::casework {
namespace {

using documents::Reader;
using documents::Value;
using quantities::Problems;
using quantities::Result;

void withdraw(Standing& standing, int sequence) {
  std::erase_if(standing.in_force, [&](const Entry* entry) { return entry->sequence == sequence; });
}

void bring_back(Standing& standing, const Journal& journal, int sequence) {
  const auto named = [&](const Entry& entry) { return entry.sequence == sequence; };
  const auto found = std::find_if(journal.begin(), journal.end(), named);
  if (found == journal.end()) {
    return;
  }
  const auto later = [&](const Entry* entry) { return entry->sequence > sequence; };
  standing.in_force.insert(std::find_if(standing.in_force.begin(), standing.in_force.end(), later),
                           &*found);
}

std::variant<Command, Undo, Redo> read_act(const std::string& kind, const Reader& body) {
  if (kind != "undo" && kind != "redo") {
    return command_from_json(body);
  }
  body.accept_only({"of"});
  const int of = body.whole_number("of", {.min = 1.0});
  if (kind == "undo") {
    return Undo{of};
  }
  return Redo{of};
}

}  // namespace

Standing standing_of(const Journal& journal) {
  Standing standing;
  std::vector<int> taken_back;
  for (const Entry& entry : journal) {
    if (const auto* undo = std::get_if<Undo>(&entry.act)) {
      withdraw(standing, undo->of);
      taken_back.push_back(undo->of);
    } else if (const auto* redo = std::get_if<Redo>(&entry.act)) {
      bring_back(standing, journal, redo->of);
      std::erase(taken_back, redo->of);
    } else {
      standing.in_force.push_back(&entry);
      taken_back.clear();
    }
  }
  if (standing.in_force.size() > 1) {
    standing.undo = standing.in_force.back()->sequence;
  }
  if (!taken_back.empty()) {
    standing.redo = taken_back.back();
  }
  return standing;
}

bool may_follow(const Standing& standing, const Entry& entry) {
  if (const auto* undo = std::get_if<Undo>(&entry.act)) {
    const auto& in_force = standing.in_force;
    const auto named = [&](const Entry* each) { return each->sequence == undo->of; };
    return in_force.size() > 1 && std::any_of(in_force.begin() + 1, in_force.end(), named);
  }
  if (const auto* redo = std::get_if<Redo>(&entry.act)) {
    return standing.redo == redo->of;
  }
  return true;
}

casestore::NewEvent to_event(const Entry& entry) {
  if (const auto* undo = std::get_if<Undo>(&entry.act)) {
    return {entry.at, "undo", documents::to_line(Value::object({{"of", undo->of}}))};
  }
  if (const auto* redo = std::get_if<Redo>(&entry.act)) {
    return {entry.at, "redo", documents::to_line(Value::object({{"of", redo->of}}))};
  }
  const auto& command = std::get<Command>(entry.act);
  return {entry.at, std::string(word_of(command)), documents::to_line(to_json(command))};
}

Result<Journal> journal_of(const std::vector<casestore::EventRow>& rows, const std::string& store) {
  Journal journal;
  Problems problems;
  for (const casestore::EventRow& row : rows) {
    const std::string name = store + ", event " + std::to_string(row.sequence);
    const auto document = documents::parse(row.body, name);
    if (!document) {
      return document.problems();
    }
    const Reader body(*document, problems);
    journal.push_back({row.sequence, row.at, read_act(row.kind, body)});
  }
  if (!problems.empty()) {
    return problems;
  }
  return journal;
}

}  // namespace dryout::casework
