// Notices that a knowledge file was edited while the program runs: by name, size and time of every
// file, looked at no more than once a second. Some two hundred files; half a millisecond a look.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "casework/workshop.h"

namespace dryout::app {

/// Everything a workshop reasons with, from these trees, the shipped one first.
[[nodiscard]] quantities::Result<casework::LoadedKnowledge> load_all_knowledge(
    const std::vector<std::string>& folders);

class KnowledgeWatch {
 public:
  /// `own` is laid over the others from the moment it is there.
  KnowledgeWatch(std::vector<std::string> folders, std::string own);
  /// What an edit since the last look came to; nothing where there was none.
  [[nodiscard]] std::optional<quantities::Result<casework::LoadedKnowledge>> look();

 private:
  [[nodiscard]] std::vector<std::string> folders_now() const;
  [[nodiscard]] std::uint64_t stamp() const;

  std::vector<std::string> folders_;
  std::string own_;
  std::uint64_t seen_;
  std::chrono::steady_clock::time_point looked_;
};

}  // namespace dryout::app
