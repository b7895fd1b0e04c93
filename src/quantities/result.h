// Result<T>: a value, or the problems that stand in its way. C++20 has no std::expected.
//
//   Result<Network> network = read_network(document);
//   if (!network) return network.problems();
//   use(*network);
#pragma once

#include <utility>
#include <variant>

#include "quantities/check.h"
#include "quantities/problem.h"

namespace dryout::quantities {

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::move(value)) {}                      // NOLINT: implicit on purpose
  Result(Problem problem) : state_(Problems{std::move(problem)}) {}  // NOLINT
  Result(Problems problems) : state_(std::move(problems)) {          // NOLINT
    CHECK(!std::get<Problems>(state_).empty());
  }

  [[nodiscard]] bool ok() const { return std::holds_alternative<T>(state_); }
  explicit operator bool() const { return ok(); }

  [[nodiscard]] T& value() & { return held(); }
  [[nodiscard]] const T& value() const& {
    CHECK(ok());
    return std::get<T>(state_);
  }
  [[nodiscard]] T&& value() && { return std::move(held()); }
  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }

  [[nodiscard]] const Problems& problems() const {
    CHECK(!ok());
    return std::get<Problems>(state_);
  }

 private:
  T& held() {
    CHECK(ok());
    return std::get<T>(state_);
  }
  std::variant<T, Problems> state_;
};

/// The outcome of an action that yields nothing but may be refused.
struct Done {};

}  // namespace dryout::quantities
