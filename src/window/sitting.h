// Who sits at this store just now: each open window keeps a file of its own beside the store,
// locked as long as it lives. A file that nobody holds any more is what is left of a window that
// ended without being closed: the next one says so, and what became of the work.
#pragma once

#include <string>

namespace dryout::window {

class Sitting {
 public:
  /// `folder` is where the store lies; "" = a store in memory, where nobody else can sit.
  explicit Sitting(const std::string& folder);
  ~Sitting();
  Sitting(const Sitting&) = delete;
  Sitting& operator=(const Sitting&) = delete;

  /// What the person should know on sitting down, or "".
  [[nodiscard]] const std::string& word() const { return word_; }

 private:
  void look_around(const std::string& folder);
  void sit_down(const std::string& folder);

  std::string path_, word_;
  int file_ = -1;
};

}  // namespace dryout::window
