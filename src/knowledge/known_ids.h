// Complaints about ids that nothing has, with the nearest one that something does have.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantities/problem.h"
#include "quantities/spelling.h"

namespace dryout::knowledge {

/// A place deeper inside an entry. Its line stays the entry's: members' own lines are not kept.
[[nodiscard]] inline quantities::Place within(quantities::Place place, std::string_view tail) {
  place.pointer += tail;
  return place;
}

class KnownIds {
 public:
  template <class Entries>
  KnownIds(std::string_view what, const Entries& entries) : what_(what) {
    for (const auto& entry : entries) ids_.push_back(entry.id);
  }

  [[nodiscard]] bool has(std::string_view id) const {
    for (const std::string_view known : ids_) {
      if (known == id) return true;
    }
    return false;
  }

  void require(std::string_view id, const quantities::Place& place,
               quantities::Problems& problems) const {
    if (has(id)) {
      return;
    }
    const auto nearest = quantities::nearest_spelling(id, ids_);
    problems.push_back({"unknown " + what_, place, '"' + quantities::excerpt(id) + '"',
                        nearest ? "did you mean \"" + *nearest + "\"?" : "an existing " + what_});
  }

  /// Where "" says none.
  void require_unless_empty(std::string_view id, const quantities::Place& place,
                            quantities::Problems& problems) const {
    if (!id.empty()) require(id, place, problems);
  }

  template <class List>
  void require_all(const List& ids, const quantities::Place& list,
                   quantities::Problems& problems) const {
    std::size_t i = 0;
    for (const auto& id : ids) require(id, within(list, '/' + std::to_string(i++)), problems);
  }
  /// The keys of a map from ids to anything.
  template <class Map>
  void require_keys(const Map& map, const quantities::Place& object,
                    quantities::Problems& problems) const {
    for (const auto& [id, value] : map) require(id, within(object, '/' + id), problems);
  }

 private:
  std::string what_;
  std::vector<std::string_view> ids_;
};

}  // namespace dryout::knowledge
