// dryout case rescue|log: what can still be read, without asking a rule.
#include <CLI/CLI.hpp>
#include <charconv>
#include <filesystem>
#include <iomanip>
#include <ostream>

#include "app/commands.h"
#include "casework/plain_log.h"
#include "casework/rescue.h"
#include "documents/read_text.h"
#include "documents/write_whole.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::PlainLog;
using casework::Rescue;
using documents::Value;
using quantities::Problem;
using quantities::Result;

/// A new file: STEM.ending, or with a number behind. Its path.
Result<std::string> write_beside_others(const fs::path& folder, const std::string& stem,
                                        const std::string& ending, const std::string& text) {
  for (int number = 1;; ++number) {
    std::string name = stem;
    if (number > 1) {
      name.append("-").append(std::to_string(number));
    }
    name += ending;
    const std::string path = (folder / name).string();
    const auto written = documents::write_new(path, text);
    if (!written) {
      return written.problems();
    }
    if (*written) {
      return path;
    }
  }
}

std::string list_of(const Rescue& rescue, const std::string& path) {
  std::string text = "What could not be saved of " + path + ":\n";
  for (const std::string& line : rescue.lost) {
    text += "  " + quantities::shown_line(line) + '\n';
  }
  if (!rescue.aside.empty()) {
    text += "Found, and in no case file, as it was found:\n";
    for (const std::string& line : rescue.aside) {
      text += "  " + quantities::shown_line(line) + '\n';
    }
  }
  return text;
}

struct Written {
  std::vector<std::string> files;  ///< parallel to the cases; "" = none
  std::string list;                ///< "" = nothing was lost
};

Result<Written> write_all(const Rescue& rescue, const std::string& path,
                          const std::string& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (!fs::is_directory(folder, error)) {
    return Problem{"the folder cannot be made",
                   {folder, 0, {}},
                   fs::exists(folder) ? "a file of that name" : error.message(),
                   "a folder this user may write"};
  }
  Written written;
  for (const casework::RescuedCase& each : rescue.cases) {
    if (each.text.empty()) {
      written.files.emplace_back();
      continue;
    }
    auto file =
        write_beside_others(folder, "case-" + std::to_string(each.number), ".json", each.text);
    if (!file) {
      return file.problems();
    }
    written.files.push_back(std::move(*file));
  }
  if (!rescue.lost.empty() || !rescue.aside.empty()) {
    auto list = write_beside_others(folder, "not-saved", ".txt", list_of(rescue, path));
    if (!list) {
      return list.problems();
    }
    written.list = std::move(*list);
  }
  return written;
}

Exit tell(const Terminal& terminal, const Rescue& rescue, const Written& written) {
  int steps = 0;
  Value cases = Value::array();
  for (std::size_t i = 0; i < rescue.cases.size(); ++i) {
    const casework::RescuedCase& each = rescue.cases[i];
    steps += each.steps;
    cases.append(Value::object({{"case", static_cast<double>(each.number)},
                                {"set_name", each.set_name},
                                {"steps", each.steps},
                                {"chained", each.chained},
                                {"file", written.files[i]}}));
  }
  const bool all = rescue.lost.empty();
  if (terminal.json) {
    Value lost = Value::array();
    for (const std::string& line : rescue.lost) {
      lost.append(line);
    }
    (void)answer(terminal, Value::object({{"cases", std::move(cases)},
                                          {"lost", std::move(lost)},
                                          {"list", written.list}}));
    return all ? Exit::done : Exit::answer_is_no;
  }
  for (std::size_t i = 0; i < rescue.cases.size(); ++i) {
    const casework::RescuedCase& each = rescue.cases[i];
    terminal.out << "case " << each.number << (each.set_name.empty() ? "" : ", ")
                 << quantities::shown_line(each.set_name) << ": " << each.steps
                 << (each.steps == 1 ? " step" : " steps")
                 << (written.files[i].empty() ? "" : " in ") << written.files[i]
                 << (each.chained || written.files[i].empty() ? "" : ", without a chain") << '\n';
  }
  for (const std::string& line : rescue.lost) {
    terminal.out << "not saved: " << quantities::shown_line(line) << '\n';
  }
  terminal.out << rescue.cases.size() << (rescue.cases.size() == 1 ? " case, " : " cases, ")
               << steps << (steps == 1 ? " step" : " steps") << " saved";
  terminal.out << (all ? ", nothing lost.\n"
                       : "; what could not be is also in " + written.list + ".\n");
  return all ? Exit::done : Exit::answer_is_no;
}

