// CHECK(condition): an invariant of ours, on in every build. It guards against our own mistakes
// and must not be reachable from any input; wrong input is a Problem. A broken invariant throws
// InternalFault, which main turns into exit code 3; the journal is written before anything is
// acknowledged, so nothing acknowledged can be lost by stopping here.
#pragma once

#include <stdexcept>
#include <string>

namespace dryout::quantities {

class InternalFault : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

[[noreturn]] void fail_check(const char* condition, const char* file, int line);

}  // namespace dryout::quantities

#define CHECK(condition)                                                \
  do {                                                                  \
    if (!(condition)) {                                                 \
      ::dryout::quantities::fail_check(#condition, __FILE__, __LINE__); \
    }                                                                   \
  } while (false)
