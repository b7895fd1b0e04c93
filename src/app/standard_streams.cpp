#include "app/standard_streams.h"

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <iostream>

namespace dryout::app {

void hold_standard_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (::fcntl(stream, F_GETFD) == -1 && errno == EBADF) {
      // The lowest free number is the one that is missing. What is written there fails.
      (void)::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    }
  }
  (void)std::signal(SIGPIPE, SIG_IGN);
}

std::string why_output_was_lost() {
  errno = 0;
  std::cout.flush();
  const int at_flush = errno;
  if (!std::cout || std::ferror(stdout) != 0) {
    return at_flush == 0 ? "it could not be written" : std::strerror(at_flush);
  }
  // A disk may take bytes and find later that it has no room for them.
  if (::fsync(STDOUT_FILENO) != 0 && (errno == ENOSPC || errno == EIO || errno == EDQUOT)) {
    return std::strerror(errno);
  }
  return {};
}

bool reader_of_output_is_gone() {
  pollfd output{STDOUT_FILENO, POLLOUT, 0};
  return ::poll(&output, 1, 0) == 1 && (output.revents & (POLLERR | POLLHUP)) != 0;
}

}  // namespace dryout::app
