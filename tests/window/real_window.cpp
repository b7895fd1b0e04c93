#include "window/real_window.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <thread>
#include <vector>

namespace dryout::window {
namespace {

using namespace std::chrono_literals;

void rest(std::chrono::milliseconds time) { std::this_thread::sleep_for(time); }

bool there(const char* program) {
  return std::system((std::string("command -v ") + program + " >/dev/null 2>&1").c_str()) == 0;
}

pid_t start(const std::string& command, int kept_open = -1) {
  const pid_t child = fork();
  if (child == 0) {
    setpgid(0, 0);
    const int nowhere = ::open("/dev/null", O_WRONLY);
    dup2(nowhere, STDOUT_FILENO);
    if (kept_open >= 0) {
      fcntl(kept_open, F_SETFD, 0);
    }
    execl("/bin/sh", "sh", "-c", ("exec " + command).c_str(), static_cast<char*>(nullptr));
    _exit(127);
  }
  return child;
}

void stop(pid_t& child) {
  if (child > 0) {
    kill(child, SIGTERM);
    waitpid(child, nullptr, 0);
    child = -1;
  }
}

/// The server picks a free display and tells its number.
std::string start_server(pid_t& server) {
  std::array<int, 2> ends{};
  if (pipe(ends.data()) != 0) {
    return "";
  }
  server = start("Xvfb -displayfd " + std::to_string(ends[1]) +
                     " -screen 0 2560x1600x24 -nolisten tcp 2>/dev/null",
                 ends[1]);
  ::close(ends[1]);
  std::string number;
  char digit = 0;
  while (read(ends[0], &digit, 1) == 1 && digit != '\n') {
    number += digit;
  }
  ::close(ends[0]);
  return ":" + number;
}

/// Tries for half a minute: machines that test are often busy.
template <class Holds>
bool wait_until(Holds holds) {
  for (int turn = 0; turn < 600; ++turn) {
    if (holds()) {
      return true;
    }
    rest(50ms);
  }
  return false;
}

}  // namespace

std::string RealWindow::missing() {
  for (const char* program : {"Xvfb", "xdotool"}) {
    if (!there(program)) {
      return std::string(program) + " is not installed";
    }
  }
  return access(DRYOUT_BINARY, X_OK) == 0 ? "" : "the program is not built";
}

RealWindow::RealWindow() {
  std::string pattern = (std::filesystem::temp_directory_path() / "dryout-real-XXXXXX").string();
  folder_ = mkdtemp(pattern.data());
  items_ = folder_ + "/items";
  display_ = start_server(server_);
}

RealWindow::RealWindow(const RealWindow& host)
    : folder_(host.folder_), display_(host.display_), items_(host.folder_ + "/items-beside") {}

RealWindow::~RealWindow() {
  close();
  if (server_ <= 0) {
    return;  // a guest on somebody else's display
  }
  stop(server_);
  std::error_code failed;
  std::filesystem::remove_all(folder_, failed);
}

bool RealWindow::open(const std::string& options) {
  std::error_code failed;
  std::filesystem::remove(items_, failed);
  program_ = start("env DISPLAY=" + display_ + " XDG_DATA_HOME=" + folder_ + ' ' + DRYOUT_BINARY +
                   " window --report-items " + items_ + ' ' + options);
  if (!wait_for("station/cases")) {
    return false;
  }
  // Without a window manager nobody else gives the keyboard to the window.
  come_back();
  return true;
}

void RealWindow::come_back() {
  run("xdotool search --sync --onlyvisible --pid " + std::to_string(program_) +
      " windowraise windowfocus --sync");
  settle();
}

void RealWindow::settle() const {
  // What was sent takes a moment to arrive; then the program draws, and says when it sleeps again.
  rest(60ms);
  int last = -2;
  int calm = 0;
  for (int turn = 0; turn < 3000 && calm < 2; ++turn) {
    const std::string text = report();
    int number = -1;
    (void)std::sscanf(text.c_str(), "{\"frame\":%d", &number);
    const bool asleep = text.find("\"asleep\":true") != std::string::npos;
    calm = asleep && number == last ? calm + 1 : 0;
    last = number;
    rest(10ms);
  }
}

void RealWindow::close() { stop(program_); }

bool RealWindow::running() const {
  return program_ > 0 && waitpid(program_, nullptr, WNOHANG) == 0;
}

std::string RealWindow::run(const std::string& command) const {
  const std::string whole =
      "DISPLAY=" + display_ + " XDG_DATA_HOME=" + folder_ + ' ' + command + " 2>/dev/null";
  std::string output;
  if (FILE* pipe = popen(whole.c_str(), "r")) {
    std::array<char, 4096> part{};
    std::size_t count = 0;
    while ((count = fread(part.data(), 1, part.size(), pipe)) > 0) {
      output.append(part.data(), count);
    }
    pclose(pipe);
  }
  return output;
}

void RealWindow::key(const std::string& keys) {
  run("xdotool key --delay 12 " + keys);
  settle();
}

void RealWindow::type(const std::string& text) {
  run("xdotool type --delay 12 '" + text + "'");
  settle();
}

void RealWindow::hold(const std::string& key, int milliseconds) {
  run("xdotool keydown " + key);
  rest(std::chrono::milliseconds(milliseconds));
  run("xdotool keyup " + key);
  settle();
}

int RealWindow::frame() const {
  int number = -1;
  (void)std::sscanf(report().c_str(), "{\"frame\":%d", &number);
  return number;
}

std::string RealWindow::report() const {
  std::ifstream file(items_);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> RealWindow::reported_items() const {
  std::istringstream lines(report());
  std::vector<std::string> items;
  for (std::string line; std::getline(lines, line);) {
    items.push_back(line);
  }
  return items;
}

std::optional<Spot> RealWindow::spot(const std::string& name) const {
  const std::string text = report();
  const std::size_t at = text.find("\"name\":\"" + name + '"');
  if (at == std::string::npos) {
    return std::nullopt;
  }
  const std::size_t rect = text.find("\"rect\":[", at);
  Spot spot;
  if (rect == std::string::npos ||
      std::sscanf(text.c_str() + rect, "\"rect\":[%d,%d,%d,%d]", &spot.left, &spot.top, &spot.right,
                  &spot.bottom) != 4) {
    return std::nullopt;
  }
  return spot;
}

bool RealWindow::wait_for(const std::string& name) {
  return wait_until([&] { return spot(name).has_value(); });
}

bool RealWindow::wait_until_gone(const std::string& name) {
  return wait_until([&] { return !spot(name).has_value(); });
}

bool RealWindow::click(const std::string& name) {
  // Out of sight: the wheel over the page finds it, downwards and then back up.
  for (int turn = 0; turn < 60 && !spot(name); ++turn) {
    run(turn < 30 ? "xdotool mousemove 500 500 click 5" : "xdotool click 4");
    settle();
  }
  return press(name, "1");
}

bool RealWindow::press_right(const std::string& name) { return press(name, "3"); }

bool RealWindow::press(const std::string& name, const std::string& button) {
  const std::optional<Spot> where = spot(name);
  if (!where) {
    return false;
  }
  run("xdotool mousemove " + std::to_string((where->left + where->right) / 2) + ' ' +
      std::to_string((where->top + where->bottom) / 2));
  settle();
  run("xdotool mousedown " + button);
  settle();
  run("xdotool mouseup " + button);
  settle();
  return true;
}

std::vector<std::string> RealWindow::pictures() const {
  std::vector<std::string> names;
  std::error_code failed;
  for (const auto& entry :
       std::filesystem::directory_iterator(folder_ + "/dryout/pictures", failed)) {
    names.push_back(entry.path().filename().string());
  }
  return names;
}

bool RealWindow::wait_for_picture(const std::string& beginning) const {
  return wait_until([&] {
    const std::vector<std::string> names = pictures();
    return std::any_of(names.begin(), names.end(), [&beginning](const std::string& name) {
      return name.rfind(beginning, 0) == 0;
    });
  });
}

std::string RealWindow::wait_for_paper(const std::string& beginning,
                                       const std::string& ending) const {
  std::string found;
  (void)wait_until([&] {
    std::error_code failed;
    for (const auto& entry :
         std::filesystem::directory_iterator(folder_ + "/dryout/papers", failed)) {
      const std::string name = entry.path().filename().string();
      if (name.rfind(beginning, 0) == 0 && entry.path().extension() == ending) {
        found = entry.path().string();
      }
    }
    return !found.empty();
  });
  return found;
}

bool RealWindow::tab_to(const std::string& name) {
  // Half of the way there is gone in one go: waiting for the picture after every Tab would take
  // minutes on a page of fifty items.
  bool stride = true;
  for (int turn = 0; turn < 150; ++turn) {
    const std::vector<std::string> items = reported_items();
    const auto named = [&items](const std::string& part) {
      return std::find_if(items.begin(), items.end(), [&part](const std::string& item) {
        return item.find(part) != std::string::npos;
      });
    };
    const auto focused = named("\"focused\":true");
    const auto wanted = named("\"name\":\"" + name + '"');
    if (wanted != items.end() && wanted == focused) {
      return true;
    }
    // Passed by: there are stops on the way that are out of sight, so every one counts from here.
    stride = stride && focused < wanted && wanted != items.end();
    const auto steps = stride ? std::max<std::ptrdiff_t>(1, (wanted - focused) / 2) : 1;
    std::string keys;
    for (std::ptrdiff_t step = 0; step < steps; ++step) {
      keys += " Tab";
    }
    key(keys);
  }
  return false;
}

bool RealWindow::press_by_tab(const std::string& name) {
  if (!tab_to(name)) {
    return false;
  }
  key("Return");
  return true;
}

void RealWindow::resize(int width, int height) {
  run("xdotool search --name Dryout windowsize " + std::to_string(width) + ' ' +
      std::to_string(height));
  settle();
}

void RealWindow::picture(const std::string& name) {
  if (const char* folder = std::getenv("DRYOUT_PICTURES")) {
    run("import -window root -crop 1280x800+0+0 +repage " + std::string(folder) + "/real-" + name +
        ".png");
  }
}

std::string RealWindow::dryout(const std::string& words) const {
  return run(std::string(DRYOUT_BINARY) + ' ' + words);
}

}  // namespace dryout::window
