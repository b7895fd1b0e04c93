#include "app/shipped_entries.h"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <set>

#include "documents/parse.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using documents::Value;

/// Every entry that bears an id, with the list it stands in.
void for_each_entry(const Value& root,
                    const std::function<void(const std::string& kind, const std::string& id,
                                             const Value& entry)>& visit) {
  const auto* members = root.object_members();
  if (members == nullptr) {
    return;
  }
  for (const auto& [kind, list] : *members) {
    const auto* elements = list.array_elements();
    for (std::size_t i = 0; elements != nullptr && i < elements->size(); ++i) {
      const Value& entry = (*elements)[i];
      const Value* id = entry.find("id");
      if (id != nullptr && id->text() != nullptr) {
        visit(kind, *id->text(), entry);
      }
    }
    if (list.object_members() != nullptr) {
      visit(kind, "", list);  // rules/ageing.json
    }
  }
}

/// The ids below every member that warns: hazards of equipment, cautions of checks and symptoms.
void gather_warnings(const Value& value, bool warns, std::set<std::string>& ids) {
  if (warns && value.text() != nullptr) {
    ids.insert(*value.text());
  }
  if (const auto* elements = value.array_elements()) {
    for (const Value& each : *elements) {
      gather_warnings(each, warns, ids);
    }
  }
  if (const auto* members = value.object_members()) {
    for (const auto& [name, member] : *members) {
      gather_warnings(member, name == "hazards" || name == "cautions" || name == "danger", ids);
    }
  }
}

bool warns_less(const Value& instead, const Value& shipped) {
  std::set<std::string> now;
  std::set<std::string> before;
  gather_warnings(instead, false, now);
  gather_warnings(shipped, false, before);
  return !std::includes(now.begin(), now.end(), before.begin(), before.end());
}

std::string title_of(const Value& entry, const std::string& id) {
  const Value* title = entry.find("title");
  return title == nullptr || title->text() == nullptr ? id : *title->text();
}

}  // namespace

ShippedEntries::ShippedEntries(const Surroundings& surroundings) {
  for (const std::string& tree : surroundings.knowledge) {
    for (const char* part : {"rules", "symptoms"}) {
      std::error_code error;
      fs::recursive_directory_iterator at(fs::path(tree) / part, error);
      for (;
           tree != surroundings.own_knowledge && !error && at != fs::recursive_directory_iterator();
           at.increment(error)) {
        if (at->path().extension() != ".json") {
          continue;
        }
        if (const auto document = documents::read_file(at->path().string())) {
          for_each_entry(document->root, [&](const auto& kind, const auto& id, const Value& entry) {
            std::string name = kind;
            name.append("/").append(id);
            entries_.insert_or_assign(name, entry);
          });
        }
      }
    }
  }
}

ShippedEntries::Displaced ShippedEntries::displaced_by(const std::string& name,
                                                       const std::string& text) const {
  Displaced displaced;
  displaced.warns_otherwise = name.starts_with("rules/cautions/");
  const auto document = documents::parse(text, name);
  if (!document) {
    return displaced;
  }
  for_each_entry(document->root, [&](const auto& kind, const auto& id, const Value& entry) {
    displaced.warns_otherwise = displaced.warns_otherwise || kind == "cautions";
    const auto shipped = entries_.find(kind + '/' + id);
    if (shipped == entries_.end()) {
      return;
    }
    const bool less = warns_less(entry, shipped->second);
    displaced.warns_otherwise = displaced.warns_otherwise || less;
    std::string sentence = name + ": \"" + title_of(entry, id) +
                           "\" takes the place of the shipped \"" + title_of(shipped->second, id) +
                           "\" (" + kind + ' ' + id + ')';
    sentence += less ? ", which warns of more" : "";
    displaced.sentences.push_back(std::move(sentence));
  });
  return displaced;
}

}  // namespace dryout::app
