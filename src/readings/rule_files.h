// The files of one folder of rules, over several trees: the shipped one first, a technician's own
// laid over it. Used by the loaders of this room.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "documents/reader.h"
#include "knowledge/rules.h"
#include "quantities/problem.h"

namespace dryout::readings {

/// Visits every element of `list` in DIR/rules/FOLDER/*.json (in the order of the names; schemas
/// left out), for every DIR. A tree without the folder is passed over; that no tree has it is a
/// problem; `tree` counts the trees.
void for_each_rule(const std::vector<std::string>& directories, std::string_view folder,
                   std::string_view list, quantities::Problems& problems,
                   const std::function<void(const documents::Reader&, std::size_t tree)>& visit);

/// Visits every element of `list` in {"schema": 1, "LIST": [...]}.
void read_rules(const documents::Document& document, std::string_view list,
                quantities::Problems& problems,
                const std::function<void(const documents::Reader&)>& visit);

/// {"kind": "published" | "memory", "document", "place"} or "common practice" or "judgement".
[[nodiscard]] knowledge::Source read_source(const documents::Reader& entry);

/// Complains about a word that is not in its list: the nearest one, or all of them.
void refuse_word(const documents::Reader& reader, std::string_view key, const std::string& word,
                 const std::vector<std::string_view>& words);

/// Adds an entry, or lets it take the place of one of the same id from an earlier tree. The same
/// id twice in one tree is a problem.
template <class Entry>
class Overlay {
 public:
  void add(Entry entry, std::size_t tree, const documents::Reader& reader) {
    for (std::size_t i = 0; i < entries_.size(); ++i) {
      if (entries_[i].id == entry.id) {
        if (trees_[i] == tree) {
          reader.complain("this id is used twice", "a different id for each entry", entry.id);
        }
        entries_[i] = std::move(entry);
        trees_[i] = tree;
        return;
      }
    }
    entries_.push_back(std::move(entry));
    trees_.push_back(tree);
  }
  [[nodiscard]] std::vector<Entry> take() { return std::move(entries_); }

 private:
  std::vector<Entry> entries_;
  std::vector<std::size_t> trees_;
};

}  // namespace dryout::readings
