// dryout, dryout window, dryout snapshot: asking for the other face.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <ostream>
#include <system_error>

#include "app/commands.h"

namespace dryout::app {
namespace {

Exit open_window(const Invocation& invocation, const WindowFace& window, WindowRequest request,
                 const std::string& case_name) {
  const Terminal& terminal = invocation.terminal;
  if (!window.open) {
    return refuse(terminal, {{"this program was built without its window",
                              {},
                              "",
                              "`dryout guide` does the whole job in the terminal"}});
  }
  Surroundings surroundings = invocation.surroundings;
  if (!request.paper_folder.empty()) {
    surroundings.papers = request.paper_folder;
  }
  if (!request.picture_folder.empty()) {
    surroundings.pictures = request.picture_folder;
  }
  auto opened = open_store_or_case(surroundings, case_name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  if (const auto demo = lay_out_demo(invocation.surroundings, *opened->workshop); !demo) {
    return refuse(terminal, demo.problems());
  }
  request.case_number = opened->number;
  if (opened->kept && invocation.surroundings.store != casework::in_memory) {
    const std::filesystem::path store(invocation.surroundings.store);
    request.store_folder = store.parent_path().string();
    request.store_file = store.filename().string();
  }
  const auto done = window.open(*opened->workshop, request);
  if (!done) {
    terminal.err << quantities::describe(done.problems())
                 << "`dryout guide` does the whole job in the terminal.\n";
    return Exit::wrong_input;
  }
  return Exit::done;
}

Exit snapshot(const Invocation& invocation, const WindowFace& window, WindowRequest request,
              const std::string& case_name) {
  if (!window.picture) {
    return refuse(invocation.terminal, {{"this program was built without its window", {}, "", ""}});
  }
  auto opened = open_store_or_case(invocation.surroundings, case_name);
  if (!opened) {
    return refuse(invocation.terminal, opened.problems());
  }
  request.case_number = opened->number;
  const auto done = window.picture(*opened->workshop, request);
  if (done) {
    return Exit::done;
  }
  // A device or a pipe that did not take the picture is as a printed answer that did not arrive.
  std::error_code error;
  const bool bytes_only = std::filesystem::is_other(request.path, error);
  return refuse(invocation.terminal, done.problems(),
                bytes_only ? Exit::output_lost : Exit::wrong_input);
}

void add_size_options(CLI::App* command, WindowRequest& request) {
  constexpr int side_min = 320;
  constexpr int side_max = 8192;
  command->add_option("--width", request.width, "Pixels")->check(CLI::Range(side_min, side_max));
  command->add_option("--height", request.height, "Pixels")->check(CLI::Range(side_min, side_max));
  command->add_option("--scale", request.scale, "1 to 3; what the display says by default")
      ->check(CLI::Range(1.0, 3.0));
  command->add_option("--theme", request.theme, "dark or light")
      ->check(CLI::IsMember({"dark", "light"}));
}

}  // namespace

void add_window(Commands& commands, const WindowFace& window) {
  WindowRequest& request = commands.window_requests.emplace_back();
  std::string& case_name = commands.text();
  CLI::App* command = commands.add("window", "Opens the bench window (as dryout alone does)",
                                   [&](const Invocation& invocation) {
                                     return open_window(invocation, window, request, case_name);
                                   });
  command->add_option("case", case_name, "Case number or case file to open at once");
  add_size_options(command, request);
  command->add_option("--pictures", request.picture_folder,
                      "Folder for pictures that are saved; $XDG_PICTURES_DIR/dryout where that is "
                      "set, else pictures beside the case store");
  command->add_option("--papers", request.paper_folder,
                      "Folder for reports, lists and case files that are written; "
                      "$XDG_DOCUMENTS_DIR/dryout where that is set, else papers beside the store");
  command->add_option("--report-items", request.items_file,
                      "File in which the window notes what lies where, for tests");
}

void add_snapshot(Commands& commands, const WindowFace& window) {
  WindowRequest& request = commands.window_requests.emplace_back();
  std::string& case_name = commands.text();
  CLI::App* command =
      commands.add("snapshot", "Draws one view of the window to a PNG, no display needed",
                   [&](const Invocation& invocation) {
                     return snapshot(invocation, window, request, case_name);
                   });
  command->add_option("case", case_name, "Case number or case file");
  command->add_option("--view", request.view, "Which view")
      ->required()
      ->check(CLI::IsMember(window.views));
  command->add_option("-o,--output", request.path, "PNG file to write; with --view all the folder")
      ->required();
  add_size_options(command, request);
}

}  // namespace dryout::app
