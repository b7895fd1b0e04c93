// Walking a document while collecting every complaint. A Reader stands on one value, knows its JSON
// pointer, and answers typed questions about its members; what does not fit becomes a Problem in
// the shared list and a harmless fallback value, so that one pass finds all faults of a file.
//
//   Problems problems;
//   Reader root(document, problems);
//   root.accept_only({"frequency_Hz", "elements"});
//   Hertz f(root.number("frequency_Hz", {.above = 0.0}));
//   root.for_each("elements", [&](Reader element) { ... });
//   if (!problems.empty()) return problems;
#pragma once

#include <functional>
#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "documents/parse.h"
#include "quantities/problem.h"

namespace dryout::documents {

/// Which numbers are accepted: min <= x <= max, and x > above. The default takes any finite number.
struct Range {
  double min = -std::numeric_limits<double>::infinity();
  double max = std::numeric_limits<double>::infinity();
  double above = -std::numeric_limits<double>::infinity();
  [[nodiscard]] bool contains(double x) const { return x >= min && x <= max && x > above; }
  [[nodiscard]] std::string describe() const;  ///< "0 to 1", "above 0"
};
inline constexpr Range any_probability{.min = 0.0, .max = 1.0};
inline constexpr Range positive{.above = 0.0};
inline constexpr Range non_negative{.min = 0.0};

class Reader {
 public:
  /// Stands on the document's root. Both arguments must outlive the reader and its children.
  Reader(const Document& document, quantities::Problems& problems);

  [[nodiscard]] const Value& value() const { return *value_; }
  [[nodiscard]] const std::string& pointer() const { return pointer_; }
  [[nodiscard]] quantities::Place place() const;
  [[nodiscard]] bool has(std::string_view key) const { return value_->find(key) != nullptr; }

  /// Complains unless this is an object, and about every member not named here (with the nearest
  /// accepted spelling as a hint).
  void accept_only(std::initializer_list<std::string_view> keys) const;

  /// Required members. A missing member or a wrong kind is a problem; the fallback is 0, "", false.
  [[nodiscard]] double number(std::string_view key, const Range& range = {}) const;
  [[nodiscard]] int whole_number(std::string_view key, const Range& range = {}) const;
  [[nodiscard]] std::string text(std::string_view key) const;  ///< refuses ""
  [[nodiscard]] std::string id(std::string_view key) const;    ///< a-z A-Z 0-9 - _ . up to 64
  [[nodiscard]] bool boolean(std::string_view key) const;
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
  [[nodiscard]] std::vector<double> numbers(std::string_view key, const Range& range = {}) const;
  /// One of a closed list of words; the index in the list (0 after a problem).
  [[nodiscard]] std::size_t one_of(std::string_view key,
                                   std::initializer_list<std::string_view> words) const;

  /// Optional members: nothing where absent or null, a problem where of the wrong kind.
  [[nodiscard]] std::optional<double> optional_number(std::string_view key,
                                                      const Range& range = {}) const;
  [[nodiscard]] std::optional<std::string> optional_text(std::string_view key) const;
  [[nodiscard]] std::vector<std::string> optional_texts(std::string_view key) const;
  [[nodiscard]] bool optional_boolean(std::string_view key, bool fallback) const;
  [[nodiscard]] std::optional<bool> optional_boolean(std::string_view key) const;
  [[nodiscard]] std::optional<int> optional_whole_number(std::string_view key,
                                                         const Range& range = {}) const;
  /// The words of a condition, which takes any where it is absent. An empty list is refused: it
  /// would take any as well, and reads as if it took none.
  [[nodiscard]] std::vector<std::string> condition_words(std::string_view key) const;

  /// A required object member to stand on; after a problem, a reader on an empty object.
  [[nodiscard]] Reader object(std::string_view key) const;
  [[nodiscard]] std::optional<Reader> optional_member(std::string_view key) const;
  /// Visits the elements of a required (or optional) array member.
  void for_each(std::string_view key, const std::function<void(const Reader&)>& visit) const;
  void for_each_optional(std::string_view key,
                         const std::function<void(const Reader&)>& visit) const;
  /// Visits this value's own elements or members.
  void for_each_element(const std::function<void(const Reader&)>& visit) const;
  void for_each_member(
      const std::function<void(const std::string& key, const Reader&)>& visit) const;

  /// This value itself as a number or a text.
  [[nodiscard]] double as_number(const Range& range = {}) const;
  [[nodiscard]] std::string as_text() const;

  /// Adds a problem at this place; `found` is this value, shortened, unless given.
  void complain(std::string message, std::string accepted,
                std::optional<std::string> found = {}) const;

 private:
  Reader(const std::string& file, const Value& value, std::string pointer,
         quantities::Problems& problems);
  [[nodiscard]] Reader child(std::string_view key, const Value& value) const;
  [[nodiscard]] const Value* require(std::string_view key, std::string_view kind) const;

  const std::string* file_;
  const Value* value_;
  std::string pointer_;
  quantities::Problems* problems_;
};

}  // namespace dryout::documents
