#include "casework/drafts.h"

#include <charconv>

#include "documents/parse.h"
#include "documents/reader.h"

namespace dryout::casework {

using documents::Value;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

std::string drafts_text(const Drafts& drafts) {
  Value cases = Value::object();
  for (const auto& [number, typed] : drafts.of_case) {
    Value fields = Value::object();
    for (const auto& [field, text] : typed) {
      fields.set(field, text);
    }
    cases.set(std::to_string(number), fields);
  }
  return documents::to_text(
      Value::object({{"store", drafts.store}, {"closed", drafts.closed}, {"cases", cases}}));
}

Result<Drafts> drafts_of(const std::string& text) {
  const auto document = documents::parse(text, "what was typed");
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const documents::Reader root(*document, problems);
  root.accept_only({"store", "closed", "cases"});
  Drafts drafts;
  drafts.store = root.optional_text("store").value_or("");
  drafts.closed = root.boolean("closed");
  const Value* cases = root.value().find("cases");
  if (cases == nullptr || cases->object_members() == nullptr) {
    problems.push_back(Problem{"no cases", {}, "", "an object of cases"});
    return problems;
  }
  for (const auto& [key, fields] : *cases->object_members()) {
    std::int64_t number = 0;
    const auto [end, fault] = std::from_chars(key.data(), key.data() + key.size(), number);
    if (fault != std::errc() || end != key.data() + key.size() ||
        fields.object_members() == nullptr) {
      problems.push_back(Problem{"no case", {}, key, "a case number with its fields"});
      continue;
    }
    for (const auto& [field, typed] : *fields.object_members()) {
      if (typed.text() != nullptr && !typed.text()->empty()) {
        drafts.of_case[number][field] = *typed.text();
      }
    }
  }
  return problems.empty() ? Result<Drafts>(drafts) : problems;
}

}  // namespace dryout::casework
