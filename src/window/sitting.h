// Who sits at this store just now: each open window keeps a file of its own beside the store,
// locked as long as it lives. A file that nobody holds any more is what is left of a window that
// ended without being closed: the next one says so, and what became of the work.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/drafts.h"

namespace dryout::window {

class Sitting {
 public:
  /// `folder` is where the store lies; "" = a store in memory, where nobody else can sit.
  /// `store` is its file name.
  explicit Sitting(const std::string& folder, const std::string& store = "");
  ~Sitting();
  Sitting(const Sitting&) = delete;
  Sitting& operator=(const Sitting&) = delete;

  /// What the person should know on sitting down, or "".
  [[nodiscard]] const std::string& word() const { return word_; }
  /// What those who sat here before had typed and not entered.
  [[nodiscard]] const casework::Drafts& left() const { return left_; }
  /// Keeps what is typed and not entered, in a file for its owner alone; "" kept nothing.
  void keep(const std::map<std::int64_t, casework::TypedText>& typed);

 private:
  void look_around(const std::string& folder);
  void sit_down(const std::string& folder);
  /// Reads what a window left behind; false where it sat at another store.
  bool take_over(const std::string& path, bool& closed);
  bool write(const casework::Drafts& drafts);

  std::string path_, word_;
  std::vector<std::string> taken_over_;  ///< files of windows that are gone, until kept here
  casework::Drafts kept_, left_;
  int file_ = -1;
};

}  // namespace dryout::window
