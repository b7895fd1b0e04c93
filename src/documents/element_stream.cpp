#include "documents/element_stream.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "documents/read_text.h"

namespace dryout::documents {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

constexpr std::size_t heading_bytes_max = 1U << 20U;

bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }

class ElementStream {
 public:
  ElementStream(const std::string& path, const std::vector<std::string_view>& streamed,
                std::size_t element_bytes_max, const VisitElement& visit)
      : path_(path),
        streamed_(streamed),
        element_bytes_max_(element_bytes_max),
        visit_(visit),
        stream_(path, std::ios::binary),
        chunk_(1U << 16U, '\0') {}

  Result<Document> walk() {
    if (!take('{')) {
      return wrong("no JSON object", "a case file of this program");
    }
    std::string heading = "{";
    for (bool more = !take('}'); more;) {
      std::string key;
      if (peek() != '"' || !take_value(key, heading_bytes_max) || !take(':')) {
        return wrong("a member without its name", "\"name\": value");
      }
      const auto is_key = [&](std::string_view name) {
        return key.size() == name.size() + 2 && key.compare(1, name.size(), name) == 0;
      };
      const auto array = std::find_if(streamed_.begin(), streamed_.end(), is_key);
      if (array != streamed_.end() && peek() == '[') {
        if (std::find(seen_.begin(), seen_.end(), *array) != seen_.end()) {
          return wrong("a member that stands twice", "each member once");
        }
        seen_.push_back(*array);
        if (auto visited = walk_array(*array); !visited) {
          return visited.problems();
        }
      } else {
        std::string value;
        const bool taken = take_value(value, heading_bytes_max);
        heading += heading.size() > 1 ? "," : "";
        heading.append(key).append(":").append(value);
        if (!taken || heading.size() > heading_bytes_max) {
          return wrong("a member that is cut short or too large",
                       "at most a megabyte of members "
                       "beside the cases");
        }
      }
      more = take(',');
      if (!more && !take('}')) {
        return wrong("a file cut short, or no comma between its members", "a whole file");
      }
    }
    if (peek() != end_of_file) {
      return wrong("text behind the end", "nothing behind the closing brace");
    }
    return parse(heading + '}', path_, {.bytes_max = 2 * heading_bytes_max});
  }

 private:
  static constexpr int end_of_file = -1;

  int look() {
    if (at_ == filled_) {
      stream_.read(chunk_.data(), static_cast<std::streamsize>(chunk_.size()));
      filled_ = static_cast<std::size_t>(stream_.gcount());
      at_ = 0;
    }
    return at_ < filled_ ? static_cast<unsigned char>(chunk_[at_]) : end_of_file;
  }
  char pass() {
    const char c = chunk_[at_++];
    line_ += c == '\n' ? 1 : 0;
    return c;
  }
  int peek() {
    int c = look();
    while (c != end_of_file && is_blank(static_cast<char>(c))) {
      pass();
      c = look();
    }
    return c;
  }
  bool take(char wanted) {
    const bool there = peek() == wanted;
    if (there) {
      pass();
    }
    return there;
  }

  /// One value up to its end: a text to its quote, an object or array to its last bracket, anything
  /// else to what parts it from the next. False where the file ends before, or it is too large.
  bool take_value(std::string& value, std::size_t bytes_max) {
    int depth = 0;
    bool in_text = false;
    for (int next = peek(); next != end_of_file && value.size() <= bytes_max; next = look()) {
      const char c = static_cast<char>(next);
      const bool closes = c == '}' || c == ']';
      if (!in_text && depth == 0 && !value.empty() && (c == ',' || closes || is_blank(c))) {
        return true;
      }
      value += pass();
      if (in_text) {
        if (c == '\\' && look() != end_of_file) {
          value += pass();
        } else if (c == '"') {
          in_text = false;
          if (depth == 0) {
            return true;
          }
        }
      } else if (c == '"') {
        in_text = true;
      } else if (c == '{' || c == '[') {
        ++depth;
      } else if (closes && --depth <= 0) {
        return depth == 0;
      }
    }
    return false;
  }

  Result<Done> walk_array(std::string_view key) {
    (void)take('[');
    std::string text;
    for (std::size_t index = 0;; ++index) {
      if (index == 0 && take(']')) {
        return Done{};
      }
      text.clear();
      (void)peek();
      const int line = line_;
      if (!take_value(text, element_bytes_max_)) {
        const bool large = text.size() > element_bytes_max_;
        return large ? too_large_at(line) : wrong("a file cut short", "a whole file");
      }
      if (auto visited = visit_({key, index, line, text}); !visited) {
        return visited;
      }
      if (take(']')) {
        return Done{};
      }
      if (!take(',')) {
        return wrong("a file cut short, or no comma between its elements", "a whole file");
      }
    }
  }

  Problem too_large_at(int line) {
    Problem problem = too_large(path_, element_bytes_max_ + 1, element_bytes_max_);
    problem.message = "an element that is too large";
    problem.place.line = line;
    return problem;
  }
  Problem wrong(std::string message, std::string accepted) {
    const int next = look();
    return {std::move(message),
            {path_, line_, {}},
            next == end_of_file ? "the end of the file"
                                : quantities::excerpt(std::string(1, static_cast<char>(next))),
            std::move(accepted)};
  }

  const std::string& path_;
  const std::vector<std::string_view>& streamed_;
  std::size_t element_bytes_max_;
  const VisitElement& visit_;
  std::ifstream stream_;
  std::string chunk_;
  std::size_t at_ = 0, filled_ = 0;
  int line_ = 1;
  std::vector<std::string_view> seen_;
};

}  // namespace

Result<Document> stream_elements(const std::string& path,
                                 const std::vector<std::string_view>& streamed,
                                 std::size_t element_bytes_max, const VisitElement& visit) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error) || !std::ifstream(path)) {
    return Problem{"cannot be read", {path, 0, {}}, "", "a readable file on a disk"};
  }
  return ElementStream(path, streamed, element_bytes_max, visit).walk();
}

}  // namespace dryout::documents
