// Work that may be given up. Whoever waits for it holds a Patience, sees how far the work is, and
// may say that it is over; the work itself rests between its pieces, and ends there when it is.
// How deep the work lies need not be known to anybody in between.
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <exception>

namespace dryout::quantities {

/// Between two threads; every member may be called from either.
class Patience {
 public:
  using Clock = std::chrono::steady_clock;
  explicit Patience(std::chrono::milliseconds longest) : until_(Clock::now() + longest) {}

  void end() { ended_ = true; }
  [[nodiscard]] bool ended() const { return ended_; }
  [[nodiscard]] bool is_over() const { return ended_ || Clock::now() > until_; }

  /// How far: pieces done of all that are known of; 0 of 0 = nothing is known of it.
  void reach(std::size_t done, std::size_t all) {
    done_ = done;
    all_ = all;
  }
  [[nodiscard]] std::size_t done() const { return done_; }
  [[nodiscard]] std::size_t all() const { return all_; }

 private:
  Clock::time_point until_;
  std::atomic<bool> ended_{false};
  std::atomic<std::size_t> done_{0}, all_{0};
};

/// Thrown where work ends because nobody waits for it any longer. Nothing it had begun is kept.
class GivenUp : public std::exception {
 public:
  [[nodiscard]] const char* what() const noexcept override { return "given up"; }
};

/// While it lives, the work of this thread heeds a patience, which must outlive it.
class HeedPatience {
 public:
  explicit HeedPatience(Patience& patience);
  ~HeedPatience();
  HeedPatience(const HeedPatience&) = delete;
  HeedPatience& operator=(const HeedPatience&) = delete;

 private:
  Patience* before_;
};

/// Between two pieces of work, `done` of `all` in hand: throws GivenUp where patience is over. Does
/// nothing where nobody's patience is heeded.
void rest(std::size_t done, std::size_t all);
/// The same where nobody knows how many there are.
void rest();

}  // namespace dryout::quantities
