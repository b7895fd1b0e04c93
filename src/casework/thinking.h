// Thinks about cases on a thread of its own, so that nobody who draws or listens stands still. It
// works on copies (Workshop::copy_of): the store is never touched from here. What is asked about
// figures puts an end to everything asked before; answers to that are never given.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <variant>
#include <vector>

#include "casework/workshop.h"
#include "quantities/patience.h"

namespace dryout::casework {

/// What can be asked of a case.
struct AskFigures {};
struct AskMending {
  double horizon_years = 0.0;
};
struct AskPlan {
  int depth = 1;
};
struct AskChange {
  std::vector<Command> commands;  ///< if these were done
};
using Question = std::variant<AskFigures, AskMending, AskPlan, AskChange>;

/// An answer, in the alternative of its question. Given up, or longer than allowed: the figures are
/// answered by the case without figures, anything else by a problem.
struct ThoughtOut {
  std::int64_t number = 0;
  Question question;
  std::variant<quantities::Result<CaseView>, quantities::Result<MendingView>,
               quantities::Result<PlanStep>, quantities::Result<WhatIfView>>
      answer;
};

/// How far the thinking at work is; 0 of 0 where nobody knows.
struct ThinkingProgress {
  Question question;
  std::size_t done = 0, all = 0;
};

class Thinking {
 public:
  /// Longer than that nothing is thought about.
  static constexpr std::chrono::milliseconds usual_limit = std::chrono::minutes(2);

  /// `wake` is called on the thinking thread whenever an answer came.
  explicit Thinking(std::function<void()> wake, std::chrono::milliseconds limit = usual_limit);
  /// Gives up what is at work.
  ~Thinking();
  Thinking(const Thinking&) = delete;
  Thinking& operator=(const Thinking&) = delete;

  /// Asks about the case as it now is in the store. Of questions of one kind the newest counts.
  [[nodiscard]] quantities::Result<quantities::Done> ask(const Workshop& workshop,
                                                         std::int64_t number, Question question);
  /// The answers that came since last asked, in the order of their questions.
  [[nodiscard]] std::vector<ThoughtOut> take();
  /// Until nothing is at work, or so long; whether nothing is.
  bool wait_at_most(std::chrono::milliseconds longest);
  /// Ends what is at work, or next: it is answered without.
  void give_up();
  /// Ends everything, unanswered.
  void forget();
  /// Nothing where nothing is at work.
  [[nodiscard]] std::optional<ThinkingProgress> progress();

 private:
  struct Job;

  void work();
  [[nodiscard]] static ThoughtOut answer(const Job& job);
  [[nodiscard]] static ThoughtOut without_answer(const Job& job, const std::string& why);
  static void hand_on_word(const Job& unanswered, Job& job);
  void drop(const Question* kind);
  void drop_old_minds();

  std::function<void()> wake_;
  std::chrono::milliseconds limit_;
  /// The newest is the next job's; older ones go when no job has them any more.
  std::vector<std::unique_ptr<Workshop>> minds_;
  const Workshop* mind_of_ = nullptr;
  int edition_ = 0;  ///< of what it knows

  std::mutex mutex_;
  std::condition_variable changed_;
  bool ends_ = false;
  std::deque<std::unique_ptr<Job>> waiting_;
  std::unique_ptr<Job> at_work_;  ///< put there and taken away by the thread alone
  std::vector<ThoughtOut> answers_;
  std::thread thread_;  // last: it uses all of the above
};

}  // namespace dryout::casework
