// The built program while it runs: what it says is read up to a sign, then it is answered.
#pragma once

#include <sys/types.h>

#include <string>
#include <vector>

#include "app/run_program.h"

namespace dryout::app_test {

class RunningProgram {
 public:
  /// With the home as its only surroundings, as Home::run().
  RunningProgram(const Home& home, const std::vector<std::string>& arguments);
  ~RunningProgram();  ///< killed where it still runs
  RunningProgram(const RunningProgram&) = delete;
  RunningProgram& operator=(const RunningProgram&) = delete;

  /// What was said up to and with `sign`, or all of it where the program ended before.
  [[nodiscard]] std::string read_until(const std::string& sign, const std::string& or_sign = {});
  void say(const std::string& line);
  void interrupt() const;  ///< as Ctrl-C does

 private:
  pid_t child_ = -1;
  int to_ = -1;
  int from_ = -1;
};

}  // namespace dryout::app_test
