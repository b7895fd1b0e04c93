#include "app/usable_knowledge.h"

#include <stdlib.h>  // NOLINT: mkdtemp is POSIX

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <map>
#include <ostream>
#include <set>

#include "app/knowledge_watch.h"
#include "documents/parse.h"
#include "documents/write_whole.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using documents::Value;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

/// A copy of the own folder in which entries can be left out; gone with the object.
class OwnCopy {
 public:
  explicit OwnCopy(const std::string& own) : own_(own) {
    std::error_code error;
    std::string folder = (fs::temp_directory_path(error) / "dryout-own-XXXXXX").string();
    if (error || ::mkdtemp(folder.data()) == nullptr) {
      return;
    }
    folder_ = folder;
    for (const char* part : {"rules", "symptoms"}) {
      if (fs::is_directory(fs::path(own) / part, error)) {
        fs::copy(fs::path(own) / part, fs::path(folder_) / part, fs::copy_options::recursive,
                 error);
      }
    }
  }
  OwnCopy(const OwnCopy&) = delete;
  OwnCopy& operator=(const OwnCopy&) = delete;
  ~OwnCopy() {
    std::error_code error;
    if (!folder_.empty()) {
      fs::remove_all(folder_, error);
    }
  }

  [[nodiscard]] const std::string& folder() const { return folder_; }

  /// Whether the problem lies in here; then with the name of the original.
  [[nodiscard]] bool owns(const Problem& problem) const {
    return !folder_.empty() && problem.place.file.starts_with(folder_ + '/');
  }
  [[nodiscard]] Problem named(Problem problem) const {
    problem.place.file = own_ + problem.place.file.substr(folder_.size());
    return problem;
  }

 private:
  std::string own_, folder_;
};

/// Of one file: entries to leave out, by list and index, or all of it.
struct Faults {
  bool whole = false;
  std::map<std::string, std::set<std::size_t>> entries;
};

/// "/links/3/prior" -> links, 3.
void add_place(Faults& faults, const std::string& pointer) {
  const std::size_t second = pointer.find('/', 1);
  std::size_t index = 0;
  if (pointer.empty() || second == std::string::npos) {
    faults.whole = true;
    return;
  }
  const std::string number = pointer.substr(second + 1, pointer.find('/', second + 1) - second - 1);
  const auto [stop, error] = std::from_chars(number.data(), number.data() + number.size(), index);
  if (error != std::errc() || stop != number.data() + number.size()) {
    faults.whole = true;
    return;
  }
  faults.entries[pointer.substr(1, second - 1)].insert(index);
}

/// Writes the file without what is at fault.
void leave_out(const std::string& file, const Faults& faults) {
  std::error_code error;
  const auto document =
      faults.whole ? Result<documents::Document>(Problem{}) : documents::read_file(file);
  const auto* members = document ? document->root.object_members() : nullptr;
  if (members == nullptr) {
    fs::remove(file, error);
    return;
  }
  Value kept = Value::object();
  bool changed = false;
  for (const auto& [name, value] : *members) {
    const auto out = faults.entries.find(name);
    const auto* elements = value.array_elements();
    if (out == faults.entries.end() || elements == nullptr) {
      kept.set(name, value);
      continue;
    }
    Value rest = Value::array();
    for (std::size_t i = 0; i < elements->size(); ++i) {
      if (out->second.contains(i)) {
        changed = true;
      } else {
        rest.append((*elements)[i]);
      }
    }
    kept.set(name, std::move(rest));
  }
  if (!changed || !documents::write_whole(file, documents::to_text(kept))) {
    fs::remove(file, error);
  }
}

std::vector<std::string> with_copy(std::vector<std::string> folders, const std::string& own,
                                   const std::string& copy) {
  if (copy.empty()) {
    std::erase(folders, own);
  } else {
    std::replace(folders.begin(), folders.end(), own, copy);
  }
  return folders;
}

/// Leaves out what the problems name; whether there was any of it in the copy.
bool mend(const OwnCopy& copy, const Problems& problems, bool first,
          std::vector<std::string>& left_out) {
  std::map<std::string, Faults> files;
  for (const Problem& problem : problems) {
    if (!copy.owns(problem)) {
      continue;
    }
    add_place(files[problem.place.file], problem.place.pointer);
    Problem named = copy.named(problem);
    if (!first) {
      named.place.line = 0;  // of the copy by now
    }
    left_out.push_back(quantities::describe(named));
  }
  for (const auto& [file, faults] : files) {
    leave_out(file, faults);
  }
  return !files.empty();
}

}  // namespace

Result<UsableKnowledge> load_usable_knowledge(const Surroundings& surroundings) {
  const std::string& own = surroundings.own_knowledge;
  auto loaded = load_all_knowledge(surroundings.knowledge);
  const auto& folders = surroundings.knowledge;
  if (loaded || std::find(folders.begin(), folders.end(), own) == folders.end()) {
    return loaded ? Result<UsableKnowledge>(UsableKnowledge{std::move(*loaded), {}})
                  : loaded.problems();
  }
  constexpr int rounds_max = 20;
  const OwnCopy copy(own);
  std::vector<std::string> left_out;
  for (int round = 0; round < rounds_max && !copy.folder().empty(); ++round) {
    loaded = load_all_knowledge(with_copy(folders, own, copy.folder()));
    if (loaded) {
      return UsableKnowledge{std::move(*loaded), std::move(left_out)};
    }
    if (!mend(copy, loaded.problems(), round == 0, left_out)) {
      break;
    }
  }
  left_out.push_back("all of " + own + ", which does not go with the rest: " +
                     quantities::describe(loaded.problems().front()));
  loaded = load_all_knowledge(with_copy(folders, own, ""));
  return loaded ? Result<UsableKnowledge>(UsableKnowledge{std::move(*loaded), std::move(left_out)})
                : loaded.problems();
}

void tell_left_out(std::ostream& err, const std::vector<std::string>& left_out) {
  for (const std::string& each : left_out) {
    err << "left out: " << each << '\n';
  }
}

}  // namespace dryout::app
