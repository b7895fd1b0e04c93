// What an own file of another bench would put in the place of shipped knowledge. A caution that is
// reworded or a hazard that is left out takes a warning from everybody at this bench.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/surroundings.h"
#include "documents/value.h"

namespace dryout::app {

class ShippedEntries {
 public:
  /// Of every tree but the own folder.
  explicit ShippedEntries(const Surroundings& surroundings);

  struct Displaced {
    std::vector<std::string> sentences;  ///< one for each entry that takes a shipped one's place
    bool warns_otherwise = false;  ///< it speaks of cautions, or leaves out hazards or cautions
  };
  /// By a file of this name below the own folder.
  [[nodiscard]] Displaced displaced_by(const std::string& name, const std::string& text) const;

 private:
  std::map<std::string, documents::Value> entries_;  ///< by kind and id: "cautions/mains"
};

}  // namespace dryout::app
