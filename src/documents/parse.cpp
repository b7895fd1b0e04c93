#include "documents/parse.h"

#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "documents/read_text.h"
#include "quantities/check.h"

namespace dryout::documents {
namespace {

using quantities::Problem;
using quantities::Result;

struct Position {
  int line = 1;
  char last = '\0';  ///< the character read last
};

/// A forward walk over the text that counts lines, so that every value knows where it ended.
class LineCounter {
 public:
  using difference_type = std::ptrdiff_t;
  using value_type = char;
  using pointer = const char*;
  using reference = const char&;
  using iterator_category = std::input_iterator_tag;

  LineCounter(const char* at, Position* position) : at_(at), position_(position) {}
  reference operator*() const { return *at_; }
  LineCounter& operator++() {
    position_->last = *at_;
    if (*at_ == '\n') {
      ++position_->line;
    }
    ++at_;
    return *this;
  }
  friend bool operator!=(const LineCounter& a, const LineCounter& b) { return a.at_ != b.at_; }

 private:
  const char* at_;
  Position* position_;
};

/// Receives the parser's events and builds the tree; stops at the first thing that is refused.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
 public:
  TreeBuilder(const std::string& file, const Position& position, const Limits& limits)
      : file_(file), position_(position), limits_(limits) {}

  [[nodiscard]] Value take_root() { return std::move(root_); }
  [[nodiscard]] const std::optional<Problem>& problem() const { return problem_; }

  bool null() override { return add(Value()); }
  bool boolean(bool value) override { return add(Value(value)); }
  bool number_integer(number_integer_t value) override {
    return add_number(static_cast<double>(value));
  }
  bool number_unsigned(number_unsigned_t value) override {
    return add_number(static_cast<double>(value));
  }
  bool number_float(number_float_t value, const string_t& text) override {
    if (!std::isfinite(value)) {
      return refuse("number too large", quantities::excerpt(text), "a finite number");
    }
    return add_number(value);
  }
  bool string(string_t& text) override { return add(Value(std::move(text))); }
  bool binary(binary_t&) override { return refuse("binary data", "", "JSON text"); }

  bool start_object(std::size_t) override { return open(Value(Value::Object{})); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(Value(Value::Array{})); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    Level& level = levels_.back();
    if (!level.keys.insert(name).second) {
      return refuse("the same key stands twice in one object",
                    '"' + quantities::excerpt(name) + '"', "each key once");
    }
    level.key = std::move(name);
    return true;
  }

  bool parse_error(std::size_t, const std::string& last_token,
                   const nlohmann::json::exception& error) override {
    const std::string what = error.what();
    const std::size_t reason = what.rfind(": ");
    return refuse(
        "not valid JSON (" +
            quantities::excerpt(reason == std::string::npos ? what : what.substr(reason + 2), 120) +
            ')',
        '"' + quantities::excerpt(last_token, 30) + '"', "JSON text in UTF-8 (RFC 8259)");
  }

 private:
  struct Level {
    Value value;
    std::set<std::string> keys;
    std::string key;
  };

  bool add_number(double number) {
    // The lexer reads one character past a number; a line break there is not the number's own.
    Value value(number);
    value.set_line(position_.line - (position_.last == '\n' ? 1 : 0));
    return add(std::move(value));
  }

  bool add(Value value) {
    if (value.line() == 0) {
      value.set_line(position_.line);
    }
    if (levels_.empty()) {
      root_ = std::move(value);
      return true;
    }
    Level& level = levels_.back();
    if (level.value.object_members() != nullptr) {
      level.value.set(std::move(level.key), std::move(value));
    } else {
      level.value.append(std::move(value));
    }
    return true;
  }

  bool open(Value container) {
    if (static_cast<int>(levels_.size()) >= limits_.depth_max) {
      return refuse("nested too deeply", std::to_string(levels_.size() + 1) + " levels",
                    "at most " + std::to_string(limits_.depth_max));
    }
    container.set_line(position_.line);
    levels_.push_back({std::move(container), {}, {}});
    return true;
  }

  bool close() {
    Value value = std::move(levels_.back().value);
    levels_.pop_back();
    return add(std::move(value));
  }

  bool refuse(std::string message, std::string found, std::string accepted) {
    if (!problem_) {
      problem_ = Problem{
          std::move(message), {file_, position_.line, {}}, std::move(found), std::move(accepted)};
    }
    return false;
  }

  const std::string& file_;
  const Position& position_;
  const Limits& limits_;
  Value root_;
  std::vector<Level> levels_;
  std::optional<Problem> problem_;
};

nlohmann::ordered_json to_library(const Value& value) {
  if (const bool* flag = value.boolean()) {
    return *flag;
  }
  if (const double* number = value.number()) {
    CHECK(std::isfinite(*number));
    constexpr double exact_max = 9007199254740992.0;  // 2^53
    const bool whole = std::abs(*number) <= exact_max && std::trunc(*number) == *number;
    return whole ? nlohmann::ordered_json(static_cast<std::int64_t>(*number))
                 : nlohmann::ordered_json(*number);
  }
  if (const std::string* text = value.text()) {
    return *text;
  }
  if (const Value::Array* elements = value.array_elements()) {
    auto list = nlohmann::ordered_json::array();
    for (const Value& element : *elements) {
      list.push_back(to_library(element));
    }
    return list;
  }
  if (const Value::Object* members = value.object_members()) {
    auto object = nlohmann::ordered_json::object();
    for (const auto& [key, member] : *members) {
      object.emplace(key, to_library(member));
    }
    return object;
  }
  return nullptr;
}

std::string dump(const Value& value, int indent) {
  // Text that is not UTF-8 (a file name, say) must not stop the writing of everything else.
  return to_library(value).dump(indent, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace

Result<Document> parse(std::string_view text, std::string file, const Limits& limits) {
  if (text.size() > limits.bytes_max) {
    return too_large(file, text.size(), limits.bytes_max);
  }
  Position position;
  TreeBuilder builder(file, position, limits);
  const LineCounter begin(text.data(), &position);
  const LineCounter end(text.data() + text.size(), &position);
  const bool done = nlohmann::json::sax_parse(begin, end, &builder);
  if (!done) {
    CHECK(builder.problem().has_value());
    return *builder.problem();
  }
  return Document{std::move(file), builder.take_root()};
}

Result<Document> read_file(const std::string& path, const Limits& limits) {
  const auto text = read_text(path, "a readable JSON file", limits.bytes_max);
  if (!text) {
    return text.problems();
  }
  return parse(*text, path, limits);
}

std::string to_text(const Value& value) { return dump(value, 2) + '\n'; }
std::string to_line(const Value& value) { return dump(value, -1); }

}  // namespace dryout::documents
