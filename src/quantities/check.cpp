#include "quantities/check.h"

namespace dryout::quantities {

void fail_check(const char* condition, const char* file, int line) {
  throw InternalFault(std::string(file) + ':' + std::to_string(line) +
                      ": broken invariant: " + condition);
}

}  // namespace dryout::quantities
