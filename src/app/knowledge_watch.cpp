#include "app/knowledge_watch.h"

#include <algorithm>
#include <filesystem>
#include <functional>

#include "knowledge/load.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::LoadedKnowledge;
using quantities::Result;

/// Of one file; added up, so that the order in which a folder gives them does not matter.
std::uint64_t stamp_of(const fs::directory_entry& file) {
  std::error_code error;
  const auto time = file.last_write_time(error).time_since_epoch().count();
  const std::string line = file.path().string() + '\n' + std::to_string(file.file_size(error)) +
                           '\n' + std::to_string(time);
  return std::hash<std::string>()(line);
}

}  // namespace

Result<LoadedKnowledge> load_all_knowledge(const std::vector<std::string>& folders) {
  auto base = knowledge::load(folders);
  if (!base) {
    return base.problems();
  }
  auto readings = readings::load_reading_knowledge(folders);
  if (!readings) {
    return readings.problems();
  }
  auto mending = casework::load_mending_knowledge(folders);
  if (!mending) {
    return mending.problems();
  }
  auto vocabulary = complaints::load_vocabulary(folders);
  if (!vocabulary) {
    return vocabulary.problems();
  }
  return LoadedKnowledge{std::move(*base), std::move(*readings), std::move(*mending),
                         std::move(*vocabulary)};
}

KnowledgeWatch::KnowledgeWatch(std::vector<std::string> folders, std::string own)
    : folders_(std::move(folders)),
      own_(std::move(own)),
      seen_(stamp()),
      looked_(std::chrono::steady_clock::now()) {}

std::vector<std::string> KnowledgeWatch::folders_now() const {
  std::vector<std::string> folders = folders_;
  const bool there = knowledge::holds_knowledge(own_);
  if (there && std::find(folders.begin(), folders.end(), own_) == folders.end()) {
    folders.push_back(own_);
  }
  return folders;
}

std::uint64_t KnowledgeWatch::stamp() const {
  std::uint64_t sum = 0;
  for (const std::string& folder : folders_now()) {
    for (const char* part : {"rules", "symptoms"}) {
      std::error_code error;
      for (fs::recursive_directory_iterator at(fs::path(folder) / part, error), end;
           !error && at != end; at.increment(error)) {
        sum += at->path().extension() == ".json" ? stamp_of(*at) : 0;
      }
    }
  }
  return sum;
}

std::optional<Result<LoadedKnowledge>> KnowledgeWatch::look() {
  constexpr std::chrono::seconds pause(1);
  const auto now = std::chrono::steady_clock::now();
  if (now - looked_ < pause) {
    return {};
  }
  looked_ = now;
  const std::uint64_t found = stamp();
  if (found == seen_) {
    return {};
  }
  seen_ = found;
  return load_all_knowledge(folders_now());
}

}  // namespace dryout::app
