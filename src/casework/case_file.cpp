#include "casework/case_file.h"

#include <filesystem>
#include <fstream>
#include <limits>

#include "casestore/journal_digest.h"
#include "casework/case_chain.h"
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
  constexpr documents::Range sequences{.min = 1.0, .max = std::numeric_limits<int>::max()};
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

void check_schema(const Reader& root) {
  const int found = root.whole_number("schema", {.min = 1.0});
  if (found > schema) {
    root.complain("this case file was written by a newer version of this program",
                  "schema up to " + std::to_string(schema) + ": update this program",
                  std::to_string(found));
  }
}

/// Whether the text holds many cases, and whether it is one of ours at all.
bool read_heading(const Reader& root) {
  const std::string format = root.text("format");
  const bool many = format == format_of_many;
  if (many) {
    root.accept_only({"format", "schema", "cases"});
  } else {
    root.accept_only({"format", "schema", "identity", "chain", "journal"});
  }
  if (!format.empty() && format != format_name && !many) {
    root.complain("this is no case file",
                  '"' + std::string(format_name) + "\" or \"" + format_of_many + '"',
                  '"' + quantities::excerpt(format) + '"');
  }
  check_schema(root);
  return many;
}

CaseFile read_case(const Reader& reader, const Problems& problems) {
  CaseFile file;
  if (reader.has("identity")) {
    file.identity = reader.id("identity");
  }
  Journal& journal = file.journal;
  reader.for_each("journal", [&](const Reader& entry) {
    constexpr std::size_t told_most = 100;  // of a file where every entry is at fault
    if (problems.size() < told_most) {
      journal.push_back(read_entry(entry, static_cast<int>(journal.size()) + 1));
    }
  });
  if (const auto chain = reader.optional_text("chain"); chain && problems.empty()) {
    file.chained = true;
    if (*chain != chain_of(file)) {
      reader.complain("the steps of this case are not those that were written to the file",
                      "the file as it was exported; `dryout case rescue` saves the steps that are "
                      "in it as they are",
                      std::to_string(journal.size()) + " steps under another chain");
    }
  }
  return file;
}

enum class Chain { none, fresh };

void set_body(Value& value, const CaseFile& file, Chain chain = Chain::fresh) {
  if (!file.identity.empty()) {
    value.set("identity", file.identity);
  }
  if (chain == Chain::fresh) {
    value.set("chain", chain_of(file));
  }
  Value entries = Value::array();
  for (const Entry& entry : file.journal) {
    entries.append(to_json(entry));
  }
  value.set("journal", std::move(entries));
}

}  // namespace

std::string chain_of(const CaseFile& file) {
  std::vector<casestore::NewEvent> steps;
  for (const Entry& entry : file.journal) {
    steps.push_back(to_event(entry));
  }
  return casestore::journal_digest(file.identity, steps);
}

std::string case_text(const CaseFile& file) {
  Value value = Value::object({{"format", format_name}, {"schema", schema}});
  set_body(value, file);
  return documents::to_text(value);
}

std::string case_text_unchained(const CaseFile& file) {
  Value value = Value::object({{"format", format_name}, {"schema", schema}});
  set_body(value, file, Chain::none);
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

void check_heading_of_many(const Reader& root) {
  root.accept_only({"format", "schema", "settings"});
  const std::string format = root.text("format");
  if (!format.empty() && format != format_of_many && format != format_of_shop) {
    root.complain(
        "this is no file of cases",
        '"' + std::string(format_of_many) + "\" or \"" + std::string(format_of_shop) + '"',
        '"' + quantities::excerpt(format) + '"');
  }
  check_schema(root);
}

bool begins_as_many(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    return false;
  }
  std::string begin(256, '\0');
  std::ifstream stream(path, std::ios::binary);
  stream.read(begin.data(), static_cast<std::streamsize>(begin.size()));
  begin.resize(static_cast<std::size_t>(stream.gcount()));
  const auto has = [&](std::string_view format) {
    return begin.find('"' + std::string(format) + '"') != std::string::npos;
  };
  return has(format_of_many) || has(format_of_shop);
}

std::string case_among_many(const CaseFile& file) {
  Value one = Value::object();
  set_body(one, file);
  const std::string text = documents::to_text(one);
  std::string indented;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    indented += (at == 0 ? "    " : "\n    ") + text.substr(at, end - at);
    at = end + 1;
  }
  return indented;
}

std::string_view many_begin() {
  return "{\n  \"format\": \"dryout-cases\",\n  \"schema\": 1,\n  \"cases\": [\n";
}

Result<CaseFile> read_case_among_many(const std::string& text, const std::string& file, int line,
                                      std::size_t index) {
  const auto document = documents::parse(text, file, {.bytes_max = case_bytes_max});
  Problems problems = document ? Problems{} : document.problems();
  CaseFile read;
  if (document) {
    const Reader root(*document, problems);
    root.accept_only({"identity", "chain", "journal"});
    read = read_case(root, problems);
  }
  for (quantities::Problem& problem : problems) {
    problem.place.line += problem.place.line > 0 ? line - 1 : 0;
    problem.place.pointer = "/cases/" + std::to_string(index) + problem.place.pointer;
  }
  return problems.empty() ? Result<CaseFile>(std::move(read)) : Result<CaseFile>(problems);
}

Result<std::vector<CaseFile>> read_cases_text(const std::string& text, const std::string& file) {
  const auto document = documents::parse(text, file, {.bytes_max = case_bytes_max});
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
      each.accept_only({"identity", "chain", "journal"});
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
