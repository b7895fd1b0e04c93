#include <cstdint>

#include "casework/check_command.h"
#include "casework/command_members.h"

namespace dryout::casework {
namespace {

using quantities::Problems;

constexpr std::size_t bytes_max = 10'000;

/// Bytes of the UTF-8 sequence that starts here, or 0 (RFC 3629: no overlong forms, surrogates, or
/// values above U+10FFFF).
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const std::uint8_t lead = byte(0);
  const std::size_t length = lead < 0x80   ? 1
                             : lead < 0xC2 ? 0
                             : lead < 0xE0 ? 2
                             : lead < 0xF0 ? 3
                             : lead < 0xF5 ? 4
                                           : 0;
  if (length == 0 || text.size() < length) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) {
      return 0;
    }
  }
  const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
  const bool surrogate = lead == 0xED && byte(1) >= 0xA0;
  const bool too_high = lead == 0xF4 && byte(1) >= 0x90;
  return overlong || surrogate || too_high ? 0 : length;
}

bool readable(std::string_view text) {
  while (!text.empty()) {
    const auto lead = static_cast<std::uint8_t>(text.front());
    const bool control = (lead < 0x20 && lead != '\n' && lead != '\t') || lead == 0x7F;
    const std::size_t length = sequence_length(text);
    if (control || length == 0) {
      return false;
    }
    text.remove_prefix(length);
  }
  return true;
}

class TextCheck {
 public:
  explicit TextCheck(Problems& problems) : problems_(problems) {}

  void required(const char* key, const std::string& text) {
    if (text.empty()) {
      problems_.push_back({'"' + std::string(key) + "\" is missing", {}, "", "a text"});
    }
    optional(key, text);
  }
  void optional(const char* key, const std::string& text) {
    if (text.size() > bytes_max) {
      problems_.push_back({'"' + std::string(key) + "\" is too long",
                           {},
                           std::to_string(text.size()) + " bytes",
                           "at most " + std::to_string(bytes_max)});
    } else if (!readable(text)) {
      problems_.push_back({'"' + std::string(key) + "\" cannot be read as text",
                           {},
                           quantities::excerpt(text),
                           "UTF-8 without control characters"});
    }
  }
  template <class T>
  void optional(const char* /*key*/, const std::optional<T>& /*number*/) {}
  template <class T>
  void always(const char* /*key*/, const T& /*value*/) {}
  void only_if(const char* /*key*/, bool /*flag*/) {}

 private:
  Problems& problems_;
};

}  // namespace

Problems check_texts(const Command& command) {
  Problems problems;
  TextCheck check(problems);
  std::visit([&](const auto& alternative) { visit_members(alternative, check); }, command);
  return problems;
}

}  // namespace dryout::casework
