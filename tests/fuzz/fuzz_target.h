// What the fuzz targets share. A target feeds whatever it is given to one parser and demands what
// must hold of every answer; libFuzzer looks for the input where it does not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "documents/parse.h"

namespace dryout::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Stops the run, so that libFuzzer keeps the input. (assert() would vanish from a release build.)
inline void demand(bool holds) {
  if (!holds) {
    std::abort();
  }
}

/// A refusal must say what is wrong.
template <typename T>
void demand_reasons(const quantities::Result<T>& refused) {
  demand(!refused.problems().empty());
  for (const quantities::Problem& problem : refused.problems()) {
    demand(!problem.message.empty());
  }
}

}  // namespace dryout::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