Exit rescue_into(const Invocation& invocation, const std::string& path, const std::string& folder) {
  const Terminal& terminal = invocation.terminal;
  const auto rescue = casework::rescue(path);
  if (!rescue) {
    return refuse(terminal, rescue.problems());
  }
  if (rescue->cases.empty()) {
    return refuse(terminal,
                  {{"no step of a case can be found in it",
                    {path, 0, {}},
                    "",
                    "a store, a backup or a case file of this program, however damaged"}},
                  Exit::answer_is_no);
  }
  const auto written = write_all(*rescue, path, folder);
  return written ? tell(terminal, *rescue, *written) : refuse(terminal, written.problems());
}

Result<PlainLog> log_named(const Surroundings& surroundings, const std::string& name) {
  std::int64_t number = 0;
  const char* end = name.data() + name.size();
  const auto [stop, error] = std::from_chars(name.data(), end, number);
  if (error == std::errc() && stop == end) {
    if (surroundings.store.empty()) {
      return no_data_folder();
    }
    return casework::plain_log(surroundings.store, number);
  }
  constexpr std::size_t bytes_max = 64U << 20U;
  const auto text = documents::read_text(name, "a case number or a case file", bytes_max);
  return text ? casework::plain_log_of_text(*text, name) : text.problems();
}

Exit show_log(const Invocation& invocation, const std::string& name) {
  const Terminal& terminal = invocation.terminal;
  const auto log = log_named(invocation.surroundings, name);
  if (!log) {
    return refuse(terminal, log.problems());
  }
  Value lines = Value::array();
  for (const casework::PlainLine& line : log->lines) {
    if (terminal.json) {
      lines.append(Value::object({{"event", line.event},
                                  {"when", line.when},
                                  {"kind", line.kind},
                                  {"text", line.text},
                                  {"undone", line.undone},
                                  {"sound", line.sound}}));
    } else {
      terminal.out << std::right << std::setw(5) << line.event << "  "
                   << (line.when.empty() ? "" : line.when + "  ") << line.kind
                   << (line.kind.empty() ? "" : ": ") << quantities::shown_line(line.text)
                   << (line.undone ? " (taken back)" : "") << '\n';
    }
  }
  return terminal.json ? answer(terminal, Value::object({{"case", static_cast<double>(log->number)},
                                                         {"log", std::move(lines)}}))
                       : Exit::done;
}

}  // namespace

void add_rescue(Commands& commands, CLI::App* parent) {
  std::string& path = commands.text();
  std::string& folder = commands.text();
  CLI::App* rescue = commands.add(
      "rescue", "Saves every sound step of a damaged store or case file, and lists the others",
      [&](const Invocation& invocation) { return rescue_into(invocation, path, folder); }, parent);
  rescue->add_option("file", path, "Store, backup or case file")->required();
  rescue
      ->add_option("-o,--output", folder, "Folder for what is saved; nothing there is overwritten")
      ->required();
  std::string& name = commands.text();
  commands
      .add(
          "log", "Every step of a case as it was written down, whatever rules there are",
          [&](const Invocation& invocation) { return show_log(invocation, name); }, parent)
      ->add_option("case", name, "Case number or case file")
      ->required();
}

}  // namespace dryout::app
