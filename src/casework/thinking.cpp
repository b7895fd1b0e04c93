#include "casework/thinking.h"

#include <algorithm>
#include <string>
#include <utility>

#include "casework/workshop_inside.h"

namespace dryout::casework {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

std::string why_ended(const quantities::Patience& patience) {
  return patience.ended() ? "working them out was given up; the next step tries anew"
                          : "working them out took longer than is allowed; with fewer observations "
                            "it goes faster";
}

}  // namespace

struct Thinking::Job {
  Workshop* mind = nullptr;
  std::unique_ptr<const CaseCopy> copy;
  Question question;
  std::unique_ptr<quantities::Patience> patience = {};  ///< once it is at work
  bool dropped = false;
  bool given_up = false;
};

Thinking::Thinking(std::function<void()> wake, std::chrono::milliseconds limit)
    : wake_(std::move(wake)), limit_(limit), thread_([this] { work(); }) {}

Thinking::~Thinking() {
  forget();
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

Result<Done> Thinking::ask(const Workshop& workshop, std::int64_t number, Question question) {
  auto copy = workshop.copy_of(number);
  if (!copy) {
    return copy.problems();
  }
  if (minds_.empty() || mind_of_ != &workshop || edition_ != workshop.edition()) {
    auto mind = workshop.beside_to_think();
    if (!mind) {
      return mind.problems();
    }
    minds_.push_back(std::move(*mind));
    mind_of_ = &workshop;
    edition_ = workshop.edition();
  }
  const bool of_figures = std::holds_alternative<AskFigures>(question);
  auto job = std::make_unique<Job>(Job{minds_.back().get(), std::move(*copy), std::move(question)});
  {
    const std::lock_guard lock(mutex_);
    for (const auto& unanswered : waiting_) {
      hand_on_word(*unanswered, *job);
    }
    if (at_work_ != nullptr) {
      hand_on_word(*at_work_, *job);
    }
    drop(of_figures ? nullptr : &job->question);
    waiting_.push_back(std::move(job));
    drop_old_minds();
  }
  changed_.notify_all();
  return Done{};
}

/// What became of the case is told with its figures, even where the first to ask gets no answer.
void Thinking::hand_on_word(const Job& unanswered, Job& job) {
  const std::string& told = unanswered.copy->known.told;
  const bool told_later = std::holds_alternative<AskFigures>(job.question) &&
                          std::holds_alternative<AskFigures>(unanswered.question) &&
                          unanswered.copy->number == job.copy->number;
  if (told_later && !told.empty() && job.copy->known.told.empty()) {
    auto copy = std::make_unique<CaseCopy>(*job.copy);
    copy->known.told = told;
    job.copy = std::move(copy);
  }
}

/// The mutex is held.
void Thinking::drop_old_minds() {
  const auto uses = [](const std::unique_ptr<Job>& job, const std::unique_ptr<Workshop>& mind) {
    return job != nullptr && job->mind == mind.get();
  };
  const Workshop* const newest = minds_.back().get();
  std::erase_if(minds_, [&](const std::unique_ptr<Workshop>& mind) {
    return mind.get() != newest && !uses(at_work_, mind) &&
           std::none_of(waiting_.begin(), waiting_.end(),
                        [&](const auto& job) { return uses(job, mind); });
  });
}

/// Drops what was asked of that kind, or (null) everything. The mutex is held.
void Thinking::drop(const Question* kind) {
  const auto of_kind = [kind](const Question& other) {
    return kind == nullptr || other.index() == kind->index();
  };
  std::erase_if(waiting_, [&](const auto& job) { return of_kind(job->question); });
  std::erase_if(answers_, [&](const auto& answer) { return of_kind(answer.question); });
  if (at_work_ != nullptr && of_kind(at_work_->question)) {
    at_work_->dropped = true;
    at_work_->patience->end();
  }
}

std::vector<ThoughtOut> Thinking::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(answers_, {});
}

