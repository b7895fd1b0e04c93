#include "documents/reader.h"

#include <algorithm>
#include <cmath>

#include "quantities/printed_number.h"
#include "quantities/spelling.h"

namespace dryout::documents {
namespace {

const Value& empty_object() {
  static const Value empty = Value::object();
  return empty;
}

std::string number_text(double x) { return quantities::significant_figures(x, 10); }

/// RFC 6901: '~' and '/' inside a key are escaped.
std::string pointer_token(std::string_view key) {
  std::string token;
  for (const char c : key) {
    if (c == '~') {
      token += "~0";
    } else if (c == '/') {
      token += "~1";
    } else {
      token += c;
    }
  }
  return token;
}

bool is_id(const std::string& text) {
  constexpr std::size_t length_max = 64;
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
  };
  return !text.empty() && text.size() <= length_max && std::all_of(text.begin(), text.end(), plain);
}

}  // namespace

std::string Range::describe() const {
  const bool bounded_above = std::isfinite(max);
  if (std::isfinite(above)) {
    return "above " + number_text(above) + (bounded_above ? " up to " + number_text(max) : "");
  }
  if (std::isfinite(min)) {
    return bounded_above ? number_text(min) + " to " + number_text(max)
                         : number_text(min) + " or more";
  }
  return bounded_above ? "up to " + number_text(max) : "any number";
}

Reader::Reader(const Document& document, quantities::Problems& problems)
    : Reader(document.file, document.root, "", problems) {}

Reader::Reader(const std::string& file, const Value& value, std::string pointer,
               quantities::Problems& problems)
    : file_(&file), value_(&value), pointer_(std::move(pointer)), problems_(&problems) {}

quantities::Place Reader::place() const { return {*file_, value_->line(), pointer_}; }

Reader Reader::child(std::string_view key, const Value& value) const {
  return {*file_, value, pointer_ + '/' + pointer_token(key), *problems_};
}

void Reader::complain(std::string message, std::string accepted,
                      std::optional<std::string> found) const {
  constexpr std::size_t container_size_max = 8;
  if (!found) {
    const auto* elements = value_->array_elements();
    const auto* members = value_->object_members();
    const bool large = (elements != nullptr && elements->size() > container_size_max) ||
                       (members != nullptr && members->size() > container_size_max);
    found = large ? std::string(value_->kind_name()) : quantities::excerpt(to_line(*value_));
  }
  problems_->push_back({std::move(message), place(), std::move(*found), std::move(accepted)});
}

void Reader::accept_only(std::initializer_list<std::string_view> keys) const {
  const auto* members = value_->object_members();
  if (members == nullptr) {
    complain("wrong kind of value", "an object");
    return;
  }
  for (const auto& [key, value] : *members) {
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) {
      continue;
    }
    const auto nearest = quantities::nearest_spelling(key, {keys.begin(), keys.end()});
    std::string accepted = nearest ? "did you mean \"" + *nearest + "\"? accepted:" : "one of";
    for (const std::string_view name : keys) {
      accepted += ' ' + std::string(name);
    }
    child(key, value).complain("unknown key", accepted, '"' + quantities::excerpt(key) + '"');
  }
}

const Value* Reader::require(std::string_view key, std::string_view kind) const {
  const Value* member = value_->find(key);
  if (member == nullptr) {
    complain("\"" + std::string(key) + "\" is missing", std::string(kind), "");
  }
  return member;
}

double Reader::as_number(const Range& range) const {
  const double* number = value_->number();
  if (number == nullptr) {
    complain("wrong kind of value", "a number, " + range.describe());
    return 0.0;
  }
  if (!range.contains(*number)) {
    complain("number out of range", range.describe());
    return std::isfinite(range.above) ? 1.0 : std::clamp(*number, range.min, range.max);
  }
  return *number;
}

std::string Reader::as_text() const {
  const std::string* text = value_->text();
  if (text == nullptr || text->empty()) {
    complain("wrong kind of value", "a text that is not empty");
    return {};
  }
  return *text;
}

double Reader::number(std::string_view key, const Range& range) const {
  const Value* member = require(key, "a number, " + range.describe());
  return member == nullptr ? 0.0 : child(key, *member).as_number(range);
}

int Reader::whole_number(std::string_view key, const Range& range) const {
  constexpr double int_max = 2147483647.0;
  const double x = number(key, range);
  if (std::trunc(x) != x || std::abs(x) > int_max) {
    child(key, *value_->find(key)).complain("not a whole number", range.describe());
    return 0;
  }
  return static_cast<int>(x);
}

std::string Reader::text(std::string_view key) const {
  const Value* member = require(key, "a text");
  return member == nullptr ? std::string() : child(key, *member).as_text();
}

