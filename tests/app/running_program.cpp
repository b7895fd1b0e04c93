#include "app/running_program.h"

#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>

namespace dryout::app_test {

RunningProgram::RunningProgram(const Home& home, const std::vector<std::string>& arguments) {
  std::array<int, 2> in{};
  std::array<int, 2> out{};
  EXPECT_EQ(pipe(in.data()), 0);
  EXPECT_EQ(pipe(out.data()), 0);
  child_ = fork();
  if (child_ == 0) {
    dup2(in[0], STDIN_FILENO);
    dup2(out[1], STDOUT_FILENO);
    dup2(out[1], STDERR_FILENO);
    for (const int end : {in[0], in[1], out[0], out[1]}) {
      close(end);
    }
    become_program(home.path(), arguments);
  }
  close(in[0]);
  close(out[1]);
  to_ = in[1];
  from_ = out[0];
}

RunningProgram::~RunningProgram() {
  close(to_);
  close(from_);
  kill(child_, SIGKILL);
  waitpid(child_, nullptr, 0);
}

std::string RunningProgram::read_until(const std::string& sign, const std::string& or_sign) {
  constexpr int patience_ms = 60'000;
  std::string said;
  pollfd waiting{from_, POLLIN, 0};
  const auto heard = [&said](const std::string& wanted) {
    return !wanted.empty() && said.find(wanted) != std::string::npos;
  };
  while (!heard(sign) && !heard(or_sign) && poll(&waiting, 1, patience_ms) > 0) {
    char letter = 0;
    if (read(from_, &letter, 1) != 1) {
      break;
    }
    said += letter;
  }
  return said;
}

void RunningProgram::interrupt() const { EXPECT_EQ(kill(child_, SIGINT), 0); }

void RunningProgram::say(const std::string& line) {
  const std::string sent = line + '\n';
  EXPECT_EQ(write(to_, sent.data(), sent.size()), static_cast<ssize_t>(sent.size()));
}

}  // namespace dryout::app_test
