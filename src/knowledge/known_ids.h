// Complaints about ids that nothing has, with the nearest one that something does have.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantities/problem.h"
#include "quantities/spelling.h"

namespace dryout::knowledge {

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
                        nearest ? "did you mean \"" + *nearest + "\"?" : "the id of a " + what_});
  }

  template <class List>
  void require_all(const List& ids, const quantities::Place& place,
                   quantities::Problems& problems) const {
    for (const auto& id : ids) require(id, place, problems);
  }

 private:
  std::string what_;
  std::vector<std::string_view> ids_;
};

}  // namespace dryout::knowledge