std::string Reader::id(std::string_view key) const {
  const Value* member = require(key, "an id");
  if (member == nullptr) {
    return {};
  }
  const std::string* text = member->text();
  if (text == nullptr || !is_id(*text)) {
    child(key, *member).complain("not an id", "1 to 64 of a-z A-Z 0-9 - _ .");
    return {};
  }
  return *text;
}

bool Reader::boolean(std::string_view key) const {
  const Value* member = require(key, "true or false");
  return member != nullptr && optional_boolean(key, false);
}

std::optional<bool> Reader::optional_boolean(std::string_view key) const {
  const Value* member = value_->find(key);
  if (member == nullptr) {
    return std::nullopt;
  }
  if (const bool* flag = member->boolean()) {
    return *flag;
  }
  child(key, *member).complain("wrong kind of value", "true or false");
  return std::nullopt;
}

bool Reader::optional_boolean(std::string_view key, bool fallback) const {
  return optional_boolean(key).value_or(fallback);
}

std::optional<int> Reader::optional_whole_number(std::string_view key, const Range& range) const {
  return has(key) ? std::optional(whole_number(key, range)) : std::nullopt;
}

std::vector<std::string> Reader::texts(std::string_view key) const {
  std::vector<std::string> list;
  for_each(key, [&](const Reader& element) { list.push_back(element.as_text()); });
  return list;
}

std::vector<std::string> Reader::optional_texts(std::string_view key) const {
  return has(key) ? texts(key) : std::vector<std::string>();
}

std::vector<std::string> Reader::condition_words(std::string_view key) const {
  std::vector<std::string> words = optional_texts(key);
  const Value* list = value_->find(key);
  if (words.empty() && list != nullptr && list->array_elements() != nullptr) {
    child(key, *list).complain("an empty list", "at least one word; leave it out for any", "[]");
  }
  return words;
}

std::vector<double> Reader::numbers(std::string_view key, const Range& range) const {
  std::vector<double> list;
  for_each(key, [&](const Reader& element) { list.push_back(element.as_number(range)); });
  return list;
}

std::size_t Reader::one_of(std::string_view key,
                           std::initializer_list<std::string_view> words) const {
  std::string accepted;
  for (const std::string_view word : words) {
    accepted += (accepted.empty() ? "" : ", ") + std::string(word);
  }
  const Value* member = require(key, accepted);
  if (member == nullptr) {
    return 0;
  }
  const std::string* text = member->text();
  const auto found = text == nullptr ? words.end() : std::find(words.begin(), words.end(), *text);
  if (found == words.end()) {
    child(key, *member).complain("unknown word", accepted);
    return 0;
  }
  return static_cast<std::size_t>(found - words.begin());
}

std::optional<double> Reader::optional_number(std::string_view key, const Range& range) const {
  const Value* member = value_->find(key);
  if (member == nullptr || member->is_null()) {
    return std::nullopt;
  }
  return child(key, *member).as_number(range);
}

std::optional<std::string> Reader::optional_text(std::string_view key) const {
  const Value* member = value_->find(key);
  if (member == nullptr || member->is_null()) {
    return std::nullopt;
  }
  if (const std::string* text = member->text()) {
    return *text;
  }
  child(key, *member).complain("wrong kind of value", "a text");
  return std::nullopt;
}

Reader Reader::object(std::string_view key) const {
  const Value* member = require(key, "an object");
  if (member == nullptr) {
    return child(key, empty_object());
  }
  if (member->object_members() == nullptr) {
    child(key, *member).complain("wrong kind of value", "an object");
    return child(key, empty_object());
  }
  return child(key, *member);
}

std::optional<Reader> Reader::optional_member(std::string_view key) const {
  const Value* member = value_->find(key);
  return member == nullptr ? std::nullopt : std::optional<Reader>(child(key, *member));
}

void Reader::for_each(std::string_view key, const std::function<void(const Reader&)>& visit) const {
  if (const Value* member = require(key, "an array")) {
    child(key, *member).for_each_element(visit);
  }
}

void Reader::for_each_optional(std::string_view key,
                               const std::function<void(const Reader&)>& visit) const {
  if (has(key)) {
    for_each(key, visit);
  }
}

void Reader::for_each_element(const std::function<void(const Reader&)>& visit) const {
  const auto* elements = value_->array_elements();
  if (elements == nullptr) {
    complain("wrong kind of value", "an array");
    return;
  }
  for (std::size_t i = 0; i < elements->size(); ++i) {
    visit(child(std::to_string(i), (*elements)[i]));
  }
}

void Reader::for_each_member(
    const std::function<void(const std::string&, const Reader&)>& visit) const {
  const auto* members = value_->object_members();
  if (members == nullptr) {
    complain("wrong kind of value", "an object");
    return;
  }
  for (const auto& [key, value] : *members) {
    visit(key, child(key, value));
  }
}

}  // namespace dryout::documents
