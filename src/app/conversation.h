// Asking one question after the other on a terminal. Every answer is a line; the end of the input
// ends the conversation, which loses nothing: all that was acknowledged is in the store.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/terminal.h"

namespace dryout::app {

class Conversation {
 public:
  explicit Conversation(const Terminal& terminal) : terminal_(terminal) {}

  [[nodiscard]] std::ostream& out() const { return terminal_.out; }
  /// The answer without surrounding blanks; nothing at the end of the input.
  [[nodiscard]] std::optional<std::string> ask(const std::string& question) const;
  /// Lets one of the choices be picked by number, or narrows the list by words; nothing where the
  /// answer is empty or the input ends. `marks` are the words searched, parallel to `choices`.
  [[nodiscard]] std::optional<std::size_t> pick(const std::string& question,
                                                const std::vector<std::string>& choices,
                                                const std::vector<std::string>& marks) const;

 private:
  void show(const std::vector<std::string>& choices, const std::vector<std::size_t>& shown) const;
  const Terminal& terminal_;
};

/// Every word of `words` stands somewhere in `text`, whatever the case.
[[nodiscard]] bool holds_words(const std::string& text, const std::string& words);

}  // namespace dryout::app
