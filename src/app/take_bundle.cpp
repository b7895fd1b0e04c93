#include "app/take_bundle.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <ostream>
#include <utility>

#include "app/bundle_file.h"
#include "app/own_files.h"
#include "app/shipped_entries.h"
#include "app/shop_setting.h"
#include "app/tell_arrivals.h"
#include "app/usable_knowledge.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// What is to become of the own files, and of the setting.
struct Plan {
  struct File {
    OwnText own;
    std::string here;  ///< "" = none
  };
  std::vector<File> files;  ///< to be written
  std::vector<std::string> told;
  bool all = true;  ///< of the bundle
  bool turn_on_figures = false;
};

constexpr const char* warns_otherwise =
    ": its cautions or hazards are not the shipped ones: not taken (--take-cautions takes it; read "
    "it first)";

Result<Plan> plan_of(const Surroundings& surroundings, const std::string& path,
                     const BundleWishes& wishes) {
  Plan plan;
  const casework::OwnFiles files = own_files(surroundings);
  const ShippedEntries shipped(surroundings);
  const auto looked = look_through(path, [&](const OwnText& each) -> Result<Done> {
    auto here = files.own_text(each.name);
    if (!here) {
      return here.problems();
    }
    if (*here == each.text) {
      return Done{};
    }
    auto displaced = shipped.displaced_by(each.name, each.text);
    const bool unwanted = displaced.warns_otherwise && !wishes.cautions;
    if (unwanted || (!here->empty() && !wishes.replace)) {
      plan.told.push_back(each.name + (unwanted ? warns_otherwise
                                                : " is here and is another: yours stays (--replace "
                                                  "takes the bundle's)"));
      plan.all = false;
      return Done{};
    }
    plan.told.push_back(each.name + (here->empty() ? " is new here" : " was replaced"));
    for (std::string& sentence : displaced.sentences) {
      plan.told.push_back(std::move(sentence));
    }
    plan.files.push_back({each, std::move(*here)});
    return Done{};
  });
  if (!looked) {
    return looked.problems();
  }
  const auto wanted = shop_history_wanted(surroundings);
  if (looked->in_the_figures.value_or(false) && wanted && !*wanted) {
    plan.turn_on_figures = true;
    plan.told.emplace_back("closed cases now enter the figures, as they do in the bundle");
  }
  return plan;
}

/// The own folder as it would be, for its owner alone; gone with the object.
class OwnFolderToBe {
 public:
  static Result<OwnFolderToBe> of(const Surroundings& surroundings, const Plan& plan) {
    std::error_code error;
    std::string name = (fs::temp_directory_path(error) / "dryout-XXXXXX").string();
    if (error || ::mkdtemp(name.data()) == nullptr) {
      return Problem{"no folder can be made to look the bundle through in",
                     {name, 0, {}},
                     "",
                     "a folder for temporary files that this user may write (TMPDIR)"};
    }
    OwnFolderToBe to_be(name);
    for (const char* part : {"rules", "symptoms"}) {
      copy(fs::path(surroundings.own_knowledge) / part, to_be.folder_ / part);
    }
    for (const Plan::File& each : plan.files) {
      const fs::path file = to_be.folder_ / each.own.name;
      fs::create_directories(file.parent_path(), error);
      std::ofstream stream(file, std::ios::binary);
      stream << each.own.text << std::flush;
      if (!stream) {
        return Problem{"cannot be written", {file.string(), 0, {}}, "", "a disk with room"};
      }
    }
    return to_be;
  }
  OwnFolderToBe(OwnFolderToBe&& other) noexcept : folder_(std::exchange(other.folder_, {})) {}
  OwnFolderToBe& operator=(OwnFolderToBe&&) = delete;
  OwnFolderToBe(const OwnFolderToBe&) = delete;
  OwnFolderToBe& operator=(const OwnFolderToBe&) = delete;
  ~OwnFolderToBe() {
    std::error_code error;
    if (!folder_.empty()) {
      fs::remove_all(folder_, error);
    }
  }
  [[nodiscard]] std::string path() const { return folder_.string(); }

 private:
  explicit OwnFolderToBe(fs::path folder) : folder_(std::move(folder)) {}
  /// What cannot be read does not go along: it is left out of the knowledge anyway.
  static void copy(const fs::path& from, const fs::path& to) {
    std::error_code error;
    fs::create_directories(to, error);
    for (fs::directory_iterator at(from, error), end; !error && at != end; at.increment(error)) {
      std::error_code left_out;
      const fs::path target = to / at->path().filename();
      if (at->is_directory(left_out)) {
        copy(at->path(), target);
      } else if (at->path().extension() == ".json") {
        fs::copy_file(at->path(), target, left_out);
      }
    }
  }
  fs::path folder_;
};

