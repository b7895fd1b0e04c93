#include "complaints/vocabulary.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include "documents/reader.h"
#include "knowledge/knowledge_base.h"
#include "knowledge/read_entries.h"
#include "quantities/spelling.h"

namespace dryout::complaints {
namespace {

namespace fs = std::filesystem;
using documents::Reader;
using quantities::Problems;

/// The qualifiers of `dryout case symptom` and the words each takes; no words = any id.
const std::map<std::string, std::set<std::string>>& qualifiers() {
  static const std::map<std::string, std::set<std::string>> table{
      {"channel", {"left", "right"}},     {"band", {}},
      {"path", {"receive", "transmit"}},  {"source", {}},
      {"follows", {"volume", "not"}},     {"rate", {"mains", "twice"}},
      {"when", {"cold", "warm", "load"}},
  };
  return table;
}

std::string words_in_a_row(const std::set<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : ", ") + word;
  }
  return text;
}

Where read_where(const Reader& reader) {
  Where where;
  reader.for_each_member([&](const std::string& name, const Reader& value) {
    const std::string word = value.as_text();
    const auto known = qualifiers().find(name);
    if (known == qualifiers().end()) {
      value.complain("unknown qualifier of a symptom",
                     "channel, band, path, source, follows, rate, when", name);
    } else if (!known->second.empty() && !known->second.contains(word)) {
      value.complain("unknown word for \"" + name + '"', words_in_a_row(known->second), word);
    }
    where[name] = word;
  });
  return where;
}

WordGroup read_group(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "kind", "where", "said"});
  WordGroup group;
  knowledge::read_head(reader, group);
  group.kind = static_cast<WordKind>(
      reader.one_of("kind", {"filler", "negation", "absence", "working", "function", "trouble",
                             "thing", "set", "place", "condition", "level"}));
  group.said = reader.texts("said");
  if (const auto where = reader.optional_member("where")) {
    group.where = read_where(*where);
  }
  if (group.kind == WordKind::place && group.where.empty()) {
    reader.complain("a place that says nothing", "\"where\" with a qualifier", group.id);
  }
  return group;
}

Elsewhere read_elsewhere(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "advice", "said_as"});
  Elsewhere elsewhere;
  knowledge::read_head(reader, elsewhere);
  elsewhere.advice = reader.text("advice");
  elsewhere.said_as = reader.texts("said_as");
  return elsewhere;
}

BroughtOften read_often(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "notes", "symptoms"});
  BroughtOften often;
  knowledge::read_head(reader, often);
  often.notes = reader.number("notes", {.min = 1, .max = 1e6});
  often.symptoms = reader.texts("symptoms");
  return often;
}

Remembered read_remembered(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "symptom", "said"});
  Remembered remembered;
  knowledge::read_head(reader, remembered);
  remembered.symptom = reader.id("symptom");
  remembered.said = reader.text("said");
  return remembered;
}

std::vector<fs::path> files_of(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code error;
  for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    const std::string name = at->path().filename().string();
    if (at->path().extension() == ".json" && name.find(".schema.") == std::string::npos) {
      files.push_back(at->path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

template <class Entries>
void lay_entries(Entries& base, Entries&& over) {
  for (auto& entry : over) {
    if (auto* same = knowledge::find(base, entry.id)) {
      *same = std::move(entry);
    } else {
      base.push_back(std::move(entry));
    }
  }
}

template <class Entries>
void refuse_second_ids(const Entries& entries, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& entry : entries) {
    if (!entry.id.empty() && !seen.insert(entry.id).second) {
      problems.push_back({"the same id stands twice in one tree", entry.place, entry.id,
                          "each id once (a tree laid over this one may use it again)"});
    }
  }
}

Vocabulary read_files(const fs::path& folder, Problems& problems) {
  Vocabulary vocabulary;
  for (const fs::path& file : files_of(folder)) {
    const auto document = documents::read_file(file.string());
    if (!document) {
      problems.insert(problems.end(), document.problems().begin(), document.problems().end());
      continue;
    }
    const Reader root(*document, problems);
    root.accept_only({"schema", "words", "elsewhere", "often", "remembered"});
    (void)root.whole_number("schema", {.min = 1, .max = 1});
    root.for_each_optional(
        "words", [&](const Reader& each) { vocabulary.words.push_back(read_group(each)); });
    root.for_each_optional("elsewhere", [&](const Reader& each) {
      vocabulary.elsewhere.push_back(read_elsewhere(each));
    });
    root.for_each_optional(
        "often", [&](const Reader& each) { vocabulary.often.push_back(read_often(each)); });
    root.for_each_optional("remembered", [&](const Reader& each) {
      vocabulary.remembered.push_back(read_remembered(each));
    });
  }
  refuse_second_ids(vocabulary.words, problems);
  refuse_second_ids(vocabulary.elsewhere, problems);
  refuse_second_ids(vocabulary.often, problems);
  refuse_second_ids(vocabulary.remembered, problems);
  return vocabulary;
}

}  // namespace

quantities::Result<Vocabulary> load_vocabulary(const std::vector<std::string>& directories) {
  Vocabulary vocabulary;
  Problems problems;
  for (const std::string& directory : directories) {
    Vocabulary over = read_files(fs::path(directory) / "rules" / "complaints", problems);
    lay_entries(vocabulary.words, std::move(over.words));
    lay_entries(vocabulary.elsewhere, std::move(over.elsewhere));
    lay_entries(vocabulary.often, std::move(over.often));
    lay_entries(vocabulary.remembered, std::move(over.remembered));
  }
  if (!problems.empty()) {
    return problems;
  }
  return vocabulary;
}

Problems unknown_symptoms(const Vocabulary& vocabulary, const knowledge::KnowledgeBase& knowledge) {
  std::vector<std::string_view> known;
  for (const knowledge::Symptom& symptom : knowledge.symptoms) {
    known.push_back(symptom.id);
  }
  Problems problems;
  const auto require = [&](const std::string& id, const quantities::Place& place) {
    if (knowledge::find(knowledge.symptoms, id) == nullptr) {
      const auto nearest = quantities::nearest_spelling(id, known);
      problems.push_back({"unknown symptom", place, id,
                          nearest ? "did you mean \"" + *nearest + "\"?"
                                  : "an id printed by `dryout list symptoms`"});
    }
  };
  for (const BroughtOften& often : vocabulary.often) {
    for (const std::string& id : often.symptoms) {
      require(id, often.place);
    }
  }
  for (const Remembered& each : vocabulary.remembered) {
    require(each.symptom, each.place);
  }
  return problems;
}

}  // namespace dryout::complaints
