// Numbers as typed after options, held against the one table of what can be (quantities/measure.h):
// each complaint names its option, what was found and what is accepted, and all are told together.
#pragma once

#include <optional>
#include <string>

#include "quantities/measure.h"

namespace dryout::app {

class TypedNumbers {
 public:
  /// Nothing where the option was not given, or was refused.
  std::optional<double> optional(const char* option, const std::string& text,
                                 const quantities::PhysicalRange& range) {
    if (text.empty()) {
      return std::nullopt;
    }
    const auto value = quantities::parse_engineering(text, range.unit);
    if (!value) {
      complain_of(option, value.problems().front());
      return std::nullopt;
    }
    if (const auto problem = quantities::out_of_range(range, *value, "this value")) {
      complain_of(option, *problem);
      return std::nullopt;
    }
    return *value;
  }
  std::optional<double> optional(const char* option, const std::string& text,
                                 quantities::Measure measure) {
    return optional(option, text, quantities::range_of(measure));
  }
  /// A value that is possible where it was missing or refused; then there are problems.
  double required(const char* option, const std::string& text,
                  const quantities::PhysicalRange& range) {
    if (text.empty()) {
      complain_of(
          option,
          {"this number is needed", {}, "", std::string(range.title) + " of " + range.describe()});
    }
    return optional(option, text, range).value_or(range.zero ? 0.0 : range.most);
  }
  double required(const char* option, const std::string& text, quantities::Measure measure) {
    return required(option, text, quantities::range_of(measure));
  }
  void complain(quantities::Problem problem) { problems_.push_back(std::move(problem)); }
  [[nodiscard]] const quantities::Problems& problems() const { return problems_; }

 private:
  void complain_of(const char* option, quantities::Problem problem) {
    problem.place.file = option;
    problems_.push_back(std::move(problem));
  }

  quantities::Problems problems_;
};

}  // namespace dryout::app