/// With the own folder among the trees where it is there, which may be new.
Surroundings with_own(Surroundings surroundings, const std::string& own) {
  std::erase(surroundings.knowledge, surroundings.own_knowledge);
  surroundings.own_knowledge = own;
  std::error_code error;
  if (fs::is_directory(own, error)) {
    surroundings.knowledge.push_back(own);
  }
  return surroundings;
}

/// Whether the cases would be taken in with the own files as they would be, and may be written.
Result<Done> check_cases(const Surroundings& surroundings, const std::string& path,
                         const Plan& plan) {
  const auto to_be = OwnFolderToBe::of(surroundings, plan);
  if (!to_be) {
    return to_be.problems();
  }
  auto usable = load_usable_knowledge(with_own(surroundings, to_be->path()));
  if (!usable) {
    return usable.problems();
  }
  const auto looking = casework::Workshop::open(
      ":memory:", std::move(usable->loaded.base), [] { return std::int64_t{0}; },
      std::move(usable->loaded.readings), std::move(usable->loaded.mending));
  if (!looking) {
    return looking.problems();
  }
  if (const auto looked = (*looking)->import_many(path); !looked) {
    return looked.problems();
  }
  const auto workshop = open_workshop(surroundings);
  if (!workshop) {
    return workshop.problems();
  }
  if ((*workshop)->reads_only()) {
    return Problem{"the case store can only be read",
                   {surroundings.store, 0, {}},
                   "",
                   "a case store that this user may write"};
  }
  return Done{};
}

/// Puts back what was there.
void take_back(const Surroundings& surroundings, const Plan& plan, std::size_t written) {
  const casework::OwnFiles files = own_files(surroundings);
  for (std::size_t i = 0; i < written; ++i) {
    const Plan::File& each = plan.files[i];
    if (each.here.empty()) {
      std::error_code error;
      fs::remove(fs::path(surroundings.own_knowledge) / each.own.name, error);
    } else {
      (void)files.keep(each.own.name, each.here, true);
    }
  }
  if (plan.turn_on_figures) {
    (void)want_shop_history(surroundings, false);
  }
}

Result<casework::ImportReport> carry_out(const Surroundings& surroundings, const std::string& path,
                                         const Plan& plan) {
  const casework::OwnFiles files = own_files(surroundings);
  std::size_t written = 0;
  quantities::Problems problems;
  for (const Plan::File& each : plan.files) {
    const auto kept = files.keep(each.own.name, each.own.text, !each.here.empty());
    if (!kept) {
      problems = kept.problems();
      break;
    }
    ++written;
  }
  if (problems.empty() && plan.turn_on_figures) {
    if (const auto set = want_shop_history(surroundings, true); !set) {
      problems = set.problems();
    }
  }
  if (problems.empty()) {
    const auto workshop = open_workshop(with_own(surroundings, surroundings.own_knowledge));
    auto report = workshop ? (*workshop)->import_many(path)
                           : Result<casework::ImportReport>(workshop.problems());
    if (report) {
      return report;
    }
    problems = report.problems();
  }
  take_back(surroundings, plan, written);
  return problems;
}

}  // namespace

Exit take_bundle(const Invocation& invocation, const std::string& path,
                 const BundleWishes& wishes) {
  const Terminal& terminal = invocation.terminal;
  const Surroundings& surroundings = invocation.surroundings;
  if (surroundings.own_knowledge.empty()) {
    return refuse(terminal, {no_data_folder()});
  }
  const auto plan = plan_of(surroundings, path, wishes);
  if (!plan) {
    return refuse(terminal, plan.problems());
  }
  if (const auto sound = check_cases(surroundings, path, *plan); !sound) {
    return refuse(terminal, sound.problems());
  }
  const auto report = carry_out(surroundings, path, *plan);
  if (!report) {
    return refuse(terminal, report.problems());
  }
  if (!terminal.json) {
    for (const std::string& line : plan->told) {
      terminal.out << quantities::shown_line(line) << ".\n";
    }
  }
  (void)tell_arrivals(terminal, *report, plan->told);
  return plan->all ? Exit::done : Exit::answer_is_no;
}

}  // namespace dryout::app
