// dryout case export: cases as text, one or all, to a file, a folder or the terminal.
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "app/tell_arrivals.h"
#include "app/write_pieces.h"
#include "casework/case_exchange.h"
#include "casework/missing_cases.h"
#include "documents/read_text.h"
#include "documents/scratch_file.h"
#include "documents/write_whole.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::LeftOut;
using quantities::Done;
using quantities::Result;

/// One export into a folder at a time.
class FolderInUse {
 public:
  explicit FolderInUse(const std::string& folder)
      : file_(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (file_ >= 0) {
      (void)::flock(file_, LOCK_EX);
    }
  }
  FolderInUse(const FolderInUse&) = delete;
  FolderInUse& operator=(const FolderInUse&) = delete;
  ~FolderInUse() {
    if (file_ >= 0) {
      ::close(file_);
    }
  }

 private:
  int file_;
};

/// To a file, or to the terminal where none is named.
Result<Done> hand_out(const Terminal& terminal, const std::string& text, const std::string& path) {
  if (path.empty() || path == "-") {
    terminal.data << text;
    return Done{};
  }
  return documents::write_whole(path, text);
}

/// The file of a case takes the place of what the same bench wrote of it earlier, and of nothing
/// else: whatever it finds under that name besides, it takes another.
Result<Done> write_case(const fs::path& folder, const std::string& stem, const std::string& text) {
  constexpr std::size_t bytes_max = 64U << 20U;
  for (int number = 1;; ++number) {
    const std::string name = stem + (number == 1 ? "" : '-' + std::to_string(number)) + ".json";
    const std::string path = (folder / name).string();
    const auto fresh = documents::write_new(path, text);
    if (!fresh) {
      return fresh.problems();
    }
    if (*fresh) {
      return Done{};
    }
    const auto there = documents::read_text(path, "a case file", bytes_max);
    if (there && casework::is_earlier_state(*there, text)) {
      return documents::write_whole(path, text);
    }
  }
}

Result<Done> export_into(const casework::Workshop& workshop, const std::string& folder,
                         LeftOut& left_out) {
  const auto cases = workshop.cases();
  const auto bench = workshop.bench();
  if (!cases || !bench) {
    return cases ? bench.problems() : cases.problems();
  }
  const FolderInUse in_use(folder);
  (void)documents::sweep_scratch_files(folder);
  for (const casework::CaseSummary& each : *cases) {
    const auto text = workshop.export_case(each.number, &left_out);
    if (!text) {
      left_out.push_back("case " + std::to_string(each.number) + ": " +
                         quantities::describe(text.problems().front()));
      continue;
    }
    const std::string stem = "case-" + std::to_string(each.number) + '-' + *bench;
    if (auto written = write_case(folder, stem, *text); !written) {
      return written;
    }
  }
  return Done{};
}

Exit concluded(const Terminal& terminal, const Result<Done>& done, const LeftOut& left_out) {
  return done ? conclude_export(terminal, left_out) : refuse(terminal, done.problems());
}

/// All in one list, case by case, read back before it takes its name.
Result<Done> export_many(const Terminal& terminal, const casework::Workshop& workshop,
                         const std::string& path, LeftOut& left_out) {
  auto pieces = Pieces::to(path, terminal.data);
  if (!pieces) {
    return pieces.problems();
  }
  std::size_t count = 0;
  auto written = pieces->write(casework::many_begin());
  if (written) {
    written = workshop.export_each(
        [&](const std::string& text) -> Result<Done> {
          return pieces->write((count++ == 0 ? "" : std::string(casework::many_between)) + text);
        },
        &left_out);
  }
  written = written ? pieces->write(casework::many_end) : written;
  return written ? pieces->finish([&](const std::string& made) {
    return casework::read_back(made, path, count);
  })
                 : written;
}

Exit export_text(const Terminal& terminal, const Result<std::string>& text, const std::string& path,
                 const LeftOut& left_out) {
  return text ? concluded(terminal, hand_out(terminal, *text, path), left_out)
              : refuse(terminal, text.problems());
}

Exit export_cases(const Invocation& invocation, const std::string& name, bool all,
                  const std::string& path) {
  const Terminal& terminal = invocation.terminal;
  if (all == !name.empty()) {
    return refuse(terminal, {{"say which case, or --all", {}, "", "one of the two"}});
  }
  LeftOut left_out;
  if (!all) {
    const auto opened = open_case(invocation.surroundings, name);
    return opened ? export_text(terminal, opened->workshop->export_case(opened->number, &left_out),
                                path, left_out)
                  : refuse(terminal, opened.problems());
  }
  const auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  left_out = casework::missing_cases(invocation.surroundings.store);
  std::error_code error;
  if (!fs::is_directory(path, error)) {
    const auto done = export_many(terminal, **workshop, path, left_out);
    return concluded(terminal, done, left_out);
  }
  const auto done = export_into(**workshop, path, left_out);
  return concluded(terminal, done, left_out);
}

}  // namespace

void add_export(Commands& commands, CLI::App* parent) {
  std::string& exported = commands.text();
  std::string& target = commands.text();
  bool& all = commands.flag();
  CLI::App* out = commands.add(
      "export", "Writes one case, or all of them, as a JSON file",
      [&](const Invocation& invocation) { return export_cases(invocation, exported, all, target); },
      parent);
  out->add_option("case", exported, "Case number");
  out->add_flag("--all", all, "Every case in the store");
  out->add_option("-o,--output", target,
                  "File to write, or with --all a folder: one file a case there, named by case and "
                  "bench (standard output by default)");
}

}  // namespace dryout::app
