#include "casework/case_file.h"

#include "casework/command_json.h"
#include "documents/parse.h"
#include "documents/reader.h"

namespace dryout::casework {
namespace {

using documents::Reader;
using documents::Value;
using quantities::Problems;
using quantities::Result;

constexpr const char* format_name = "dryout-case";
constexpr int schema = 1;
/// No bench fills a journal like this; a hostile file might.
constexpr std::size_t entries_max = 5'000;
constexpr documents::Range any_moment{.min = 0.0, .max = 253'402'300'799.0};  // to the year 9999

Value to_json(const Entry& entry) {
  Value value = Value::object({{"at", static_cast<double>(entry.at)}});
  if (const auto* undo = std::get_if<Undo>(&entry.act)) {
    value.set("undo", undo->of);
  } else if (const auto* redo = std::get_if<Redo>(&entry.act)) {
    value.set("redo", redo->of);
  } else {
    value.set("command", to_json(std::get<Command>(entry.act)));
  }
  return value;
}

std::variant<Command, Undo, Redo> read_act(const Reader& reader) {
  constexpr documents::Range sequences{.min = 1.0, .max = entries_max};
  const int acts =
      (reader.has("command") ? 1 : 0) + (reader.has("undo") ? 1 : 0) + (reader.has("redo") ? 1 : 0);
  if (acts != 1) {
    reader.complain("an entry is one act", "one of command, undo, redo");
    return Command{};
  }
  if (reader.has("undo")) {
    return Undo{reader.whole_number("undo", sequences)};
  }
  if (reader.has("redo")) {
    return Redo{reader.whole_number("redo", sequences)};
  }
  return command_from_json(reader.object("command"));
}

Entry read_entry(const Reader& reader, int sequence) {
  reader.accept_only({"at", "command", "undo", "redo"});
  const double at = reader.number("at", any_moment);
  if (at != static_cast<double>(static_cast<std::int64_t>(at))) {
    reader.complain("a moment is in whole seconds", "seconds since 1970");
  }
  return {sequence, static_cast<std::int64_t>(at), read_act(reader)};
}

void read_heading(const Reader& root) {
  root.accept_only({"format", "schema", "journal"});
  const std::string format = root.text("format");
  if (!format.empty() && format != format_name) {
    root.complain("this is no case file", '"' + std::string(format_name) + '"',
                  '"' + quantities::excerpt(format) + '"');
  }
  const int found = root.whole_number("schema", {.min = 1.0});
  if (found > schema) {
    root.complain("this case file was written by a newer version of this program",
                  "schema up to " + std::to_string(schema) + ": update this program",
                  std::to_string(found));
  }
}

}  // namespace

std::string case_text(const Journal& journal) {
  Value entries = Value::array();
  for (const Entry& entry : journal) {
    entries.append(to_json(entry));
  }
  return documents::to_text(Value::object(
      {{"format", format_name}, {"schema", schema}, {"journal", std::move(entries)}}));
}

Result<Journal> read_case_text(const std::string& text, const std::string& file) {
  const auto document = documents::parse(text, file);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const Reader root(*document, problems);
  read_heading(root);
  if (!problems.empty()) {
    return problems;
  }
  Journal journal;
  root.for_each("journal", [&](const Reader& reader) {
    if (journal.size() < entries_max) {
      journal.push_back(read_entry(reader, static_cast<int>(journal.size()) + 1));
    } else if (journal.size() == entries_max && problems.empty()) {
      reader.complain("too many entries", "at most " + std::to_string(entries_max), "");
    }
  });
  if (!problems.empty()) {
    return problems;
  }
  return journal;
}

}  // namespace dryout::casework
