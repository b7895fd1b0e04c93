#include "documents/value.h"

#include "quantities/check.h"

namespace dryout::documents {

const Value* Value::find(std::string_view key) const {
  if (const Object* members = object_members()) {
    for (const Member& member : *members) {
      if (member.first == key) {
        return &member.second;
      }
    }
  }
  return nullptr;
}

Value& Value::set(std::string key, Value value) {
  auto* members = std::get_if<Object>(&content_);
  CHECK(members != nullptr);
  members->emplace_back(std::move(key), std::move(value));
  return *this;
}

Value& Value::append(Value value) {
  auto* elements = std::get_if<Array>(&content_);
  CHECK(elements != nullptr);
  elements->push_back(std::move(value));
  return *this;
}

std::string_view Value::kind_name() const {
  constexpr std::string_view names[] = {"null",   "true or false", "a number",
                                        "a text", "an array",      "an object"};
  return names[content_.index()];
}

}  // namespace dryout::documents