bool Thinking::wait_at_most(std::chrono::milliseconds longest) {
  std::unique_lock lock(mutex_);
  return changed_.wait_for(lock, longest,
                           [this] { return waiting_.empty() && at_work_ == nullptr; });
}

void Thinking::give_up() {
  const std::lock_guard lock(mutex_);
  if (at_work_ != nullptr && !at_work_->dropped) {
    at_work_->patience->end();
  } else if (!waiting_.empty()) {
    waiting_.front()->given_up = true;
  }
}

void Thinking::forget() {
  const std::lock_guard lock(mutex_);
  drop(nullptr);
}

std::optional<ThinkingProgress> Thinking::progress() {
  const std::lock_guard lock(mutex_);
  if (at_work_ != nullptr && !at_work_->dropped) {
    return ThinkingProgress{at_work_->question, at_work_->patience->done(),
                            at_work_->patience->all()};
  }
  return waiting_.empty() ? std::nullopt
                          : std::optional(ThinkingProgress{waiting_.front()->question, 0, 0});
}

void Thinking::work() {
  for (;;) {
    Job* job = nullptr;
    {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [this] { return ends_ || !waiting_.empty(); });
      if (ends_) {
        return;
      }
      at_work_ = std::move(waiting_.front());
      waiting_.pop_front();
      job = at_work_.get();
      job->patience = std::make_unique<quantities::Patience>(limit_);
      if (job->given_up) {
        job->patience->end();
      }
    }
    ThoughtOut thought = answer(*job);
    {
      const std::lock_guard lock(mutex_);
      if (!job->dropped) {
        answers_.push_back(std::move(thought));
      }
      at_work_.reset();
    }
    changed_.notify_all();
    wake_();
  }
}

ThoughtOut Thinking::answer(const Job& job) {
  const CaseCopy& copy = *job.copy;
  ThoughtOut thought{copy.number, job.question, Result<CaseView>(Problem{"", {}, "", ""})};
  const quantities::HeedPatience heeding(*job.patience);
  try {
    if (std::holds_alternative<AskFigures>(job.question)) {
      thought.answer = job.mind->view(copy);
    } else if (const auto* mending = std::get_if<AskMending>(&job.question)) {
      thought.answer = job.mind->mending(copy, mending->horizon_years);
    } else if (const auto* plan = std::get_if<AskPlan>(&job.question)) {
      thought.answer = job.mind->plan_ahead(copy, plan->depth);
    } else {
      thought.answer = job.mind->what_if(copy, std::get<AskChange>(job.question).commands);
    }
  } catch (const quantities::GivenUp&) {
    return without_answer(job, why_ended(*job.patience));
  } catch (const std::exception& fault) {  // ours, or memory: it costs this answer
    return without_answer(job, fault.what());
  }
  return thought;
}

ThoughtOut Thinking::without_answer(const Job& job, const std::string& why) {
  ThoughtOut thought{job.copy->number, job.question, Result<CaseView>(Problem{why, {}, "", ""})};
  const Problem none{"this was not worked out: " + why, {}, "", ""};
  if (std::holds_alternative<AskMending>(job.question)) {
    thought.answer = Result<MendingView>(none);
  } else if (std::holds_alternative<AskPlan>(job.question)) {
    thought.answer = Result<PlanStep>(none);
  } else if (std::holds_alternative<AskChange>(job.question)) {
    thought.answer = Result<WhatIfView>(none);
  } else {
    quantities::Patience unending(usual_limit);  // what little is left is done whatever comes
    const quantities::HeedPatience heeding(unending);
    try {
      thought.answer = job.mind->view_without_figures(*job.copy, why);
    } catch (const std::exception& fault) {
      thought.answer = Result<CaseView>(Problem{fault.what(), {}, "", ""});
    }
  }
  return thought;
}

}  // namespace dryout::casework
