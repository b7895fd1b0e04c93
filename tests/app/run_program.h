// Runs the built program as a stranger would: arguments, standard input, a home of its own.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "documents/value.h"

namespace dryout::app_test {

struct Outcome {
  int exit = -1;
  std::string out;
  std::string err;
};

/// All bytes of a file; "" where there is none.
[[nodiscard]] std::string read_whole(const std::filesystem::path& path);

/// A temporary home folder with its own case store; gone with the object.
class Home {
 public:
  Home();
  ~Home();
  Home(const Home&) = delete;
  Home& operator=(const Home&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// Writes a file into the home; its path.
  [[nodiscard]] std::string file(const std::string& name, const std::string& text) const;
  [[nodiscard]] Outcome run(const std::vector<std::string>& arguments,
                            const std::string& input = "") const;
  /// Runs with --json and parses standard output; a test failure where that is no JSON.
  [[nodiscard]] documents::Value json(std::vector<std::string> arguments) const;

 private:
  std::filesystem::path path_;
};

/// The number of a member, by a path of keys and indices: number_at(v, {"items", "0", "x"}).
[[nodiscard]] const documents::Value& at(const documents::Value& value,
                                         const std::vector<std::string>& path);
[[nodiscard]] double number_at(const documents::Value& value, const std::vector<std::string>& path);
[[nodiscard]] std::string text_at(const documents::Value& value,
                                  const std::vector<std::string>& path);

/// What a line of the shell says; a test failure where there is no shell.
[[nodiscard]] std::string output_of(const std::string& command);

/// In a child process: becomes the built program, with that home as its only surroundings and no
/// display. Standard streams are the caller's to lay.
[[noreturn]] void become_program(const std::filesystem::path& home,
                                 const std::vector<std::string>& arguments);

}  // namespace dryout::app_test
