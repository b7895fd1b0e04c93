#include "app/run_program.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "documents/parse.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;

/// In the child: streams from and to files of the home.
void lay_streams(const fs::path& home) {
  const bool wired = chdir(home.c_str()) == 0 &&
                     std::freopen((home / "stdin").c_str(), "rb", stdin) != nullptr &&
                     std::freopen((home / "stdout").c_str(), "wb", stdout) != nullptr &&
                     std::freopen((home / "stderr").c_str(), "wb", stderr) != nullptr;
  if (!wired) {
    _exit(126);
  }
}

}  // namespace

std::string output_of(const std::string& command) {
  std::string text;
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) {
    ADD_FAILURE() << "no shell";
    return text;
  }
  std::array<char, 4096> block{};
  for (std::size_t n = 1; n > 0;) {
    n = std::fread(block.data(), 1, block.size(), pipe);
    text.append(block.data(), n);
  }
  pclose(pipe);
  return text;
}

void become_program(const fs::path& home, const std::vector<std::string>& arguments) {
  setenv("HOME", home.c_str(), 1);
  setenv("XDG_DATA_HOME", (home / "data").c_str(), 1);
  unsetenv("DISPLAY");
  unsetenv("WAYLAND_DISPLAY");
  std::vector<char*> argv{const_cast<char*>(DRYOUT_BINARY)};
  for (const std::string& argument : arguments) {
    argv.push_back(const_cast<char*>(argument.c_str()));
  }
  argv.push_back(nullptr);
  execv(DRYOUT_BINARY, argv.data());
  _exit(127);
}

std::string read_whole(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

Home::Home() {
  std::string pattern = (fs::temp_directory_path() / "dryout-test-XXXXXX").string();
  const char* made = mkdtemp(pattern.data());
  EXPECT_NE(made, nullptr);
  path_ = pattern;
}

Home::~Home() {
  std::error_code error;
  fs::remove_all(path_, error);
}

std::string Home::file(const std::string& name, const std::string& text) const {
  const fs::path path = path_ / name;
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

Outcome Home::run(const std::vector<std::string>& arguments, const std::string& input) const {
  (void)file("stdin", input);
  const pid_t child = fork();
  if (child == 0) {
    lay_streams(path_);
    become_program(path_, arguments);
  }
  int status = 0;
  EXPECT_EQ(waitpid(child, &status, 0), child);
  Outcome outcome;
  outcome.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  outcome.out = read_whole(path_ / "stdout");
  outcome.err = read_whole(path_ / "stderr");
  return outcome;
}

documents::Value Home::json(std::vector<std::string> arguments) const {
  arguments.emplace_back("--json");
  const Outcome outcome = run(arguments);
  const auto document = documents::parse(outcome.out, "stdout");
  EXPECT_TRUE(document.ok()) << outcome.out << outcome.err;
  return document.ok() ? document->root : documents::Value();
}

const documents::Value& at(const documents::Value& value, const std::vector<std::string>& path) {
  static const documents::Value nothing;
  const documents::Value* here = &value;
  for (const std::string& step : path) {
    if (const auto* elements = here->array_elements()) {
      const std::size_t index = std::stoul(step);
      here = index < elements->size() ? &(*elements)[index] : nullptr;
    } else {
      here = here->find(step);
    }
    if (here == nullptr) {
      ADD_FAILURE() << "no " << step << " in " << documents::to_line(value).substr(0, 300);
      return nothing;
    }
  }
  return *here;
}

double number_at(const documents::Value& value, const std::vector<std::string>& path) {
  const double* number = at(value, path).number();
  EXPECT_NE(number, nullptr) << "no number at " << path.back();
  return number == nullptr ? 0.0 : *number;
}

std::string text_at(const documents::Value& value, const std::vector<std::string>& path) {
  const std::string* text = at(value, path).text();
  EXPECT_NE(text, nullptr) << "no text at " << path.back();
  return text == nullptr ? "" : *text;
}

}  // namespace dryout::app_test
