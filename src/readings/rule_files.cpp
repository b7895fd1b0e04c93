#include "readings/rule_files.h"

#include <algorithm>
#include <filesystem>
#include <optional>

#include "quantities/spelling.h"

namespace dryout::readings {

using documents::Reader;
using quantities::Problems;

namespace {

bool is_rule_file(const std::string& name) {
  return name.ends_with(".json") && !name.ends_with(".schema.json");
}

/// Sorted, so that loading does not depend on the file system. Nothing where there is no folder.
std::optional<std::vector<std::string>> files_in(const std::filesystem::path& folder,
                                                 Problems& problems) {
  std::error_code error;
  if (!std::filesystem::is_directory(folder, error)) {
    return std::nullopt;
  }
  std::vector<std::string> paths;
  for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end;
       at.increment(error)) {
    if (is_rule_file(at->path().filename().string())) {
      paths.push_back(at->path().string());
    }
  }
  if (error) {
    problems.push_back({"this folder can't be read",
                        {folder.string(), 0, {}},
                        error.message(),
                        "a folder that may be read"});
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

void for_each_rule(const std::vector<std::string>& directories, std::string_view folder,
                   std::string_view list, Problems& problems,
                   const std::function<void(const Reader&, std::size_t tree)>& visit) {
  bool found = false;
  for (std::size_t tree = 0; tree < directories.size(); ++tree) {
    const auto paths =
        files_in(std::filesystem::path(directories[tree]) / "rules" / folder, problems);
    found = found || (paths && !paths->empty());
    for (const std::string& path : paths.value_or(std::vector<std::string>{})) {
      const auto document = documents::read_file(path);
      if (!document) {
        problems.insert(problems.end(), document.problems().begin(), document.problems().end());
        continue;
      }
      read_rules(*document, list, problems, [&](const Reader& entry) { visit(entry, tree); });
    }
  }
  if (!found) {
    problems.push_back({"no rules of this kind were found",
                        {directories.empty() ? std::string() : directories.front(), 0, {}},
                        "no file in rules/" + std::string(folder),
                        "a knowledge tree with rules/" + std::string(folder)});
  }
}

void read_rules(const documents::Document& document, std::string_view list, Problems& problems,
                const std::function<void(const Reader&)>& visit) {
  const Reader root(document, problems);
  root.accept_only({"schema", list});
  static_cast<void>(root.whole_number("schema", {.min = 1, .max = 1}));
  root.for_each(list, visit);
}

void refuse_word(const Reader& reader, std::string_view key, const std::string& word,
                 const std::vector<std::string_view>& words) {
  std::string accepted;
  for (const std::string_view each : words) {
    accepted += (accepted.empty() ? "" : ", ") + std::string(each);
  }
  if (const auto nearest = quantities::nearest_spelling(word, words)) {
    accepted = "did you mean \"" + *nearest + "\"?";
  }
  reader.complain("no such word in \"" + std::string(key) + '"', accepted, '"' + word + '"');
}

knowledge::Source read_source(const Reader& entry) {
  const auto member = entry.optional_member("source");
  if (!member) {
    entry.complain("an entry names its source",
                   "\"source\": {\"kind\", \"document\"}, \"common practice\" or \"judgement\"");
    return {};
  }
  using SourceKind = knowledge::Source::Kind;
  if (const std::string* word = member->value().text()) {
    if (*word == "common practice") {
      return {SourceKind::common_practice, {}};
    }
    if (*word != "judgement") {
      member->complain("no such source", "\"common practice\", \"judgement\" or an object");
    }
    return {SourceKind::judgement, {}};
  }
  member->accept_only({"kind", "document", "place"});
  const bool memory = member->one_of("kind", {"published", "memory"}) == 1;
  std::string text = member->text("document");
  if (const auto place = member->optional_text("place")) {
    text += ", " + *place;
  }
  return {memory ? SourceKind::memory : SourceKind::published, std::move(text)};
}

}  // namespace dryout::readings
