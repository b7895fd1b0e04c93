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
constexpr const char* format_of_many = "dryout-cases";
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

/// Whether the text holds many cases, and whether it is one of ours at all.
bool read_heading(const Reader& root) {
  const std::string format = root.text("format");
  const bool many = format == format_of_many;
  if (many) {
    root.accept_only({"format", "schema", "cases"});
  } else {
    root.accept_only({"format", "schema", "identity", "journal"});
  }
  if (!format.empty() && format != format_name && !many) {
    root.complain("this is no case file",
                  '"' + std::string(format_name) + "\" or \"" + format_of_many + '"',
                  '"' + quantities::excerpt(format) + '"');
  }
  const int found = root.whole_number("schema", {.min = 1.0});
  if (found > schema) {
    root.complain("this case file was written by a newer version of this program",
                  "schema up to " + std::to_string(schema) + ": update this program",
                  std::to_string(found));
  }
  return many;
}

CaseFile read_case(const Reader& reader, const Problems& problems) {
  CaseFile file;
  if (reader.has("identity")) {
    file.identity = reader.id("identity");
  }
  Journal& journal = file.journal;
  reader.for_each("journal", [&](const Reader& entry) {
    if (journal.size() < entries_max) {
      journal.push_back(read_entry(entry, static_cast<int>(journal.size()) + 1));
    } else if (journal.size() == entries_max && problems.empty()) {
      entry.complain("too many entries", "at most " + std::to_string(entries_max), "");
    }
  });
  return file;
}

void set_body(Value& value, const CaseFile& file) {
  if (!file.identity.empty()) {
    value.set("identity", file.identity);
  }
  Value entries = Value::array();
  for (const Entry& entry : file.journal) {
    entries.append(to_json(entry));
  }
  value.set("journal", std::move(entries));
}

}  // namespace

std::string case_text(const CaseFile& file) {
  Value value = Value::object({{"format", format_name}, {"schema", schema}});
  set_body(value, file);
  return documents::to_text(value);
}

std::string cases_text(const std::vector<CaseFile>& files) {
  Value cases = Value::array();
  for (const CaseFile& file : files) {
    Value one = Value::object();
    set_body(one, file);
    cases.append(std::move(one));
  }
  return documents::to_text(
      Value::object({{"format", format_of_many}, {"schema", schema}, {"cases", std::move(cases)}}));
}

Result<std::vector<CaseFile>> read_cases_text(const std::string& text, const std::string& file) {
  const auto document = documents::parse(text, file);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const Reader root(*document, problems);
  const bool many = read_heading(root);
  if (!problems.empty()) {
    return problems;
  }
  std::vector<CaseFile> files;
  if (many) {
    root.for_each("cases", [&](const Reader& each) {
      each.accept_only({"identity", "journal"});
      files.push_back(read_case(each, problems));
    });
  } else {
    files.push_back(read_case(root, problems));
  }
  if (!problems.empty()) {
    return problems;
  }
  return files;
}

}  // namespace dryout::casework
