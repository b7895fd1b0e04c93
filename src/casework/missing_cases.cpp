#include "casework/missing_cases.h"

#include "casestore/check_records.h"

namespace dryout::casework {

std::vector<std::string> missing_cases(const std::string& store) {
  std::vector<std::string> sentences;
  if (const auto all_there = casestore::check_records(store); !all_there) {
    for (const quantities::Problem& problem : all_there.problems()) {
      sentences.push_back(quantities::describe(problem));
    }
  }
  return sentences;
}

}  // namespace dryout::casework
