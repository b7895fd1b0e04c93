// A JSON document as a plain value that remembers on which line each part stood, so that a
// complaint can name it. Objects keep the order of their members; writing what was read gives the
// same order back. Numbers are doubles: every integer up to 2^53 is exact.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace dryout::documents {

class Value {
 public:
  using Array = std::vector<Value>;
  using Member = std::pair<std::string, Value>;
  using Object = std::vector<Member>;

  Value() = default;                                                  ///< null
  Value(bool value) : content_(value) {}                              // NOLINT: implicit on purpose
  Value(double value) : content_(value) {}                            // NOLINT
  Value(int value) : content_(static_cast<double>(value)) {}          // NOLINT
  Value(long value) : content_(static_cast<double>(value)) {}         // NOLINT
  Value(std::size_t value) : content_(static_cast<double>(value)) {}  // NOLINT
  Value(const char* text) : content_(std::string(text)) {}            // NOLINT
  Value(std::string text) : content_(std::move(text)) {}              // NOLINT
  Value(std::string_view text) : content_(std::string(text)) {}       // NOLINT
  Value(Array elements) : content_(std::move(elements)) {}            // NOLINT
  Value(Object members) : content_(std::move(members)) {}             // NOLINT

  /// object({{"id", "C1"}, {"posterior", 0.3}})
  static Value object(std::initializer_list<Member> members = {}) { return {Object(members)}; }
  static Value array(std::initializer_list<Value> elements = {}) { return {Array(elements)}; }

  [[nodiscard]] bool is_null() const { return std::holds_alternative<std::monostate>(content_); }
  [[nodiscard]] const bool* boolean() const { return std::get_if<bool>(&content_); }
  [[nodiscard]] const double* number() const { return std::get_if<double>(&content_); }
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&content_); }
  [[nodiscard]] const Array* array_elements() const { return std::get_if<Array>(&content_); }
  [[nodiscard]] const Object* object_members() const { return std::get_if<Object>(&content_); }

  /// The member of that name, or null where this is no object or has no such member.
  [[nodiscard]] const Value* find(std::string_view key) const;

  /// Adds a member at the end (this must be an object) or an element (an array); returns *this.
  Value& set(std::string key, Value value);
  Value& append(Value value);

  /// "a number", "an object": for complaints.
  [[nodiscard]] std::string_view kind_name() const;

  [[nodiscard]] int line() const { return line_; }
  void set_line(int line) { line_ = line; }

  /// Same content; lines do not count.
  friend bool operator==(const Value& a, const Value& b) { return a.content_ == b.content_; }

 private:
  std::variant<std::monostate, bool, double, std::string, Array, Object> content_;
  int line_ = 0;
};

}  // namespace dryout::documents
