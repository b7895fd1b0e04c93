// Numbers as typed after options: each complaint names its option, what was found and what is
// accepted, and all of them are told together.
#pragma once

#include <optional>
#include <string>

#include "quantities/engineering_notation.h"

namespace dryout::app {

class TypedNumbers {
 public:
  /// Nothing where the option was not given, or was refused.
  std::optional<double> optional(const char* option, const std::string& text, quantities::Unit unit,
                                 double least, double most) {
    if (text.empty()) {
      return std::nullopt;
    }
    const auto value = quantities::parse_engineering(text, unit);
    if (!value) {
      quantities::Problem problem = value.problems().front();
      problem.place.file = option;
      problems_.push_back(problem);
      return std::nullopt;
    }
    if (*value < least || *value > most) {
      problems_.push_back({"this is out of reach",
                           {option, 0, {}},
                           '"' + quantities::excerpt(text) + '"',
                           quantities::format_engineering(least, unit) + " to " +
                               quantities::format_engineering(most, unit)});
      return std::nullopt;
    }
    return *value;
  }
  /// The least accepted where it was missing or refused; then there are problems.
  double required(const char* option, const std::string& text, quantities::Unit unit, double least,
                  double most) {
    if (text.empty()) {
      problems_.push_back({"this number is needed",
                           {option, 0, {}},
                           "",
                           quantities::format_engineering(least, unit) + " to " +
                               quantities::format_engineering(most, unit)});
    }
    return optional(option, text, unit, least, most).value_or(least);
  }
  void complain(quantities::Problem problem) { problems_.push_back(std::move(problem)); }
  [[nodiscard]] const quantities::Problems& problems() const { return problems_; }

 private:
  quantities::Problems problems_;
};

}  // namespace dryout::app
